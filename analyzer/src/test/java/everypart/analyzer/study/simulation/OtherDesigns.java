package everypart.analyzer.study.simulation;

import everypart.analyzer.study.statistics.ClusteredChange;
import everypart.analyzer.study.statistics.ClusteredDifference;
import everypart.analyzer.study.statistics.ClusteredRate;
import everypart.analyzer.study.statistics.ClusteredTrend;
import everypart.analyzer.study.statistics.Estimate;
import everypart.analyzer.study.statistics.Interval;
import everypart.analyzer.study.statistics.Level;
import everypart.analyzer.study.statistics.PairedChange;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.SplittableRandom;

/**
 * Draws made-up studies of other designs than {@link MadeUpStudies}: an audit of the methods and of
 * their warnings. The designs of differences have been seen, with other random numbers, when the
 * warnings of groups were chosen; on the others nothing was.
 */
final class OtherDesigns {
  private static final Level LEVEL = Level.DEFAULT;
  private static final long SEED = 20_261_201;

  /** The designs. */
  enum Design {
    UNEQUAL("rate; sizes of clusters from 1 to several hundred"),
    SINGLES("rate; half of the clusters have one demand, half have 30"),
    UNEQUAL_GROUPS("difference; sizes of clusters from 1 to several hundred"),
    RARE_GROUPS("difference; groups with hardly a missing demand (a fifth of the rate)"),
    SHARED("difference within clusters, another one in each cluster, none on average"),
    HALF_SHARED("difference; half of the clusters have both groups, half have one"),
    TWO_LEVELS("rate; students in classes, both alike, by class"),
    TWO_LEVEL_GROUPS("difference of groups of classes; students in classes, by class"),
    LOST_DRAFTS("change; last drafts are lost, the more so the more is missing"),
    UNEQUAL_TREND("trend; sizes of clusters from 1 to several hundred"),
    THIRD("difference; a third of the clusters against the rest, at half their rate"),
    LARGE_SIDE("difference; clusters of one group four times as large"),
    UNLIKE("difference; answers alike in one group only");

    private final String label;

    Design(String label) {
      this.label = label;
    }

    String label() {
      return label;
    }
  }

  private final SplittableRandom random;
  private final MadeUpStudies draws;

  private OtherDesigns(long seed) {
    this.random = new SplittableRandom(seed);
    this.draws = new MadeUpStudies(seed + 1);
  }

  /** Prints the table: {@code OtherDesigns [STUDIES]}. */
  public static void main(String[] words) {
    int studies = words.length > 0 ? Integer.parseInt(words[0]) : 1000;
    System.out.println("design | clusters | rate | correlation | holds | warned");
    int unsound = 0;
    int cells = 0;
    for (Design design : Design.values()) {
      for (int clusters : new int[] {12, 30, 80}) {
        for (double rate : new double[] {0.05, 0.2, 0.5}) {
          for (double likeness : new double[] {0.05, 0.25}) {
            MadeUpStudies.Count count = run(design, clusters, rate, likeness, studies);
            cells++;
            unsound += count.sound() ? 0 : 1;
            System.out.printf(
                Locale.ROOT,
                "%s | %d | %.2f | %.2f | %s | %.2f%s%n",
                design.label(),
                clusters,
                rate,
                likeness,
                count.warned() > 0.99 ? "-" : String.format(Locale.ROOT, "%.3f", count.coverage()),
                count.warned(),
                count.sound() ? "" : " !");
          }
        }
      }
    }
    System.out.println(
        unsound + " of " + cells + " cells neither keep their level nor are warned of");
  }

  static MadeUpStudies.Count run(
      Design design, int clusters, double rate, double likeness, int studies) {
    OtherDesigns other = new OtherDesigns(SEED + List.of(Design.values()).indexOf(design));
    MadeUpStudies.Count count = new MadeUpStudies.Count();
    for (int study = 0; study < studies; study++) {
      other.study(design, clusters, rate, likeness, count);
    }
    return count;
  }

