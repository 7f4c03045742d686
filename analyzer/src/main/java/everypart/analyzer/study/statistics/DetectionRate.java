package everypart.analyzer.study.statistics;

import java.util.Optional;

/**
 * A sensitivity or a specificity as estimated from coded items.
 *
 * @param rate the share of the coded items that the program got right
 * @param size how many coded items it rests on; with sampling weights, how many equally weighted
 *     ones they are worth
 */
public record DetectionRate(double rate, double size) {
  /**
   * Checks the range.
   *
   * @throws IllegalArgumentException when the rate is no proportion or the size not above 0
   */
  public DetectionRate {
    if (!(rate >= 0 && rate <= 1) || !(size > 0)) {
      throw new IllegalArgumentException("no detection rate: " + rate + " of " + size);
    }
  }

  /** Returns the rate of a plain count. */
  public static DetectionRate of(Proportion proportion) {
    return new DetectionRate(proportion.rate(), (double) proportion.total());
  }

  /**
   * Returns the rate of weighted counts; nothing without weight.
   *
   * <p>The size is Kish's (Kish L (1965) Survey Sampling, section 11.7): the squared sum of weights
   * over the sum of their squares.
   *
   * @param hits the weight of the items that the program got right
   * @param total the weight of all items
   * @param squares the sum of the squares of all weights
   */
  public static Optional<DetectionRate> weighted(double hits, double total, double squares) {
    return total > 0 && squares > 0
        ? Optional.of(new DetectionRate(Math.min(1, hits / total), total * total / squares))
        : Optional.empty();
  }

  /** Returns Wilson's interval. */
  public Interval wilson(Level level) {
    return Proportion.wilson(rate, size, level.normalQuantile());
  }

  /** Returns the rate after one hit and one miss have been added. */
  DetectionRate plusOneEach() {
    return new DetectionRate((rate * size + 1) / (size + 2), size + 2);
  }
}
