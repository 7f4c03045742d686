package everypart.cli.intake;

import java.util.List;

/**
 * What came of one row, with what was noticed while reading it, so that messages keep the order of
 * the rows however many threads work on them.
 *
 * @param number its running number, from 1
 * @param arrival the response, or the problem in its place
 * @param noticed what was noticed while it was read
 */
public record NumberedRow(long number, Arrival arrival, List<InputProblem> noticed) {
  /** Copies the list. */
  public NumberedRow {
    noticed = List.copyOf(noticed);
  }
}
