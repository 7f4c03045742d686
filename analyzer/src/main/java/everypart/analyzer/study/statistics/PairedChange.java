package everypart.analyzer.study.statistics;

import java.util.Optional;
import org.apache.commons.statistics.inference.BinomialTest;

/**
 * The same items looked at twice, such as the demands of a draft and of its revision.
 *
 * @param both hits before and after
 * @param before hits before only
 * @param after hits after only
 * @param neither hits neither time
 */
public record PairedChange(long both, long before, long after, long neither) {
  /** Up to this many changed items the exact test is used; beyond it, the chi-square test. */
  public static final long EXACT_UP_TO = 10_000;

  /**
   * Checks the counts.
   *
   * @throws IllegalArgumentException when one is negative
   */
  public PairedChange {
    if (both < 0 || before < 0 || after < 0 || neither < 0) {
      throw new IllegalArgumentException(
          "counts are not negative: " + both + ", " + before + ", " + after + ", " + neither);
    }
  }

  /** Returns how many items were looked at twice. */
  public long total() {
    return both + before + after + neither;
  }

  /** Returns how many items changed. */
  public long changed() {
    return before + after;
  }

  /**
   * Tests whether items changed one way as often as the other. Nothing when none changed.
   *
   * <p>McNemar Q (1947) Note on the sampling error of the difference between correlated proportions
   * or percentages. Psychometrika 12:153-157. Exact by the binomial distribution of Apache Commons
   * Statistics up to {@link #EXACT_UP_TO} changes, chi-square without continuity correction beyond.
   */
  public Optional<SignificanceTest> test() {
    long changed = changed();
    if (changed == 0) {
      return Optional.empty();
    }
    if (changed > EXACT_UP_TO) {
      return Optional.of(chiSquare());
    }
    double p = BinomialTest.withDefaults().test((int) changed, (int) before, 0.5).getPValue();
    return Optional.of(
        new SignificanceTest(
            SignificanceTest.Name.MCNEMAR_EXACT, Optional.empty(), 0, Math.min(1, p)));
  }

  /** Returns McNemar's chi-square test without continuity correction; asks for a change. */
  SignificanceTest chiSquare() {
    double difference = (double) (before - after);
    double statistic = difference * difference / (before + after);
    return ChiSquare.of(SignificanceTest.Name.MCNEMAR_CHI_SQUARE, statistic, 1);
  }

  /**
   * Returns the change in the rate, after less before, with the adjusted Wald interval; nothing
   * without items.
   *
   * <p>Bonett DG, Price RM (2012) Adjusted Wald confidence interval for a difference of binomial
   * proportions based on paired data. J Educational and Behavioral Statistics 37:479-488: one is
   * added to each of the two changed counts, two to the total.
   */
  public Optional<Estimate> change(Level level) {
    if (total() == 0) {
      return Optional.empty();
    }
    double size = total() + 2.0;
    double gained = (after + 1) / size;
    double lost = (before + 1) / size;
    double difference = gained - lost;
    double error = Math.sqrt((gained + lost - difference * difference) / size);
    double half = level.normalQuantile() * error;
    Interval interval = new Interval(difference - half, difference + half).within(-1, 1);
    return Optional.of(new Estimate((double) (after - before) / total(), interval));
  }
}
