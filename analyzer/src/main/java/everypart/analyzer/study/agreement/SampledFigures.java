package everypart.analyzer.study.agreement;

import everypart.analyzer.study.statistics.ClusteredRate;
import everypart.analyzer.study.statistics.Estimate;
import everypart.analyzer.study.statistics.Interval;
import everypart.analyzer.study.statistics.Level;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Figures over coded items that were drawn from strata with weights and come in clusters.
 *
 * <p>A figure is a function of weighted sums over items (Horvitz DG, Thompson DJ (1952) JASA
 * 47:663-685). Its variance is linearised: each item's part in it is its weight times the gradient
 * (Woodruff RS (1971) A simple method for approximating the variance of a complicated estimate.
 * JASA 66:411-414; Binder DA (1983) International Statistical Review 51:279-292). Parts are taken
 * from their stratum's mean, strata with one item together (Cochran WG (1977) Sampling Techniques,
 * 3rd ed., sections 5A.12 and 11.18), then summed over clusters, whose spread is the variance. The
 * degrees of freedom are one less than the effective number of clusters (Carter AV, Schnepel KT,
 * Steigerwald DG (2017) Asymptotic behavior of a t-test robust to cluster heterogeneity. Review of
 * Economics and Statistics 99:698-709). No correction for a finite set is made, so that intervals
 * are rather too wide than too narrow where much of the set is coded.
 */
final class SampledFigures {
  /** A step of the gradient, relative to the sum of weights. */
  private static final double STEP = 1e-6;

  /** An item. */
  static final class Item {
    private final double[] values;
    private final double weight;
    private final String stratum;
    private final String cluster;

    /**
     * Makes an item.
     *
     * @param weight how many items of the set it stands for
     * @param stratum the stratum it was drawn from
     * @param cluster what it comes from
     * @param values what it adds to the sums
     */
    Item(double weight, String stratum, String cluster, double... values) {
      this.values = values.clone();
      this.weight = weight;
      this.stratum = stratum;
      this.cluster = cluster;
    }
  }

  /** A figure as a function of sums; not a number where it cannot be computed. */
  interface Figure {
    double of(double[] sums);
  }

  /**
   * A figure.
   *
   * @param value its value
   * @param variance the variance of that
   * @param degreesOfFreedom of Student's t
   */
  record Result(double value, double variance, double degreesOfFreedom) {
    Estimate interval(Level level, double least, double most) {
      double half = level.studentQuantile(degreesOfFreedom) * Math.sqrt(variance);
      return new Estimate(
          value, new Interval(Math.max(least, value - half), Math.min(most, value + half)));
    }
  }

  private final List<Item> items;
  private final int width;
  private final double[] sums;
  private final double total;

  /**
   * Takes items.
   *
   * @param items at least one, all with as many values
   */
  SampledFigures(List<Item> items) {
    double weights = items.stream().mapToDouble(item -> item.weight).sum();
    // Weights are scaled to the number of items, for coefficients that depend on it.
    double scale = items.size() / weights;
    this.items =
        items.stream()
            .map(one -> new Item(one.weight * scale, one.stratum, one.cluster, one.values))
            .toList();
    this.width = items.get(0).values.length;
    this.sums = new double[width];
    for (Item item : this.items) {
      for (int at = 0; at < width; at++) {
        sums[at] += item.weight * item.values[at];
      }
    }
    this.total = items.size();
  }

  /** Returns a weighted sum. */
  double sum(int value) {
    return sums[value];
  }

  /** Returns how many clusters there are. */
  long clusters() {
    return items.stream().map(item -> item.cluster).distinct().count();
  }

  /** Returns whether each item is a cluster of its own, of the same weight, from one stratum. */
  boolean plain() {
    return clusters() == items.size()
        && items.stream().allMatch(item -> Math.abs(item.weight - 1) < 1e-9)
        && items.stream().map(item -> item.stratum).distinct().count() == 1;
  }

  /** Returns a figure with its variance; nothing where it cannot be had. */
  Optional<Result> result(Figure figure) {
    double value = figure.of(sums);
    long clusters = clusters();
    if (!Double.isFinite(value) || clusters < 2) {
      return Optional.empty();
    }
    double[] gradient = new double[width];
    double step = STEP * total;
    for (int at = 0; at < width; at++) {
      double[] moved = sums.clone();
      moved[at] += step;
      double up = figure.of(moved);
      moved[at] -= 2 * step;
      gradient[at] = (up - figure.of(moved)) / (2 * step);
      if (!Double.isFinite(gradient[at])) {
        gradient[at] = (up - value) / step;
      }
    }
    double[] parts = new double[items.size()];
    for (int at = 0; at < parts.length; at++) {
      Item item = items.get(at);
      for (int feature = 0; feature < width; feature++) {
        parts[at] += item.weight * gradient[feature] * item.values[feature];
      }
    }
    centre(parts);
    Map<String, double[]> byCluster = new HashMap<>();
    for (int at = 0; at < parts.length; at++) {
      double[] sum = byCluster.computeIfAbsent(items.get(at).cluster, name -> new double[2]);
      sum[0] += parts[at];
      sum[1] += items.get(at).weight;
    }
    double squares = 0;
    double weights = 0;
    for (double[] cluster : byCluster.values()) {
      squares += cluster[0] * cluster[0];
      weights += cluster[1] * cluster[1];
    }
    double degrees = total * total / weights - 1;
    return Double.isFinite(squares) && degrees > 0
        ? Optional.of(new Result(value, squares * clusters / (clusters - 1.0), degrees))
        : Optional.empty();
  }

  /** Takes from each part the mean of its stratum. */
  private void centre(double[] parts) {
    Map<String, List<Integer>> strata = new HashMap<>();
    for (int at = 0; at < parts.length; at++) {
      strata.computeIfAbsent(items.get(at).stratum, name -> new ArrayList<>()).add(at);
    }
    if (strata.size() < 2) {
      return;
    }
    List<Integer> alone = new ArrayList<>();
    for (List<Integer> members : strata.values()) {
      if (members.size() == 1) {
        alone.addAll(members);
      } else {
        centre(parts, members);
      }
    }
    if (alone.size() > 1) {
      centre(parts, alone);
    }
  }

  private static void centre(double[] parts, List<Integer> members) {
    double mean = members.stream().mapToDouble(at -> parts[at]).average().orElse(0);
    double scale = Math.sqrt(members.size() / (members.size() - 1.0));
    members.forEach(at -> parts[at] = (parts[at] - mean) * scale);
  }

  /**
   * Returns a share of weighted items with Wilson's interval at its effective size.
   *
   * @param part the value that counts those that hit
   * @param whole the value that counts all
   */
  Optional<Estimate> share(int part, int whole, Level level) {
    Optional<Result> result = result(of -> of[part] / of[whole]);
    return result.map(
        found -> {
          double rate = Math.max(0, Math.min(1, found.value()));
          return new Estimate(
              rate,
              ClusteredRate.interval(
                  rate, found.variance(), found.degreesOfFreedom(), worth(whole), level));
        });
  }

  /** Returns how many clusters of like weight the items with a value are worth. */
  double worth(int value) {
    Map<String, Double> byCluster = new HashMap<>();
    items.forEach(
        item -> byCluster.merge(item.cluster, item.weight * item.values[value], Double::sum));
    double sum = byCluster.values().stream().mapToDouble(one -> one).sum();
    double squares = byCluster.values().stream().mapToDouble(one -> one * one).sum();
    return squares > 0 ? sum * sum / squares : 0;
  }
}
