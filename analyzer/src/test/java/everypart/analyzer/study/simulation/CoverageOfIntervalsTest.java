package everypart.analyzer.study.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.analyzer.study.agreement.ConfusionTable;
import everypart.analyzer.study.agreement.Ratings;
import everypart.analyzer.study.statistics.ChiSquare;
import everypart.analyzer.study.statistics.ClusteredDifference;
import everypart.analyzer.study.statistics.ClusteredRate;
import everypart.analyzer.study.statistics.Comparison;
import everypart.analyzer.study.statistics.CorrectedPrevalence;
import everypart.analyzer.study.statistics.Holm;
import everypart.analyzer.study.statistics.Interval;
import everypart.analyzer.study.statistics.Level;
import everypart.analyzer.study.statistics.PairedChange;
import everypart.analyzer.study.statistics.Proportion;
import everypart.analyzer.study.statistics.SignificanceTest;
import everypart.analyzer.study.statistics.TwoByTwo;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.function.Function;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/**
 * Intervals at the 95 % level hold the truth in 95 of 100 made-up studies.
 *
 * <p>Each case draws {@link #STUDIES} studies with a fixed seed, so the Monte Carlo standard error
 * of a coverage near 0.95 is 0.0034 ({@code sqrt(0.95 * 0.05 / 4000)}). A case passes between 0.935
 * and 0.975 unless it says why not: the score-based and adjusted methods aim at the level on
 * average over truths, not at each one, and binomial counts make coverage jump by 0.01 either way.
 */
final class CoverageOfIntervalsTest {
  private static final int STUDIES = 4000;
  private static final Level LEVEL = Level.DEFAULT;

  /**
   * One kind of study.
   *
   * @param truth the true value
   * @param study draws a study and returns its interval
   */
  private record Case(
      String name,
      double truth,
      double least,
      double most,
      Function<SplittableRandom, Optional<Interval>> study) {}

  private static final List<Case> CASES =
      List.of(
          between("Wilson, 0.3 of 50", 0.3, rnd -> Optional.of(share(rnd, 50, 0.3).wilson(LEVEL))),
          between(
              "Wilson, 0.05 of 200", 0.05, rnd -> Optional.of(share(rnd, 200, 0.05).wilson(LEVEL))),
          between(
              "difference of 0.4 in 60 and 0.25 in 80",
              0.15,
              rnd ->
                  Optional.of(
                      new Comparison(share(rnd, 60, 0.4), share(rnd, 80, 0.25))
                          .riskDifference(LEVEL)
                          .interval())),
          between(
              "odds ratio of 0.4 in 120 and 0.25 in 120",
              (0.4 / 0.6) / (0.25 / 0.75),
              rnd ->
                  new Comparison(share(rnd, 120, 0.4), share(rnd, 120, 0.25))
                      .table()
                      .oddsRatio(LEVEL)
                      .map(odds -> odds.interval())),
          between(
              "40 clusters of 3 to 12, alike within",
              0.3,
              rnd -> clustered(rnd, 40).interval(LEVEL)),
          // With few clusters the variance itself is poorly known; the t quantile makes up for
          // most.
          new Case(
              "12 clusters of 3 to 12, alike within",
              0.3,
              0.92,
              0.985,
              rnd -> clustered(rnd, 12).interval(LEVEL)),
          between("change between two drafts of 100", 0.2 - 0.05, CoverageOfIntervalsTest::drafts),
          between(
              "corrected prevalence 0.2, 150 coded each way",
              0.2,
              rnd -> corrected(rnd, 0.2, 2000, 150).estimate(LEVEL).map(found -> found.interval())),
          between(
              "corrected prevalence 0.5, 60 coded each way",
              0.5,
              rnd -> corrected(rnd, 0.5, 500, 60).estimate(LEVEL).map(found -> found.interval())),
          between("AC1 of 200", trueAc1(), CoverageOfIntervalsTest::ac1),
          between("kappa 0.6 of 200", 0.6, CoverageOfIntervalsTest::kappa));

  /** The percentile bootstrap is known to fall a little short. */
  private static final Case ALPHA =
      new Case("alpha 0.6 of 200", 0.6, 0.92, 0.97, CoverageOfIntervalsTest::alpha);

  private static Case between(
      String name, double truth, Function<SplittableRandom, Optional<Interval>> study) {
    return new Case(name, truth, 0.935, 0.975, study);
  }

  @TestFactory
  List<DynamicTest> intervalsHoldTheTruthAsOftenAsTheySay() {
    return CASES.stream().map(one -> test(one, STUDIES)).toList();
  }

