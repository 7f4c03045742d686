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
 * JASA 66:411-414; Binder DA (1983) International Statistical Review 51:279-292). Without strata
 * the parts are summed over clusters, whose spread is the variance. With strata it is the sum of
 * their own spreads (Cochran WG (1977) Sampling Techniques, 3rd ed., section 5A.12), each drawn
 * towards that of strata with the same verdict (after Agresti A, Coull BA (1998) American
 * Statistician 52:119-126), and of what items of one cluster have in common; degrees of freedom are
 * Satterthwaite's (1946). Nor are they more than one less than the effective number of clusters
 * (Carter AV, Schnepel KT, Steigerwald DG (2017) Asymptotic behavior of a t-test robust to cluster
 * heterogeneity. Review of Economics and Statistics 99:698-709). Where items were drawn at random
 * from strata of known size, figures are those that coding the whole set would give: a stratum's
 * part of the variance falls with the share of it that is coded (Cochran, section 5.4), and what
 * items of one cluster have in common adds nothing, since each of them was drawn by itself.
 * Otherwise figures are those of the writers that the set comes from.
 */
final class SampledFigures {
  /** A stratum's spread is drawn towards that of its kin by the weight of so many items. */
  static final double DRAWN = 2;

  /** A step of the gradient, relative to the sum of weights. */
  private static final double STEP = 1e-6;

  /**
   * Where an item was drawn from.
   *
   * @param stratum its stratum
   * @param near strata with the same verdict that are as sure
   * @param kin strata with the same verdict
   * @param size how many items of the set are in the stratum, where items were drawn from it at
   *     random
   */
  record Place(String stratum, String near, String kin, Optional<Long> size) {
    /** Returns what coding some of the stratum leaves open of its spread, 0 to 1. */
    double open(int coded) {
      return size.map(all -> Math.max(0, 1 - coded / (double) all)).orElse(1.0);
    }
  }

  /** An item. */
  static final class Item {
    private final double[] values;
    private final double weight;
    private final Place place;
    private final String cluster;

    /**
     * Makes an item.
     *
     * @param weight how many items of the set it stands for
     * @param place where it was drawn from
     * @param cluster what it comes from
     * @param values what it adds to the sums
     */
    Item(double weight, Place place, String cluster, double... values) {
      this.values = values.clone();
      this.weight = weight;
      this.place = place;
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
    /**
     * Returns a coefficient with an interval of score type.
     *
     * @param chance the share that would differ by chance
     * @param size how many clusters all items are worth
     */
    Estimate corrected(double chance, double size, Level level) {
      double differ = (1 - value) * chance;
      Interval of =
          ClusteredRate.interval(
              Math.max(0, Math.min(1, differ)),
              variance * chance * chance,
              degreesOfFreedom,
              size,
              level);
      return new Estimate(
          value,
          new Interval(Math.max(-1, 1 - of.high() / chance), Math.min(1, 1 - of.low() / chance)));
    }

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
            .map(one -> new Item(one.weight * scale, one.place, one.cluster, one.values))
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

  /** Returns all weighted sums. */
  double[] sums() {
    return sums.clone();
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
        && items.stream().map(item -> item.place).distinct().count() == 1;
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
      for (int feature = 0; feature < width; feature++) {
        parts[at] += gradient[feature] * items.get(at).values[feature];
      }
    }
    return variance(value, parts);
  }

  /** Returns a figure with its variance, from what each item adds to it but for its weight. */
  private Optional<Result> variance(double value, double[] parts) {
    Map<Place, List<Integer>> strata = new HashMap<>();
    for (int at = 0; at < parts.length; at++) {
      strata.computeIfAbsent(items.get(at).place, name -> new ArrayList<>()).add(at);
    }
    double within = 0;
    double satterthwaite = 0;
    double[] centred = new double[parts.length];
    if (strata.size() < 2) {
      for (int at = 0; at < parts.length; at++) {
        centred[at] = items.get(at).weight * parts[at];
      }
    } else {
      for (List<Integer> members : strata.values()) {
        double mean = members.stream().mapToDouble(at -> parts[at]).average().orElse(0);
        double weight =
            members.stream().mapToDouble(at -> items.get(at).weight).average().orElse(0);
        members.forEach(at -> centred[at] = items.get(at).weight * (parts[at] - mean));
        double own =
            members.size()
                * weight
                * weight
                * spread(members, parts)
                * items.get(members.get(0)).place.open(members.size());
        within += own;
        satterthwaite += own * own / Math.max(1, members.size() - 1);
      }
    }
    Map<String, double[]> byCluster = new HashMap<>();
    for (int at = 0; at < parts.length; at++) {
      double[] sum = byCluster.computeIfAbsent(items.get(at).cluster, name -> new double[3]);
      sum[0] += centred[at];
      sum[1] += items.get(at).weight;
      sum[2] += centred[at] * centred[at];
    }
    double squares = 0;
    double alone = 0;
    double weights = 0;
    for (double[] cluster : byCluster.values()) {
      squares += cluster[0] * cluster[0];
      alone += cluster[2];
      weights += cluster[1] * cluster[1];
    }
    double degrees = total * total / weights - 1;
    double variance = squares * byCluster.size() / (byCluster.size() - 1.0);
    if (strata.size() > 1) {
      boolean sized = strata.keySet().stream().allMatch(place -> place.size().isPresent());
      variance = within + (sized ? 0 : Math.max(0, squares - alone));
      degrees =
          satterthwaite > 0 ? Math.min(degrees, variance * variance / satterthwaite) : degrees;
    }
    return Double.isFinite(variance) && degrees > 0
        ? Optional.of(new Result(value, variance, degrees))
        : Optional.empty();
  }

  /**
   * Returns the spread of a stratum's items, drawn towards that of strata with the same verdict by
   * the weight of two items, half of it towards those that are as sure, so that a stratum whose few
   * items are all alike is not taken for certain.
   */
  private double spread(List<Integer> members, double[] parts) {
    double[] sums = new double[3];
    members.forEach(at -> add(sums, 1, parts[at]));
    Place own = items.get(members.get(0)).place;
    List<Integer> near = new ArrayList<>();
    List<Integer> kin = new ArrayList<>();
    for (int at = 0; at < parts.length; at++) {
      if (items.get(at).place.near().equals(own.near())) {
        near.add(at);
      }
      if (items.get(at).place.kin().equals(own.kin())) {
        kin.add(at);
      }
    }
    near.forEach(at -> add(sums, DRAWN / 2 / near.size(), parts[at]));
    kin.forEach(at -> add(sums, DRAWN / 2 / kin.size(), parts[at]));
    double mean = sums[1] / sums[0];
    return sums[2] / sums[0] - mean * mean;
  }

  private static void add(double[] sums, double mass, double value) {
    sums[0] += mass;
    sums[1] += mass * value;
    sums[2] += mass * value * value;
  }

  /**
   * Returns a share of weighted items with Wilson's interval at its effective size.
   *
   * @param part the value that counts those that hit
   * @param whole the value that counts all
   */
  Optional<Estimate> share(int part, int whole, Level level) {
    return share(of -> of[part] / of[whole], whole, level);
  }

  /**
   * Returns a share that is any function of sums, with such an interval.
   *
   * @param whole the value that counts what it is a share of
   */
  Optional<Estimate> share(Figure share, int whole, Level level) {
    return result(share)
        .map(
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
