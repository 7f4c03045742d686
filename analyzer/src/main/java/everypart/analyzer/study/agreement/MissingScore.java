package everypart.analyzer.study.agreement;

import everypart.analyzer.study.statistics.Proportion;
import java.util.Optional;

/**
 * How well "missing" was found, taking one coder's codes as the truth.
 *
 * @param found missing and called missing
 * @param falseAlarms addressed but called missing
 * @param overlooked missing but not called so
 * @param clear addressed and not called missing
 */
public record MissingScore(long found, long falseAlarms, long overlooked, long clear) {
  /** Returns how many of those called missing are; nothing when none was. */
  public Optional<Proportion> precision() {
    return Proportion.of(found, found + falseAlarms);
  }

  /** Returns how many of those missing were found, the sensitivity; nothing when none is. */
  public Optional<Proportion> recall() {
    return Proportion.of(found, found + overlooked);
  }

  /** Returns how many of those addressed were left alone; nothing when none is. */
  public Optional<Proportion> specificity() {
    return Proportion.of(clear, clear + falseAlarms);
  }

  /**
   * Returns the harmonic mean of precision and recall; nothing when nothing is or was called
   * missing.
   *
   * <p>Van Rijsbergen CJ (1979) Information Retrieval, 2nd ed., chapter 7.
   */
  public Optional<Double> f1() {
    long counted = 2 * found + falseAlarms + overlooked;
    return counted == 0 ? Optional.empty() : Optional.of(2.0 * found / counted);
  }
}
