package everypart.analyzer.study.simulation;

import everypart.analyzer.study.statistics.ClusteredChange;
import everypart.analyzer.study.statistics.ClusteredDifference;
import everypart.analyzer.study.statistics.ClusteredRate;
import everypart.analyzer.study.statistics.ClusteredTrend;
import everypart.analyzer.study.statistics.Estimate;
import everypart.analyzer.study.statistics.Level;
import everypart.analyzer.study.statistics.Method;
import everypart.analyzer.study.statistics.PairedChange;
import java.util.EnumMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;

/**
 * Draws made-up studies with a known truth over clusters, rates, correlations and numbers of
 * groups, and counts for each figure how often its interval holds the truth and how often its test
 * fires where there is nothing to find.
 *
 * <p>Clusters have 10 to 40 demands; a cluster's own rate follows a beta distribution, so that the
 * correlation within clusters is as stated. A study in which the report warns is counted apart: the
 * figures are those of studies without a warning, beside the share that is warned of.
 */
final class MadeUpStudies {
  private static final Level LEVEL = Level.DEFAULT;
  private static final long SEED = 20_261_128;

  /** What was drawn. */
  record Design(int clusters, double rate, double likeness, int groups) {
    @Override
    public String toString() {
      return String.format(Locale.ROOT, "%d | %.2f | %.1f | %d", clusters, rate, likeness, groups);
    }
  }

  /** The figures. */
  enum Figure {
    RATE("omission rate"),
    BETWEEN("difference, groups in other clusters"),
    ODDS("odds ratio, groups in other clusters"),
    LOPSIDED("difference, a fifth of clusters against the rest"),
    WITHIN("difference, groups within clusters"),
    CHANGE("change between drafts"),
    TREND("trend over position"),
    OTHERS("one group against all others");

    private final String label;

    Figure(String label) {
      this.label = label;
    }

    String label() {
      return label;
    }
  }

  /** How a figure fared. */
  static final class Count {
    private int studies;
    private int warned;
    private int held;

    void add(boolean hold, Method method) {
      studies++;
      if (method.warning().isPresent()) {
        warned++;
      } else {
        held += hold ? 1 : 0;
      }
    }

    int studies() {
      return studies;
    }

    /** Returns the share of studies in which the report warns. */
    double warned() {
      return (double) warned / studies;
    }

    /** Returns how often the interval holds in studies without a warning. */
    double coverage() {
      return (double) held / (studies - warned);
    }

    /** Returns whether the figure keeps its level, or is warned of in at least half the studies. */
    boolean sound() {
      double slack = 3 * Math.sqrt(0.95 * 0.05 / Math.max(1, studies - warned));
      return warned() >= 0.5 || (coverage() > 0.93 - slack && coverage() < 0.97 + slack);
    }
  }

  private final SplittableRandom random;

  MadeUpStudies(long seed) {
    this.random = new SplittableRandom(seed);
  }

  /** Prints the table: {@code MadeUpStudies [STUDIES]}. */
  public static void main(String[] words) {
    int studies = words.length > 0 ? Integer.parseInt(words[0]) : 2000;
    System.out.println("clusters | rate | correlation | groups | figure | holds | warned");
    int unsound = 0;
    int cells = 0;
    for (int clusters : new int[] {2, 4, 6, 10, 20, 50, 200}) {
      for (double rate : new double[] {0.02, 0.05, 0.1, 0.2, 0.5}) {
        for (double likeness : new double[] {0, 0.1, 0.4}) {
          for (int groups : new int[] {2, 6, 20}) {
            Design design = new Design(clusters, rate, likeness, groups);
            for (Map.Entry<Figure, Count> one : run(design, studies).entrySet()) {
              Count count = one.getValue();
              cells++;
              unsound += count.sound() ? 0 : 1;
              System.out.printf(
                  Locale.ROOT,
                  "%s | %s | %s | %.2f%s%n",
                  design,
                  one.getKey().label(),
                  count.warned() > 0.99
                      ? "-"
                      : String.format(Locale.ROOT, "%.3f", count.coverage()),
                  count.warned(),
                  count.sound() ? "" : " !");
            }
          }
        }
      }
    }
    System.out.println(
        unsound + " of " + cells + " cells neither keep their level nor are warned of");
  }

  /** Draws studies of a design; figures that do not depend on groups are drawn with two. */
  static Map<Figure, Count> run(Design design, int studies) {
    MadeUpStudies made = new MadeUpStudies(SEED + design.hashCode());
    Map<Figure, Count> counts = new EnumMap<>(Figure.class);
    for (int study = 0; study < studies; study++) {
      if (design.groups() == 2) {
        made.rate(design, count(counts, Figure.RATE));
        made.change(design, count(counts, Figure.CHANGE));
        made.trend(design, count(counts, Figure.TREND));
        made.difference(design, Figure.WITHIN, counts);
        if (design.clusters() >= 4) {
          made.difference(design, Figure.BETWEEN, counts);
          made.difference(design, Figure.LOPSIDED, counts);
        }
      }
      if (design.clusters() >= 2 * design.groups()) {
        made.others(design, count(counts, Figure.OTHERS));
      }
    }
    return counts;
  }

