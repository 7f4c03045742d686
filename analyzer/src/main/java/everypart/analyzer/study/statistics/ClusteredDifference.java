package everypart.analyzer.study.statistics;

import java.util.Optional;
import org.apache.commons.statistics.distribution.TDistribution;

/**
 * Two proportions counted in clusters, side by side. A cluster may hold items of both, as a class
 * holds girls and boys, or of one.
 *
 * <p>Where no cluster has more than one item, the ways for items that stand alone are taken ({@link
 * Comparison}, {@link TwoByTwo}). Else the difference is that of two coefficients of {@link
 * ClusterRobust}, and the odds ratio's logarithm is linearised (Binder DA (1983) On the variances
 * of asymptotically normal estimators from complex surveys. International Statistical Review
 * 51:279-292).
 *
 * <p>Not safe for use by several threads.
 */
public final class ClusteredDifference {
  /** A side that brings more than this share of the variance counts as lopsided. */
  private static final double LOPSIDED = 0.7;

  /** What a lopsided difference's side should rest on; chosen as the bounds of {@link Method}. */
  private static final double FEWEST_WHEN_LOPSIDED = 16;

  private final ClusterRobust model = new ClusterRobust();
  private final Evidence evidence = new Evidence();
  private final Evidence first = new Evidence();
  private final Evidence second = new Evidence();
  private final long[] counts = new long[4];

  /** Whether no cluster has items of both sides. */
  private boolean apart = true;

  /** Makes one without clusters. */
  public ClusteredDifference() {}

  /** Adds a cluster; one without a count changes nothing. */
  public void add(long firstHits, long firstTotal, long secondHits, long secondTotal) {
    model.items(1, 0, firstTotal, firstHits, firstHits);
    model.items(0, 1, secondTotal, secondHits, secondHits);
    model.endCluster();
    evidence.add(firstHits + secondHits, firstTotal + secondTotal);
    first.add(firstHits, firstTotal);
    second.add(secondHits, secondTotal);
    apart &= firstTotal == 0 || secondTotal == 0;
    counts[0] += firstHits;
    counts[1] += firstTotal;
    counts[2] += secondHits;
    counts[3] += secondTotal;
  }

  /**
   * Returns the counts.
   *
   * @throws IllegalArgumentException when a side has none
   */
  public Comparison rates() {
    return new Comparison(
        new Proportion(counts[0], counts[1]), new Proportion(counts[2], counts[3]));
  }

  /** Returns how interval and test are computed. */
  public Method method() {
    Optional<ClusterRobust.Contrast> contrast = model.contrast(1, -1);
    Method method = Method.decide(model, contrast, evidence.worth(), Method.FEWEST_FOR_DIFFERENCE);
    if (method.name() == Method.Name.ALONE) {
      TwoByTwo table = rates().table();
      double expected =
          ChiSquare.smallestExpected(
              new long[][] {{table.both(), table.first()}, {table.second(), table.neither()}});
      return expected < 5
          ? method.warning("So few are on one side that the exact test hardly ever fires.")
          : method;
    }
    return method.name() == Method.Name.CLUSTERED && lopsided()
        ? method.warning(
            "One group brings most of the uncertainty and has few clusters: interval and test may"
                + " not keep their level.")
        : method;
  }

  /**
   * Returns whether one side brings most of the variance, as the clusters tell or as their number
   * does. To ask the clusters alone would be to pass just those studies in which the smaller side
   * varies less than it should, whose intervals are then too short.
   */
  private boolean lopsided() {
    return lopsided(
            model.contrast(1, 0).map(ClusterRobust.Contrast::variance).orElse(0.0),
            model.contrast(0, 1).map(ClusterRobust.Contrast::variance).orElse(0.0))
        || (apart && lopsided(1 / first.size(), 1 / second.size()));
  }

  private boolean lopsided(double one, double other) {
    double share = Math.max(one, other) / (one + other);
    return share > LOPSIDED && (one > other ? first : second).worth() < FEWEST_WHEN_LOPSIDED;
  }

  /** Returns the difference, first less second; nothing where nothing tells its uncertainty. */
  public Optional<Estimate> difference(Level level) {
    return switch (method().name()) {
      case ALONE -> Optional.of(rates().riskDifference(level));
      case CLUSTERED ->
          model
              .contrast(1, -1)
              .map(found -> found.estimate(level))
              .map(found -> new Estimate(found.value(), found.interval().within(-1, 1)));
      case NONE -> Optional.empty();
    };
  }

  /**
   * Returns the odds ratio, first over second; nothing where nothing tells its uncertainty, or
   * where demands are clustered and a side has all or none.
   */
  public Optional<Estimate> oddsRatio(Level level) {
    if (method().name() == Method.Name.ALONE) {
      return rates().table().oddsRatio(level);
    }
    double one = rates().first().rate();
    double other = rates().second().rate();
    if (one == 0 || one == 1 || other == 0 || other == 1) {
      return Optional.empty();
    }
    double log = Math.log(one / (1 - one)) - Math.log(other / (1 - other));
    return model
        .contrast(1 / (one * (1 - one)), -1 / (other * (1 - other)))
        .map(
            found -> {
              double half =
                  level.studentQuantile(found.degreesOfFreedom()) * Math.sqrt(found.variance());
              return new Estimate(
                  Math.exp(log), new Interval(Math.exp(log - half), Math.exp(log + half)));
            });
  }

  /** Tests whether the two differ; nothing where nothing tells the uncertainty. */
  public Optional<SignificanceTest> test() {
    return switch (method().name()) {
      case ALONE -> rates().table().independence();
      case CLUSTERED -> model.contrast(1, -1).map(ClusteredDifference::test);
      case NONE -> Optional.empty();
    };
  }

  /** Returns the t test of whether a contrast is 0. */
  static SignificanceTest test(ClusterRobust.Contrast found) {
    double statistic = found.value() / Math.sqrt(found.variance());
    double tail =
        TDistribution.of(found.degreesOfFreedom()).survivalProbability(Math.abs(statistic));
    return new SignificanceTest(
        SignificanceTest.Name.CLUSTER_ROBUST,
        Optional.of(statistic),
        found.degreesOfFreedom(),
        Math.min(1, 2 * tail));
  }
}
