package everypart.analyzer.study.statistics;

import java.util.Locale;
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
  /** A difference one side of which has less than this share of the clusters is lopsided. */
  private static final double SMALL_SIDE = 0.3;

  /**
   * How many clusters the small side of a lopsided difference should have a share in. Both bounds
   * were chosen on made-up studies, and no source has them: 12 to 200 clusters, rates of .01 to .5,
   * correlations of 0 to .4, 500 studies a design. With a fifth or a sixth of the clusters on one
   * side, intervals without this warning held in .85 to .91; those that it lets pass keep .93 to
   * .97, see the tables of {@code docs/statistics.md}.
   */
  private static final double FEWEST_FOR_SMALL_SIDE = 16;

  /**
   * How many clusters should tell the rate of each group where groups are in different clusters; no
   * source has it. Where answers are alike in one group only, intervals without this warning held
   * in as few as .66; with it, of 1,096 cells of made-up studies (eight designs, the same clusters,
   * rates, correlations and numbers as above) that are not warned of in most studies none is
   * outside .93 to .97 by more than two standard errors. It asks the same of both groups, so that
   * it does not pass just those studies in which they are alike.
   */
  private static final double FEWEST_FOR_A_SIDE = 5;

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
    if (method.name() != Method.Name.CLUSTERED || !apart) {
      return method;
    }
    double side = Math.min(first.worth(), second.worth());
    double small = smallSide();
    return side < FEWEST_FOR_A_SIDE
        ? method.warning(warning("What tells the rate of one group", side, FEWEST_FOR_A_SIDE))
        : small < FEWEST_FOR_SMALL_SIDE
            ? method.warning(
                warning(
                    "One group is small beside the other, and what tells its rate",
                    small,
                    FEWEST_FOR_SMALL_SIDE))
            : method;
  }

  private static String warning(String what, double worth, double enough) {
    return String.format(
        Locale.ROOT,
        "%s comes from too few clusters (worth %.1f, %.0f are needed): interval and test may not"
            + " keep their level.",
        what,
        worth,
        enough);
  }

  /**
   * Returns how many of the clusters that tell the figure are to be expected on the small side;
   * without limit where no side is small. It goes by how many clusters a side has, never by how
   * many missing demands or how much variance were found on it: to ask those would be to pass just
   * those studies in which the two sides happen to be alike, whose intervals then hold too often,
   * up to always.
   */
  private double smallSide() {
    double share = Math.min(first.size(), second.size()) / (first.size() + second.size());
    return share < SMALL_SIDE ? share * evidence.worth() : Double.POSITIVE_INFINITY;
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
