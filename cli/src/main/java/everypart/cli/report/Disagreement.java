package everypart.cli.report;

import java.util.List;
import java.util.Optional;

/**
 * What a reader needs to see of a demand on which program and people differ.
 *
 * @param people the people's codes in words, as in "ada 1, ben 0"
 * @param quotes the words the verdict relies on
 * @param why the program's reasons
 * @param text the whole response, where it is at hand
 */
public record Disagreement(
    String people, List<String> quotes, List<String> why, Optional<String> text) {
  /** Copies the lists. */
  public Disagreement {
    quotes = List.copyOf(quotes);
    why = List.copyOf(why);
  }
}
