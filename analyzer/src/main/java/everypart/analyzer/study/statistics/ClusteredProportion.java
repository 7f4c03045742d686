package everypart.analyzer.study.statistics;

import java.util.Optional;

/**
 * A proportion counted in clusters, such as the demands of one student or of one class, whose
 * answers resemble each other more than those of others.
 *
 * <p>The proportion is the ratio r = &Sigma;y / &Sigma;m over clusters with y hits of m. Its
 * variance is the linearised one for K clusters, K/(K-1) &middot; &Sigma;(y - r m)&sup2; /
 * (&Sigma;m)&sup2;: Cochran WG (1977) Sampling Techniques, 3rd ed., section 3.12; Williams RL
 * (2000) A note on robust variance estimation for cluster-correlated data. Biometrics 56:645-646.
 * The interval is Wilson's with the effective sample size r(1-r)/variance scaled by the squared
 * ratio of normal and t quantiles: Korn EL, Graubard BI (1998) Confidence intervals for proportions
 * with small expected number of positive counts estimated from survey data. Survey Methodology
 * 24:193-201; Dean N, Pagano M (2015) Evaluating confidence interval methods for binomial
 * proportions in clustered surveys. J Survey Statistics and Methodology 3:484-503. Here the
 * effective size never exceeds the count, and when no cluster or every cluster hits, where the
 * variance says nothing, each cluster counts once.
 *
 * <p>Not safe for use by several threads.
 */
public final class ClusteredProportion {
  private long clusters;
  private long hits;
  private long total;
  // Whole-number sums, so that the order of clusters cannot change a digit. 128 bits are not
  // needed:
  // a sum of squares overflows only past 3e9 demands in one cluster, and then throws.
  private long hitsSquared;
  private long totalSquared;
  private long product;

  /** Makes one without clusters. */
  public ClusteredProportion() {}

  /**
   * Adds a cluster; one without a count changes nothing.
   *
   * @throws ArithmeticException when a sum of squares does not fit a long
   */
  public void add(long clusterHits, long clusterTotal) {
    if (clusterHits < 0 || clusterHits > clusterTotal) {
      throw new IllegalArgumentException("no proportion: " + clusterHits + " of " + clusterTotal);
    }
    if (clusterTotal == 0) {
      return;
    }
    clusters++;
    hits = Math.addExact(hits, clusterHits);
    total = Math.addExact(total, clusterTotal);
    hitsSquared = Math.addExact(hitsSquared, Math.multiplyExact(clusterHits, clusterHits));
    totalSquared = Math.addExact(totalSquared, Math.multiplyExact(clusterTotal, clusterTotal));
    product = Math.addExact(product, Math.multiplyExact(clusterHits, clusterTotal));
  }

  /** Returns how many clusters have a count. */
  public long clusters() {
    return clusters;
  }

  /** Returns the variance of the proportion; nothing with fewer than two clusters. */
  public Optional<Double> variance() {
    if (clusters < 2) {
      return Optional.empty();
    }
    double rate = (double) hits / total;
    double residual = hitsSquared - 2 * rate * product + rate * rate * totalSquared;
    double scaled = Math.max(0, residual) / ((double) total * total);
    return Optional.of(scaled * clusters / (clusters - 1));
  }

  /**
   * Returns the design effect: how many times larger the variance is than if every item stood
   * alone. Nothing with fewer than two clusters, or when all or none hit.
   */
  public Optional<Double> designEffect() {
    double rate = total == 0 ? 0 : (double) hits / total;
    return rate == 0 || rate == 1
        ? Optional.empty()
        : variance().map(variance -> variance / (rate * (1 - rate) / total));
  }

  /** Returns the interval; nothing with fewer than two clusters. */
  public Optional<Interval> interval(Level level) {
    return variance().map(variance -> interval(level, variance));
  }

  private Interval interval(Level level, double variance) {
    double rate = (double) hits / total;
    double z = level.normalQuantile();
    double size = (double) total;
    if (rate == 0 || rate == 1) {
      size = (double) clusters;
    } else if (variance > 0) {
      double quantiles = z / level.studentQuantile(clusters - 1.0);
      size = Math.min((double) total, rate * (1 - rate) / variance * quantiles * quantiles);
    }
    return Proportion.wilson(rate, size, z);
  }
}
