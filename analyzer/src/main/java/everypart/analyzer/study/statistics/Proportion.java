package everypart.analyzer.study.statistics;

import java.util.Optional;
import org.apache.commons.statistics.interval.BinomialConfidenceInterval;

/**
 * So many of so many, at least one.
 *
 * @param hits how many have the property
 * @param total how many there are, 1 to {@link Integer#MAX_VALUE}
 */
public record Proportion(long hits, long total) {
  /**
   * Checks the counts.
   *
   * @throws IllegalArgumentException when they are out of range
   */
  public Proportion {
    if (total < 1 || total > Integer.MAX_VALUE || hits < 0 || hits > total) {
      throw new IllegalArgumentException("no proportion: " + hits + " of " + total);
    }
  }

  /** Returns the proportion, or nothing when there is nothing to count. */
  public static Optional<Proportion> of(long hits, long total) {
    return total == 0 ? Optional.empty() : Optional.of(new Proportion(hits, total));
  }

  /** Returns hits over total. */
  public double rate() {
    return (double) hits / total;
  }

  /**
   * Returns the score interval without continuity correction.
   *
   * <p>Wilson EB (1927) Probable inference, the law of succession, and statistical inference. JASA
   * 22:209-212; recommended as method 3 by Newcombe RG (1998) Two-sided confidence intervals for
   * the single proportion. Statistics in Medicine 17:857-872. Computed by Apache Commons
   * Statistics.
   */
  public Interval wilson(Level level) {
    var limits =
        BinomialConfidenceInterval.WILSON_SCORE.fromErrorRate(
            (int) total, (int) hits, level.errorRate());
    // At no hits and at all hits one limit is exact; rounding must not move it.
    return new Interval(
        hits == 0 ? 0 : Math.max(0, limits.getLowerBound()),
        hits == total ? 1 : Math.min(1, limits.getUpperBound()));
  }

  /**
   * Returns the score interval for a sample size that need not be whole, as design effects give.
   *
   * @param rate the proportion
   * @param size the effective sample size, above 0
   */
  static Interval wilson(double rate, double size, double z) {
    double square = z * z;
    double centre = rate + square / (2 * size);
    double half = z * Math.sqrt(rate * (1 - rate) / size + square / (4 * size * size));
    double scale = 1 + square / size;
    return new Interval((centre - half) / scale, (centre + half) / scale).withinUnit();
  }
}
