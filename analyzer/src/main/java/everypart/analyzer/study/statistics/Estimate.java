package everypart.analyzer.study.statistics;

/**
 * An estimate with its interval.
 *
 * @param value the point estimate
 * @param interval its interval, which need not be centred on it
 */
public record Estimate(double value, Interval interval) {}
