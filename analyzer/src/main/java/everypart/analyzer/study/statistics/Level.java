package everypart.analyzer.study.statistics;

import org.apache.commons.statistics.distribution.NormalDistribution;
import org.apache.commons.statistics.distribution.TDistribution;

/**
 * How often intervals are to hold the true value, over many studies.
 *
 * @param value the level, above 0 and below 1, such as 0.95
 */
public record Level(double value) {
  private static final NormalDistribution NORMAL = NormalDistribution.of(0, 1);

  /** The level that reports use unless told otherwise. */
  public static final Level DEFAULT = new Level(0.95);

  /**
   * Checks the level.
   *
   * @throws IllegalArgumentException when it is not between 0 and 1
   */
  public Level {
    if (!(value > 0 && value < 1)) {
      throw new IllegalArgumentException("a level lies between 0 and 1, not " + value);
    }
  }

  /** Returns how often intervals may miss, 0.05 for a level of 0.95. */
  double errorRate() {
    return 1 - value;
  }

  /** Returns the two-sided quantile of the standard normal distribution, 1.96 for 0.95. */
  public double normalQuantile() {
    return NORMAL.inverseSurvivalProbability(errorRate() / 2);
  }

  /** Returns the two-sided quantile of Student's t distribution. */
  public double studentQuantile(double degreesOfFreedom) {
    return TDistribution.of(degreesOfFreedom).inverseSurvivalProbability(errorRate() / 2);
  }
}
