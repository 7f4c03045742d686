package everypart.analyzer.judge;

import everypart.analyzer.text.Span;
import java.util.List;

/**
 * What a judge found for one demand.
 *
 * @param probability how likely the demand is addressed, 0 to 1
 * @param addressed whether it is taken as addressed
 * @param found how many of those asked for are there, 0 when it is not addressed
 * @param evidence the words it relies on, in the response; empty when it is not addressed
 * @param why the reasons, in plain words, most important first
 * @param look whether the judge is unsure enough for a person to look
 */
public record Finding(
    double probability,
    boolean addressed,
    int found,
    List<Span> evidence,
    List<String> why,
    boolean look) {
  /**
   * Copies the lists.
   *
   * @throws IllegalArgumentException when the probability is not between 0 and 1, or {@code found}
   *     does not fit {@code addressed}
   */
  public Finding {
    evidence = List.copyOf(evidence);
    why = List.copyOf(why);
    if (!(probability >= 0 && probability <= 1)) {
      throw new IllegalArgumentException("probability is " + probability);
    }
    if (found < 0 || addressed != (found > 0)) {
      throw new IllegalArgumentException("found is " + found + ", addressed " + addressed);
    }
  }

  /** Returns how likely it is that {@code addressed} is right. */
  public double confidence() {
    return addressed ? probability : 1 - probability;
  }
}