  /** A bootstrap in each study takes its time, so there are fewer of them. */
  @Tag("slow")
  @TestFactory
  List<DynamicTest> intervalsOfABootstrapHoldTheTruthAsOftenAsTheySay() {
    return List.of(test(ALPHA, STUDIES / 4));
  }

  private static DynamicTest test(Case one, int studies) {
    return DynamicTest.dynamicTest(
        one.name(),
        () -> {
          var random = new SplittableRandom(20_261_125);
          int held = 0;
          for (int study = 0; study < studies; study++) {
            if (one.study()
                .apply(random)
                .filter(found -> found.contains(one.truth()))
                .isPresent()) {
              held++;
            }
          }
          double coverage = (double) held / studies;
          assertTrue(
              one.least() <= coverage && coverage <= one.most(),
              one.name() + ": held in " + coverage);
        });
  }

  @Test
  void theIntervalThatForgetsClustersHoldsTooSeldom() {
    var random = new SplittableRandom(3);
    int held = 0;
    for (int study = 0; study < STUDIES; study++) {
      long[] sums = new long[2];
      forEachCluster(
          random,
          40,
          (hits, total) -> {
            sums[0] += hits;
            sums[1] += total;
          });
      held += new Proportion(sums[0], sums[1]).wilson(LEVEL).contains(0.3) ? 1 : 0;
    }
    assertTrue((double) held / STUDIES < 0.9, "held in " + (double) held / STUDIES);
  }

  @Test
  void correctedPrevalenceIsUnbiasedWhereTheApparentOneIsNot() {
    var random = new SplittableRandom(11);
    double corrected = 0;
    double squares = 0;
    double apparent = 0;
    for (int study = 0; study < STUDIES; study++) {
      CorrectedPrevalence one = corrected(random, 0.2, 2000, 150);
      double value = one.uncut().orElseThrow();
      corrected += value / STUDIES;
      squares += value * value / STUDIES;
      apparent += one.apparent() / STUDIES;
    }
    double error = Math.sqrt((squares - corrected * corrected) / STUDIES);
    // The ratio estimator's own small-sample bias is of the order of 1/150; three Monte Carlo
    // errors
    // are about 0.002.
    assertEquals(0.2, corrected, 3 * error + 0.002);
    assertTrue(apparent > 0.25, "apparent " + apparent);
  }

  @Test
  void exactTestRaisesNoMoreFalseAlarmsThanItSays() {
    var random = new SplittableRandom(5);
    int alarms = 0;
    for (int study = 0; study < STUDIES; study++) {
      Optional<SignificanceTest> test =
          new Comparison(share(random, 40, 0.3), share(random, 50, 0.3)).table().independence();
      alarms += test.filter(found -> found.p() < 0.05).isPresent() ? 1 : 0;
    }
    assertTrue((double) alarms / STUDIES <= 0.05 + 3 * 0.0034);
    assertTrue(alarms > 0);
  }

  @Test
  void theClusteredTestRaisesItsFalseAlarmsAndTheOneThatForgetsClustersMore() {
    var random = new SplittableRandom(13);
    int alarms = 0;
    int forgetful = 0;
    for (int study = 0; study < STUDIES; study++) {
      ClusteredDifference difference = new ClusteredDifference();
      forEachCluster(random, 10, (hits, total) -> difference.add(hits, total, 0, 0));
      forEachCluster(random, 10, (hits, total) -> difference.add(0, 0, hits, total));
      alarms += alarm(difference.test());
      forgetful += alarm(difference.rates().table().independence());
    }
    assertEquals(0.05, (double) alarms / STUDIES, 3 * 0.0034);
    assertTrue((double) forgetful / STUDIES > 0.1, "forgetful " + forgetful);
  }

  private static int alarm(Optional<SignificanceTest> test) {
    return test.filter(found -> found.p() < 0.05).isPresent() ? 1 : 0;
  }

  @Test
  void aFamilyCorrectedByHolmRaisesAnAlarmInNoMoreThanFiveOfAHundred() {
    var random = new SplittableRandom(17);
    int corrected = 0;
    int plain = 0;
    for (int study = 0; study < STUDIES; study++) {
      List<Double> family = new ArrayList<>();
      for (int test = 0; test < 8; test++) {
        int one = hits(random, 200, 0.3);
        int other = hits(random, 200, 0.3);
        ChiSquare.independence(new long[][] {{one, 200 - one}, {other, 200 - other}})
            .ifPresent(found -> family.add(found.p()));
      }
      plain += family.stream().anyMatch(p -> p < 0.05) ? 1 : 0;
      corrected += Holm.adjust(family).stream().anyMatch(p -> p < 0.05) ? 1 : 0;
    }
    assertTrue((double) corrected / STUDIES <= 0.05 + 3 * 0.0034, "corrected " + corrected);
    assertTrue((double) plain / STUDIES > 0.25, "plain " + plain);
  }

