package everypart.analyzer.study.statistics;

/**
 * An interval estimate.
 *
 * @param low the lower limit; may be negative infinity
 * @param high the upper limit; may be positive infinity
 */
public record Interval(double low, double high) {
  /**
   * Checks the limits.
   *
   * @throws IllegalArgumentException when they are not in order or not numbers
   */
  public Interval {
    if (!(low <= high)) {
      throw new IllegalArgumentException(
          "an interval runs from low to high, not " + low + " to " + high);
    }
  }

  /** Returns whether a value lies in the interval, limits included. */
  public boolean contains(double value) {
    return low <= value && value <= high;
  }

  /** Returns this interval cut to the range of a proportion, 0 to 1. */
  Interval withinUnit() {
    return within(0, 1);
  }

  /** Returns this interval cut to a range. */
  Interval within(double least, double most) {
    return new Interval(
        Math.min(most, Math.max(least, low)), Math.max(least, Math.min(most, high)));
  }
}
