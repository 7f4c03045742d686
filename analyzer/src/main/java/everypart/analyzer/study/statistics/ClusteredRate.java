package everypart.analyzer.study.statistics;

import java.util.Optional;

/**
 * A proportion counted in clusters, such as the demands of one student or of one class, whose
 * answers resemble each other more than those of others.
 *
 * <p>The variance is {@link ClusterRobust}'s. The interval is Wilson's with the effective sample
 * size r(1-r)/variance, scaled by the squared ratio of normal and t quantiles: Korn EL, Graubard BI
 * (1998) Confidence intervals for proportions with small expected number of positive counts
 * estimated from survey data. Survey Methodology 24:193-201; Dean N, Pagano M (2015) Evaluating
 * confidence interval methods for binomial proportions in clustered surveys. J Survey Statistics
 * and Methodology 3:484-503. When no cluster or every cluster hits, where the variance says
 * nothing, each cluster counts once.
 *
 * <p>Not safe for use by several threads.
 */
public final class ClusteredRate {
  private final ClusterRobust model = new ClusterRobust();
  private final Evidence evidence = new Evidence();
  private long hits;
  private long total;

  /** Makes one without clusters. */
  public ClusteredRate() {}

  /** Adds a cluster; one without a count changes nothing. */
  public void add(long clusterHits, long clusterTotal) {
    if (clusterHits < 0 || clusterHits > clusterTotal) {
      throw new IllegalArgumentException("no proportion: " + clusterHits + " of " + clusterTotal);
    }
    model.items(1, 0, clusterTotal, clusterHits, clusterHits);
    model.endCluster();
    evidence.add(clusterHits, clusterTotal);
    hits += clusterHits;
    total += clusterTotal;
  }

  /** Returns how many clusters have a count. */
  public long clusters() {
    return model.clusters();
  }

  /** Returns the variance of the proportion; nothing with fewer than two clusters. */
  public Optional<Double> variance() {
    return model.contrast(1, 0).map(ClusterRobust.Contrast::variance);
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

  /** Returns the correlation of items within clusters, 0 to 1; nothing where all or none hit. */
  public Optional<Double> likeness() {
    return model.clustered() && hits > 0 && hits < total
        ? Optional.of(model.likeness())
        : Optional.empty();
  }

  /** Returns how the interval is computed. */
  public Method method() {
    Optional<ClusterRobust.Contrast> contrast = model.contrast(1, 0);
    Method decided = Method.decide(model, contrast, evidence.worth(), Method.FEWEST_FOR_RATE);
    // Wilson's formula still has something to say where the variance has not.
    return decided.name() == Method.Name.NONE && model.clusters() > 1
        ? new Method(
            Method.Name.CLUSTERED,
            model.clusters(),
            Optional.empty(),
            Optional.of(
                "Nothing differs between clusters, so each of them counts once in the interval."))
        : decided;
  }

  /** Returns the interval; nothing with fewer than two clusters. */
  public Optional<Interval> interval(Level level) {
    Method method = method();
    if (method.name() == Method.Name.NONE) {
      return Optional.empty();
    }
    if (method.name() == Method.Name.ALONE) {
      return Optional.of(new Proportion(hits, total).wilson(level));
    }
    double rate = (double) hits / total;
    return Optional.of(
        model
            .contrast(1, 0)
            .map(
                found ->
                    interval(
                        rate,
                        found.variance(),
                        found.degreesOfFreedom(),
                        (double) model.clusters(),
                        level))
            .orElseGet(() -> interval(rate, 0, 1, (double) model.clusters(), level)));
  }

  /**
   * Returns Wilson's interval at the effective size of a rate.
   *
   * @param variance of the rate
   * @param degreesOfFreedom of that
   * @param size the size to take where the variance says nothing, since it is 0 or the rate 0 or 1
   */
  public static Interval interval(
      double rate, double variance, double degreesOfFreedom, double size, Level level) {
    double z = level.normalQuantile();
    if (variance <= 0 || rate <= 0 || rate >= 1) {
      return Proportion.wilson(rate, size, z);
    }
    double quantiles = z / level.studentQuantile(degreesOfFreedom);
    return Proportion.wilson(rate, rate * (1 - rate) / variance * quantiles * quantiles, z);
  }
}
