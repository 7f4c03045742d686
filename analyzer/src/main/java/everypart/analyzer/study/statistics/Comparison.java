package everypart.analyzer.study.statistics;

/**
 * Two independent proportions side by side.
 *
 * @param first the first
 * @param second the second
 */
public record Comparison(Proportion first, Proportion second) {
  /**
   * Returns the difference of rates, first less second, with the score-based interval.
   *
   * <p>Method 10 of Newcombe RG (1998) Interval estimation for the difference between independent
   * proportions: comparison of eleven methods. Statistics in Medicine 17:873-890.
   */
  public Estimate riskDifference(Level level) {
    double a = first.rate();
    double b = second.rate();
    Interval ofFirst = first.wilson(level);
    Interval ofSecond = second.wilson(level);
    double difference = a - b;
    double below = Math.hypot(a - ofFirst.low(), ofSecond.high() - b);
    double above = Math.hypot(ofFirst.high() - a, b - ofSecond.low());
    return new Estimate(
        difference, new Interval(difference - below, difference + above).within(-1, 1));
  }

  /** Returns the counts as a table: one row a proportion, hits before the rest. */
  public TwoByTwo table() {
    return new TwoByTwo(
        first.hits(), first.total() - first.hits(), second.hits(), second.total() - second.hits());
  }
}