  private void study(
      Design design, int clusters, double rate, double likeness, MadeUpStudies.Count count) {
    switch (design) {
      case UNEQUAL, SINGLES, TWO_LEVELS -> {
        ClusteredRate all = new ClusteredRate();
        for (int cluster = 0; cluster < clusters; cluster++) {
          int size =
              design == Design.UNEQUAL
                  ? unequal()
                  : design == Design.SINGLES ? (cluster % 2 == 0 ? 1 : 30) : 60;
          all.add(hits(design, size, rate, likeness), size);
        }
        Optional<Interval> interval = all.interval(LEVEL);
        count.add(interval.filter(one -> one.contains(rate)).isPresent(), all.method());
      }
      case UNEQUAL_GROUPS, RARE_GROUPS, TWO_LEVEL_GROUPS, SHARED, HALF_SHARED -> {
        ClusteredDifference difference = new ClusteredDifference();
        for (int cluster = 0; cluster < clusters; cluster++) {
          difference(design, cluster, rate, likeness, difference);
        }
        count.add(holds(difference.difference(LEVEL)), difference.method());
      }
      case THIRD, LARGE_SIDE, UNLIKE -> {
        ClusteredDifference difference = new ClusteredDifference();
        for (int cluster = 0; cluster < clusters; cluster++) {
          boolean first = design == Design.THIRD ? cluster % 3 == 0 : cluster % 2 == 0;
          int size = design == Design.LARGE_SIDE && first ? 80 : 20;
          double of = design == Design.THIRD && first ? rate / 2 : rate;
          int hits = binomial(size, design == Design.UNLIKE && first ? of : own(of, likeness));
          difference.add(first ? hits : 0, first ? size : 0, first ? 0 : hits, first ? 0 : size);
        }
        double truth = design == Design.THIRD ? -rate / 2 : 0;
        count.add(
            difference
                .difference(LEVEL)
                .filter(found -> found.interval().contains(truth))
                .isPresent(),
            difference.method());
      }
      case LOST_DRAFTS -> {
        ClusteredChange change = new ClusteredChange();
        for (int cluster = 0; cluster < clusters; cluster++) {
          double own = own(rate, likeness);
          long[] counts = new long[4];
          for (int writer = 0; writer < 10; writer++) {
            if (random.nextDouble() < 0.1 + 0.6 * own) {
              continue;
            }
            for (int demand = 0; demand < 3; demand++) {
              boolean before = random.nextDouble() < own;
              boolean after = random.nextDouble() < own;
              counts[(before ? 0 : 2) + (after ? 0 : 1)]++;
            }
          }
          change.add(new PairedChange(counts[0], counts[1], counts[2], counts[3]));
        }
        count.add(holds(change.change(LEVEL)), change.method());
      }
      case UNEQUAL_TREND -> {
        ClusteredTrend trend = new ClusteredTrend();
        for (int cluster = 0; cluster < clusters; cluster++) {
          double own = own(rate, likeness);
          int size = 1 + unequal() / 4;
          for (int position = 1; position <= 4; position++) {
            trend.add(position, binomial(size, own), size);
          }
          trend.endCluster();
        }
        count.add(trend.test().filter(test -> test.p() < 0.05).isEmpty(), trend.method());
      }
    }
  }

  private void difference(
      Design design, int cluster, double rate, double likeness, ClusteredDifference difference) {
    if (design == Design.SHARED || (design == Design.HALF_SHARED && cluster % 2 == 0)) {
      double own = own(rate, likeness);
      double tilt = (random.nextDouble() - 0.5) * rate;
      int size = 5 + random.nextInt(15);
      difference.add(
          binomial(size, Math.min(1, Math.max(0, own + tilt / 2))),
          size,
          binomial(size, Math.min(1, Math.max(0, own - tilt / 2))),
          size);
      return;
    }
    boolean first = cluster % 4 < 2;
    int size = design == Design.UNEQUAL_GROUPS ? unequal() : 40;
    double of = design == Design.RARE_GROUPS ? rate / 5 : rate;
    int hits = hits(design, size, of, likeness);
    difference.add(first ? hits : 0, first ? size : 0, first ? 0 : hits, first ? 0 : size);
  }

  private int hits(Design design, int size, double rate, double likeness) {
    double own = own(rate, likeness);
    if (design != Design.TWO_LEVELS && design != Design.TWO_LEVEL_GROUPS) {
      return binomial(size, own);
    }
    int hits = 0;
    for (int student = 0; student < size / 4; student++) {
      hits += binomial(4, own(Math.min(0.999, Math.max(0.001, own)), 0.3));
    }
    return hits;
  }

  private double own(double rate, double likeness) {
    return draws.own(new MadeUpStudies.Design(0, rate, likeness, 2));
  }

  /** Most clusters are small, and a few have most demands. */
  private int unequal() {
    return (int) Math.min(400, 1 + Math.exp(2 + 1.2 * random.nextGaussian()));
  }

  private int binomial(int size, double rate) {
    int hits = 0;
    for (int item = 0; item < size; item++) {
      hits += random.nextDouble() < rate ? 1 : 0;
    }
    return hits;
  }

  private static boolean holds(Optional<Estimate> estimate) {
    return estimate.filter(found -> found.interval().contains(0)).isPresent();
  }
}