  @Test
  void mcNemarRaisesNoMoreFalseAlarmsThanItSays() {
    var random = new SplittableRandom(19);
    int alarms = 0;
    for (int study = 0; study < STUDIES; study++) {
      int before = hits(random, 120, 0.15);
      int after = hits(random, 120, 0.15);
      alarms += alarm(new PairedChange(60, before, after, 60).test());
    }
    assertTrue((double) alarms / STUDIES <= 0.05 + 3 * 0.0034);
    assertTrue(alarms > 0);
  }

  @Test
  void oddsAndCoOmissionAreSymmetric() {
    TwoByTwo table = new TwoByTwo(12, 5, 7, 30);
    TwoByTwo turned = new TwoByTwo(12, 7, 5, 30);
    assertEquals(table.phi(), turned.phi());
    assertEquals(table.lift().orElseThrow(), turned.lift().orElseThrow(), 1e-12);
  }

  private static Proportion share(SplittableRandom random, int total, double rate) {
    return new Proportion(hits(random, total, rate), total);
  }

  private static int hits(SplittableRandom random, int total, double rate) {
    int hits = 0;
    for (int item = 0; item < total; item++) {
      hits += random.nextDouble() < rate ? 1 : 0;
    }
    return hits;
  }

  private interface ClusterSink {
    void accept(long hits, long total);
  }

  /** Half of the clusters have a rate of 0.1, half one of 0.5. */
  private static void forEachCluster(SplittableRandom random, int clusters, ClusterSink sink) {
    for (int cluster = 0; cluster < clusters; cluster++) {
      int size = 3 + random.nextInt(10);
      sink.accept(hits(random, size, random.nextBoolean() ? 0.1 : 0.5), size);
    }
  }

  private static ClusteredRate clustered(SplittableRandom random, int clusters) {
    ClusteredRate rate = new ClusteredRate();
    forEachCluster(random, clusters, rate::add);
    return rate;
  }

  private static Optional<Interval> drafts(SplittableRandom random) {
    long[] counts = new long[4];
    for (int item = 0; item < 100; item++) {
      double draw = random.nextDouble();
      counts[draw < 0.4 ? 0 : draw < 0.45 ? 1 : draw < 0.65 ? 2 : 3]++;
    }
    return new PairedChange(counts[0], counts[1], counts[2], counts[3])
        .change(LEVEL)
        .map(change -> change.interval());
  }

  /** The program flags 85 of 100 true ones and 10 of 100 others. */
  private static CorrectedPrevalence corrected(
      SplittableRandom random, double truth, int size, int coded) {
    double flagged = truth * 0.85 + (1 - truth) * 0.1;
    return CorrectedPrevalence.of(
        share(random, size, flagged), share(random, coded, 0.85), share(random, coded, 0.9));
  }

  /** Two coders who agree for a reason in 60 of 100 and toss a coin of 0.3 otherwise. */
  private static List<int[]> pairs(SplittableRandom random) {
    List<int[]> pairs = new ArrayList<>();
    for (int item = 0; item < 200; item++) {
      int first = random.nextDouble() < 0.3 ? 1 : 0;
      int second = random.nextDouble() < 0.6 ? first : random.nextDouble() < 0.3 ? 1 : 0;
      pairs.add(new int[] {first, second});
    }
    return pairs;
  }

  private static Optional<Interval> kappa(SplittableRandom random) {
    long[][] counts = new long[2][2];
    pairs(random).forEach(pair -> counts[pair[0]][pair[1]]++);
    return ConfusionTable.of(List.of("0", "1"), counts)
        .kappa(LEVEL)
        .map(kappa -> kappa.estimate().interval());
  }

  /** Both coders say 1 in 0.3; they are alike in 0.6 + 0.4 (0.3 squared + 0.7 squared). */
  private static double trueAc1() {
    double alike = 0.6 + 0.4 * (0.3 * 0.3 + 0.7 * 0.7);
    double chance = 2 * 0.3 * 0.7;
    return (alike - chance) / (1 - chance);
  }

  private static Optional<Interval> ac1(SplittableRandom random) {
    Ratings ratings = new Ratings(2);
    pairs(random).forEach(pair -> ratings.add(2 - pair[0] - pair[1], pair[0] + pair[1]));
    return ratings.ac1(LEVEL).map(found -> found.estimate().interval());
  }

  private static Optional<Interval> alpha(SplittableRandom random) {
    Ratings ratings = new Ratings(2);
    pairs(random).forEach(pair -> ratings.add(2 - pair[0] - pair[1], pair[0] + pair[1]));
    return ratings.alpha(LEVEL, 400, random.nextLong()).map(estimate -> estimate.interval());
  }
}
