package everypart.analyzer.study.statistics;

import java.util.Optional;

/**
 * The outcome of a test.
 *
 * @param name which test
 * @param statistic its statistic; exact tests have none
 * @param degreesOfFreedom of the statistic's distribution, 0 for exact tests; need not be whole
 * @param p the two-sided probability of data at least as extreme when there is no difference
 */
public record SignificanceTest(
    Name name, Optional<Double> statistic, double degreesOfFreedom, double p) {

  /** The tests in use. */
  public enum Name {
    /** Fisher's exact test. */
    FISHER_EXACT("Fisher exact"),
    /** Pearson's chi-square test. */
    CHI_SQUARE("chi-square"),
    /** Student's t on a cluster-robust standard error. */
    CLUSTER_ROBUST("cluster-robust t"),
    /** McNemar's test, exact by the binomial distribution. */
    MCNEMAR_EXACT("McNemar exact"),
    /** McNemar's chi-square test without continuity correction. */
    MCNEMAR_CHI_SQUARE("McNemar chi-square"),
    /** The Cochran-Armitage test for a trend in proportions. */
    TREND("Cochran-Armitage trend");

    private final String label;

    Name(String label) {
      this.label = label;
    }

    /** Returns the name that reports print. */
    public String label() {
      return label;
    }
  }

  /**
   * Checks the probability.
   *
   * @throws IllegalArgumentException when it is not between 0 and 1
   */
  public SignificanceTest {
    if (!(p >= 0 && p <= 1)) {
      throw new IllegalArgumentException("a probability lies between 0 and 1, not " + p);
    }
  }
}
