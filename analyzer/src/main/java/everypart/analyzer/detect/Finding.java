package everypart.analyzer.detect;

import everypart.analyzer.text.Span;
import java.util.List;

/**
 * What a detector found for one demand.
 *
 * @param found how many of the moves asked for are there, 0 for none
 * @param evidence the words it relies on, in the response; empty when none were found
 * @param why the reasons, in plain words, most important first
 * @param strength how clear the signs are that the demand is addressed, from 0 (clearly not) to 1
 *     (clearly so); 0.5 is undecided
 */
public record Finding(int found, List<Span> evidence, List<String> why, double strength) {
  /**
   * Copies the lists.
   *
   * @throws IllegalArgumentException when {@code found} is negative or {@code strength} is not
   *     between 0 and 1
   */
  public Finding {
    evidence = List.copyOf(evidence);
    why = List.copyOf(why);
    if (found < 0) {
      throw new IllegalArgumentException("found is " + found);
    }
    if (!(strength >= 0 && strength <= 1)) {
      throw new IllegalArgumentException("strength is " + strength);
    }
  }
}
