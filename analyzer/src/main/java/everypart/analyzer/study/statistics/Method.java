package everypart.analyzer.study.statistics;

import java.util.Locale;
import java.util.Optional;

/**
 * How a figure was computed, and what a reader must know to rely on it.
 *
 * @param name which way was taken
 * @param clusters how many clusters have an item
 * @param degreesOfFreedom of Student's t behind the interval; nothing where it has none
 * @param warning in words, where the interval or the test cannot be expected to keep its level
 */
public record Method(
    Name name, long clusters, Optional<Double> degreesOfFreedom, Optional<String> warning) {
  /** The ways. */
  public enum Name {
    /** No cluster has more than one item, so items stand alone. */
    ALONE("each demand alone"),
    /** Items of a cluster may resemble each other: {@link ClusterRobust}. */
    CLUSTERED("cluster-robust (CR2), Student's t"),
    /** There is nothing to tell the uncertainty by. */
    NONE("none");

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
   * With fewer degrees of freedom than this, a warning. This and the next two bounds were chosen on
   * the made-up studies of {@code docs/statistics.md}, so that figures without a warning keep their
   * level; no source.
   */
  static final double FEWEST_DEGREES = 2.5;

  /** A difference or a trend that rests on fewer clusters than this, a warning. */
  public static final double FEWEST_FOR_DIFFERENCE = 8;

  /** A rate that rests on fewer clusters than this, a warning. */
  public static final double FEWEST_FOR_RATE = 10;

  /**
   * Decides how a figure is computed. This is the one place where that is done.
   *
   * @param model the items, in their clusters
   * @param contrast the figure by the cluster-robust way; nothing where it cannot be had
   * @param evidence how many clusters the figure rests on, see {@link Evidence}
   * @param enough how many it should rest on
   */
  static Method decide(
      ClusterRobust model,
      Optional<ClusterRobust.Contrast> contrast,
      double evidence,
      double enough) {
    long clusters = model.clusters();
    if (!model.clustered() && clusters > 1) {
      return new Method(Name.ALONE, clusters, Optional.empty(), Optional.empty());
    }
    if (contrast.isEmpty()) {
      return new Method(
          Name.NONE,
          clusters,
          Optional.empty(),
          clusters == 0
              ? Optional.empty()
              : Optional.of(
                  clusters == 1
                      ? "All comes from one cluster, so nothing tells how far it would vary."
                      : "A side comes from one cluster, or nothing differs between clusters, so"
                          + " nothing tells how far it would vary."));
    }
    double degrees = contrast.get().degreesOfFreedom();
    Optional<String> warning = Optional.empty();
    if (degrees < FEWEST_DEGREES) {
      warning =
          Optional.of(
              String.format(
                  Locale.ROOT,
                  "Too few clusters (%d, worth %.1f degrees of freedom): interval and test may not"
                      + " keep their level.",
                  clusters,
                  degrees));
    } else if (evidence < enough) {
      warning =
          Optional.of(
              String.format(
                  Locale.ROOT,
                  "What tells the figure comes from too few clusters (worth %.1f, %.0f are needed):"
                      + " interval and test may not keep their level.",
                  evidence,
                  enough));
    }
    return new Method(Name.CLUSTERED, clusters, Optional.of(degrees), warning);
  }

  /** Returns this method with a warning, unless it has one. */
  Method warning(String words) {
    return warning.isPresent()
        ? this
        : new Method(name, clusters, degreesOfFreedom, Optional.of(words));
  }
}