  private static Count count(Map<Figure, Count> counts, Figure figure) {
    return counts.computeIfAbsent(figure, one -> new Count());
  }

  private void rate(Design design, Count count) {
    ClusteredRate rate = new ClusteredRate();
    for (int cluster = 0; cluster < design.clusters(); cluster++) {
      int size = size();
      rate.add(hits(size, own(design)), size);
    }
    count.add(
        rate.interval(LEVEL).filter(found -> found.contains(design.rate())).isPresent(),
        rate.method());
  }

  private void difference(Design design, Figure figure, Map<Figure, Count> counts) {
    ClusteredDifference difference = new ClusteredDifference();
    for (int cluster = 0; cluster < design.clusters(); cluster++) {
      double own = own(design);
      int size = size();
      if (figure == Figure.WITHIN) {
        difference.add(hits(size / 2, own), size / 2, hits(size / 2, own), size / 2);
      } else {
        boolean first =
            figure == Figure.BETWEEN
                ? cluster % 2 == 0
                : cluster < Math.max(2, design.clusters() / 5);
        int hits = hits(size, own);
        difference.add(first ? hits : 0, first ? size : 0, first ? 0 : hits, first ? 0 : size);
      }
    }
    count(counts, figure).add(holds(difference.difference(LEVEL), 0), difference.method());
    if (figure == Figure.BETWEEN && difference.oddsRatio(LEVEL).isPresent()) {
      count(counts, Figure.ODDS).add(holds(difference.oddsRatio(LEVEL), 1), difference.method());
    }
  }

  private void others(Design design, Count count) {
    ClusteredDifference difference = new ClusteredDifference();
    for (int cluster = 0; cluster < design.clusters(); cluster++) {
      int size = size();
      int hits = hits(size, own(design));
      boolean first = cluster % design.groups() == 0;
      difference.add(first ? hits : 0, first ? size : 0, first ? 0 : hits, first ? 0 : size);
    }
    count.add(holds(difference.difference(LEVEL), 0), difference.method());
  }

  private void change(Design design, Count count) {
    ClusteredChange change = new ClusteredChange();
    for (int cluster = 0; cluster < design.clusters(); cluster++) {
      double before = own(design);
      double after = own(design);
      long[] counts = new long[4];
      for (int item = size(); item > 0; item--) {
        counts[(hits(1, before) == 1 ? 0 : 2) + (hits(1, after) == 1 ? 0 : 1)]++;
      }
      change.add(new PairedChange(counts[0], counts[1], counts[2], counts[3]));
    }
    count.add(holds(change.change(LEVEL), 0), change.method());
  }

  private void trend(Design design, Count count) {
    ClusteredTrend trend = new ClusteredTrend();
    for (int cluster = 0; cluster < design.clusters(); cluster++) {
      double own = own(design);
      int size = size() / 5;
      for (int position = 1; position <= 5; position++) {
        trend.add(position, hits(size, own), size);
      }
      trend.endCluster();
    }
    count.add(trend.test().filter(test -> test.p() < 0.05).isEmpty(), trend.method());
  }

  private static boolean holds(Optional<Estimate> estimate, double truth) {
    return estimate.filter(found -> found.interval().contains(truth)).isPresent();
  }

  private int size() {
    return 10 + random.nextInt(31);
  }

  private int hits(int size, double rate) {
    int hits = 0;
    for (int item = 0; item < size; item++) {
      hits += random.nextDouble() < rate ? 1 : 0;
    }
    return hits;
  }

  /** Returns a cluster's own rate, from a beta distribution. */
  double own(Design design) {
    if (design.likeness() == 0) {
      return design.rate();
    }
    double scale = 1 / design.likeness() - 1;
    double hits = gamma(design.rate() * scale);
    double others = gamma((1 - design.rate()) * scale);
    return hits + others == 0
        ? (random.nextDouble() < design.rate() ? 1 : 0)
        : hits / (hits + others);
  }

  /**
   * Draws from a gamma distribution: Marsaglia G, Tsang WW (2000) A simple method for generating
   * gamma variables. ACM Transactions on Mathematical Software 26:363-372.
   */
  private double gamma(double shape) {
    if (shape < 1) {
      return gamma(shape + 1) * Math.pow(random.nextDouble(), 1 / shape);
    }
    double d = shape - 1 / 3.0;
    double c = 1 / Math.sqrt(9 * d);
    while (true) {
      double normal = random.nextGaussian();
      double cubed = Math.pow(1 + c * normal, 3);
      if (cubed > 0
          && Math.log(random.nextDouble())
              < 0.5 * normal * normal + d - d * cubed + d * Math.log(cubed)) {
        return d * cubed;
      }
    }
  }
}
