package everypart.analyzer.study.statistics;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Every formula on a worked example.
 *
 * <p>Values of books and papers are from memory, and each was recomputed where a second program has
 * the routine: "R" is R 4.2.2 (base, or the package named), "statsmodels" is 0.13.5 under Python
 * 3.11, each run once.
 */
final class PublishedExamplesTest {
  private static final Level LEVEL = Level.DEFAULT;

  /** Newcombe (1998) Statistics in Medicine 17:857-872, table I, method 3. */
  @ParameterizedTest(name = "{0} of {1}")
  @CsvSource({
    "81, 263, 0.2553, 0.3662",
    "15, 148, 0.0624, 0.1605",
    "0, 20, 0.0000, 0.1611",
    "1, 29, 0.0061, 0.1718"
  })
  void wilsonMatchesNewcombesTable(long hits, long total, double low, double high) {
    Interval interval = new Proportion(hits, total).wilson(LEVEL);
    assertEquals(low, interval.low(), 5e-5);
    assertEquals(high, interval.high(), 5e-5);
  }

  /** R prop.test(81, 263, correct = FALSE); statsmodels proportion_confint(method="wilson"). */
  @Test
  void wilsonMatchesR() {
    Interval interval = new Proportion(81, 263).wilson(LEVEL);
    assertEquals(0.255288519878, interval.low(), 1e-11);
    assertEquals(0.366209576983, interval.high(), 1e-11);
  }

  @Test
  void wilsonForASizeThatNeedNotBeWholeIsTheSameFormula() {
    Interval whole = new Proportion(81, 263).wilson(LEVEL);
    Interval general = Proportion.wilson(81 / 263.0, 263, LEVEL.normalQuantile());
    assertEquals(whole.low(), general.low(), 1e-12);
    assertEquals(whole.high(), general.high(), 1e-12);
  }

  /**
   * Newcombe (1998) Statistics in Medicine 17:873-890, table II, method 10; the first four rows
   * also by statsmodels confint_proportions_2indep(method="newcomb").
   */
  @ParameterizedTest(name = "{0}/{1} - {2}/{3}")
  @CsvSource({
    "56, 70, 48, 80, 0.0524, 0.3339",
    "9, 10, 3, 10, 0.1705, 0.8090",
    "6, 7, 2, 7, 0.0582, 0.8062",
    "5, 56, 0, 29, -0.0381, 0.1926",
    "0, 10, 0, 20, -0.1611, 0.2775",
    "0, 10, 0, 10, -0.2775, 0.2775",
    "10, 10, 0, 20, 0.6791, 1.0000",
    "10, 10, 0, 10, 0.6075, 1.0000"
  })
  void riskDifferenceMatchesNewcombesTable(
      long hits, long total, long otherHits, long otherTotal, double low, double high) {
    Estimate estimate =
        new Comparison(new Proportion(hits, total), new Proportion(otherHits, otherTotal))
            .riskDifference(LEVEL);
    assertEquals(low, estimate.interval().low(), 5e-5);
    assertEquals(high, estimate.interval().high(), 5e-5);
  }

  /**
   * The physicians' health study, placebo against aspirin: odds ratio 1.83, 1.44 to 2.33. Agresti A
   * (2007) An Introduction to Categorical Data Analysis, 2nd ed., section 2.3.3. The digits:
   * statsmodels Table2x2.
   */
  @Test
  void oddsRatioMatchesAgrestiAndStatsmodels() {
    Estimate ratio = new TwoByTwo(189, 10845, 104, 10933).oddsRatio(LEVEL).orElseThrow();
    assertEquals(1.8320539419087136, ratio.value(), 1e-12);
    assertEquals(1.440042391848622, ratio.interval().low(), 1e-9);
    assertEquals(2.3307797500006395, ratio.interval().high(), 1e-9);
  }

  @Test
  void oddsRatioAddsAHalfOnlyWhenACountIsZero() {
    Estimate ratio = new TwoByTwo(3, 0, 1, 4).oddsRatio(LEVEL).orElseThrow();
    assertEquals(3.5 * 4.5 / (0.5 * 1.5), ratio.value(), 1e-12);
    assertTrue(new TwoByTwo(0, 0, 1, 4).oddsRatio(LEVEL).isEmpty());
  }

  /** Fisher's tea tasting: two-sided p 0.486. Agresti (2007) section 2.6.2. */
  @Test
  void exactTestMatchesTheTeaTasting() {
    SignificanceTest test = new TwoByTwo(3, 1, 1, 3).independence().orElseThrow();
    assertEquals(SignificanceTest.Name.FISHER_EXACT, test.name());
    assertEquals(0.486, test.p(), 5e-4);
  }

  /** R fisher.test(matrix(c(189, 104, 10845, 10933), 2)). */
  @Test
  void exactTestMatchesR() {
    assertEquals(
        5.03283559972e-07,
        new TwoByTwo(189, 10845, 104, 10933).independence().orElseThrow().p(),
        1e-13);
  }

  @Test
  void largeTablesTakeTheChiSquareTest() {
    SignificanceTest test =
        new TwoByTwo(18900, 1084500, 10400, 1093300).independence().orElseThrow();
    assertEquals(SignificanceTest.Name.CHI_SQUARE, test.name());
  }

  /** Party by gender: chi-square 30.1 on 2. Agresti (2007) section 2.4.4; R chisq.test. */
  @Test
  void chiSquareMatchesAgrestiAndR() {
    SignificanceTest test =
        ChiSquare.independence(new long[][] {{762, 327, 468}, {484, 239, 477}}).orElseThrow();
    assertEquals(30.0701491, test.statistic().orElseThrow(), 1e-6);
    assertEquals(2, test.degreesOfFreedom());
    assertEquals(2.95358918e-07, test.p(), 1e-14);
  }

  @Test
  void chiSquareLeavesOutEmptyRowsAndColumns() {
    SignificanceTest test =
        ChiSquare.independence(new long[][] {{762, 0, 327, 468}, {0, 0, 0, 0}, {484, 0, 239, 477}})
            .orElseThrow();
    assertEquals(2, test.degreesOfFreedom());
    assertTrue(ChiSquare.independence(new long[][] {{5, 0}, {7, 0}}).isEmpty());
  }

  /**
   * Mother's drinking and malformation of the child: squared trend statistic 6.57. Agresti (2007)
   * section 2.5.2; R prop.trend.test.
   */
  @Test
  void trendMatchesAgrestiAndR() {
    SignificanceTest test =
        Trend.test(
                List.of(
                    new Trend.Step(0, new Proportion(48, 17114)),
                    new Trend.Step(0.5, new Proportion(38, 14502)),
                    new Trend.Step(1.5, new Proportion(5, 793)),
                    new Trend.Step(4, new Proportion(1, 127)),
                    new Trend.Step(7, new Proportion(1, 38))))
            .orElseThrow();
    assertEquals(6.570133945, test.statistic().orElseThrow(), 1e-8);
    assertEquals(0.0103704146, test.p(), 1e-9);
  }

  /**
   * The 15 probabilities of a trial of two treatments after a heart attack: Benjamini Y, Hochberg Y
   * (1995) J Royal Statistical Society B 57:289-300, section 3.2, where control of the familywise
   * error at 0.05 rejects the smallest three. The digits: R p.adjust.
   */
  @Test
  void holmRejectsThreeOfFifteen() {
    List<Double> adjusted =
        Holm.adjust(
            List.of(
                0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.3240,
                0.4262, 0.5719, 0.6528, 0.7590, 1.0));
    List<Double> expected =
        List.of(
            0.0015, 0.0056, 0.0247, 0.1140, 0.2211, 0.2780, 0.2780, 0.2780, 0.3213, 1.0, 1.0, 1.0,
            1.0, 1.0, 1.0);
    for (int at = 0; at < expected.size(); at++) {
      assertEquals(expected.get(at), adjusted.get(at), 1e-12);
    }
    assertEquals(3, adjusted.stream().filter(p -> p < 0.05).count());
  }

  /**
   * The four probabilities worked through in the article "Holm-Bonferroni method" of Wikipedia; R
   * p.adjust and statsmodels multipletests(method="holm").
   */
  @Test
  void holmMatchesRAndStatsmodels() {
    List<Double> adjusted = Holm.adjust(List.of(0.01, 0.04, 0.03, 0.005));
    List<Double> expected = List.of(0.03, 0.06, 0.06, 0.02);
    for (int at = 0; at < expected.size(); at++) {
      assertEquals(expected.get(at), adjusted.get(at), 1e-12);
    }
    assertTrue(Holm.adjust(List.of()).isEmpty());
    assertEquals(List.of(1.0, 1.0), Holm.adjust(List.of(0.9, 0.6)));
  }

  /**
   * Approval of a prime minister in two surveys: z = -4.17, so 17.36. Agresti (2002) Categorical
   * Data Analysis, 2nd ed., section 10.1; R mcnemar.test without correction and binom.test;
   * statsmodels mcnemar.
   */
  @Test
  void changeMatchesAgrestiAndR() {
    PairedChange change = new PairedChange(794, 150, 86, 570);
    assertEquals(17.3559322, change.chiSquare().statistic().orElseThrow(), 1e-6);
    assertEquals(3.71593613957e-05, change.test().orElseThrow().p(), 1e-14);
    Estimate difference = change.change(LEVEL).orElseThrow();
    assertEquals(-0.04, difference.value(), 1e-12);
    // The plain Wald interval of the book is -0.06 to -0.02; the adjusted one differs by 2 of
    // 1,602.
    assertEquals(-0.06, difference.interval().low(), 0.002);
    assertEquals(-0.02, difference.interval().high(), 0.002);
  }

  /**
   * 48 items of which 26 changed one way and 4 the other: 0.44, 0.2548 to 0.6252, with the adjusted
   * rates of which Bonett and Price (2012) speak. The example of ci.prop.ps in Bonett's R package
   * statpsych; the estimate there is the adjusted one, here it is the plain one.
   */
  @Test
  void changeMatchesBonettAndPrice() {
    Estimate difference = new PairedChange(6, 4, 26, 12).change(LEVEL).orElseThrow();
    assertEquals(0.2548067, difference.interval().low(), 5e-8);
    assertEquals(0.6251933, difference.interval().high(), 5e-8);
    assertEquals(22 / 48.0, difference.value(), 1e-12);
  }

  private static final long[][] UNTREATED = {
    {13, 13}, {12, 12}, {9, 9}, {9, 9}, {8, 8}, {8, 8}, {12, 13}, {11, 12}, {9, 10}, {9, 10},
    {8, 9}, {11, 13}, {4, 5}, {5, 7}, {7, 10}, {7, 10}
  };

  private static final long[][] TREATED = {
    {12, 12}, {11, 11}, {10, 10}, {9, 9}, {10, 11}, {9, 10}, {9, 10}, {8, 9}, {8, 9}, {4, 5},
    {7, 9}, {4, 7}, {5, 10}, {3, 6}, {3, 10}, {0, 7}
  };

  /**
   * Rats alive in 32 litters: Weil CS (1970) Selection of the valid number of sampling units and a
   * consideration of their combination in toxicological studies. Food and Cosmetics Toxicology
   * 8:177-182. The figures were computed in R 4.2.2 from whole matrices (src/test/r/cluster.R),
   * where the program needs sums over clusters only.
   */
  @Test
  void clusteredDifferenceMatchesROnWeilsLitters() {
    ClusteredDifference litters = new ClusteredDifference();
    for (long[] litter : UNTREATED) {
      litters.add(litter[0], litter[1], 0, 0);
    }
    for (long[] litter : TREATED) {
      litters.add(0, 0, litter[0], litter[1]);
    }
    Estimate difference = litters.difference(LEVEL).orElseThrow();
    assertEquals(0.126320384111742, difference.value(), 1e-12);
    assertEquals(-0.02596346278491, difference.interval().low(), 1e-9);
    assertEquals(0.27860423100840, difference.interval().high(), 1e-9);
    SignificanceTest test = litters.test().orElseThrow();
    assertEquals(26.770124788660265, test.degreesOfFreedom(), 1e-8);
    assertEquals(1.7026901042198, test.statistic().orElseThrow(), 1e-10);
    assertEquals(0.1002117560714, test.p(), 1e-9);
    Estimate odds = litters.oddsRatio(LEVEL).orElseThrow();
    assertEquals(2.6149553571429, odds.value(), 1e-10);
    assertEquals(0.9391506523889, odds.interval().low(), 1e-8);
    assertEquals(7.2810379276816, odds.interval().high(), 1e-8);
    assertEquals(Method.Name.CLUSTERED, litters.method().name());
  }

  @Test
  void clusteredRateMatchesROnWeilsLitters() {
    ClusteredRate treated = new ClusteredRate();
    for (long[] litter : TREATED) {
      treated.add(litter[0], litter[1]);
    }
    assertEquals(0.004793480922126, treated.variance().orElseThrow(), 1e-13);
    assertEquals(3.953876021703, treated.designEffect().orElseThrow(), 1e-10);
    assertEquals(0.320540842599666, treated.likeness().orElseThrow(), 1e-12);
    assertEquals(13.433633882947708, treated.method().degreesOfFreedom().orElseThrow(), 1e-9);
    Interval interval = treated.interval(LEVEL).orElseThrow();
    assertEquals(0.5980799304856, interval.low(), 1e-9);
    assertEquals(0.8855946451092, interval.high(), 1e-9);
  }

  /** Twelve clusters that reach over groups and steps, as in src/test/r/cluster.R. */
  @Test
  void groupsAndStepsWithinClustersMatchR() {
    ClusteredDifference groups = new ClusteredDifference();
    ClusteredTrend steps = new ClusteredTrend();
    int item = 0;
    for (int cluster = 1; cluster <= 12; cluster++) {
      long[] counts = new long[4];
      for (int own = 0; own < cluster + 2; own++) {
        item++;
        int step = (item - 1) % 5 + 1;
        int hit = (cluster * 7 + step * 3 + item * 5) % 11 < 3 + (step > 3 ? 1 : 0) ? 1 : 0;
        counts[step % 2 == 0 ? 0 : 2] += hit;
        counts[step % 2 == 0 ? 1 : 3]++;
        steps.add(step, hit, 1);
      }
      groups.add(counts[0], counts[1], counts[2], counts[3]);
      steps.endCluster();
    }
    SignificanceTest groupTest = groups.test().orElseThrow();
    assertEquals(9.28827359022839, groupTest.degreesOfFreedom(), 1e-9);
    assertEquals(
        0.21751299480208 / Math.sqrt(0.00523559202681), groupTest.statistic().orElseThrow(), 1e-9);
    SignificanceTest trend = steps.test().orElseThrow();
    assertEquals(9.185974007212533, trend.degreesOfFreedom(), 1e-9);
    assertEquals(
        0.0292808956509258 / Math.sqrt(0.0004267418801299), trend.statistic().orElseThrow(), 1e-9);
  }

  @Test
  void clustersThatAllHitOrAllMissStillGetAnInterval() {
    ClusteredRate rate = new ClusteredRate();
    rate.add(0, 5);
    assertTrue(rate.interval(LEVEL).isEmpty());
    rate.add(0, 5);
    rate.add(0, 0);
    Interval interval = rate.interval(LEVEL).orElseThrow();
    assertEquals(new Proportion(0, 2).wilson(LEVEL).high(), interval.high(), 1e-12);
    assertTrue(rate.method().warning().isPresent());
  }

  @Test
  void itemsThatStandAloneAreTakenSo() {
    ClusteredDifference difference = new ClusteredDifference();
    ClusteredRate rate = new ClusteredRate();
    for (int item = 0; item < 60; item++) {
      int hit = item % 3 == 0 ? 1 : 0;
      rate.add(hit, 1);
      difference.add(
          item < 30 ? hit : 0, item < 30 ? 1 : 0, item < 30 ? 0 : hit, item < 30 ? 0 : 1);
    }
    assertEquals(Method.Name.ALONE, difference.method().name());
    assertEquals(SignificanceTest.Name.FISHER_EXACT, difference.test().orElseThrow().name());
    assertEquals(new Proportion(20, 60).wilson(LEVEL), rate.interval(LEVEL).orElseThrow());
  }

  /** A group that is all in one cluster cannot be told from that cluster. */
  @Test
  void aGroupOfOneClusterHasNoTest() {
    ClusteredDifference difference = new ClusteredDifference();
    difference.add(3, 10, 0, 0);
    difference.add(0, 0, 4, 10);
    difference.add(0, 0, 6, 10);
    assertTrue(difference.test().isEmpty());
    assertTrue(difference.difference(LEVEL).isEmpty());
    assertTrue(difference.method().warning().isPresent());
  }

  /**
   * An apparent share of 0.30 seen through sensitivity 0.90 and specificity 0.80 is (0.30 + 0.80 -
   * 1) / (0.90 + 0.80 - 1) = 1/7: the formula of Rogan and Gladen (1978) by hand.
   */
  @Test
  void correctionFollowsRoganAndGladen() {
    CorrectedPrevalence corrected =
        CorrectedPrevalence.of(
            new Proportion(300, 1000), new Proportion(90, 100), new Proportion(160, 200));
    assertEquals(1 / 7.0, corrected.uncut().orElseThrow(), 1e-12);
    assertTrue(corrected.estimate(LEVEL).orElseThrow().interval().contains(1 / 7.0));
  }

  /**
   * 45 of 150 cows test positive, sensitivity 96 %, specificity 89 %: true prevalence 22 %, 14 to
   * 32 %, by Rogan and Gladen's estimate. The first example of epi.prev in the manual of R epiR
   * 2.0.57 (by method "wilson" 0.22353, 0.14401 to 0.31480). There the error rates are known, so
   * here they rest on very many.
   */
  @Test
  void correctionMatchesThePublishedHerd() {
    Estimate estimate = corrected(45 / 150.0, 150, 0.96, 0.89).estimate(LEVEL).orElseThrow();
    assertEquals(0.223529411765, estimate.value(), 1e-10);
    // The known-error limit of Lang and Reiczigel's interval is Agresti and Coull's, which has the
    // centre of Wilson's and is a little wider.
    assertEquals(0.14401, estimate.interval().low(), 0.002);
    assertEquals(0.31480, estimate.interval().high(), 0.002);
  }

  /**
   * 6 of 151 children, sensitivity 96.4 %, specificity 92.7 %: -4 %. The second example of the same
   * manual, whose data are those of Moujaber et al. (2008).
   */
  @Test
  void correctionBelowZeroIsCutButNotHidden() {
    CorrectedPrevalence corrected = corrected(6 / 151.0, 151, 0.964, 0.927);
    assertEquals(-0.0373343441776, corrected.uncut().orElseThrow(), 1e-10);
    Estimate estimate = corrected.estimate(LEVEL).orElseThrow();
    assertEquals(0, estimate.value());
    assertEquals(0, estimate.interval().low());
  }

  private static CorrectedPrevalence corrected(
      double apparent, double size, double sensitivity, double specificity) {
    return new CorrectedPrevalence(
        apparent, size, new DetectionRate(sensitivity, 1e9), new DetectionRate(specificity, 1e9));
  }

  /**
   * With large samples Lang and Reiczigel's interval is the delta method's: R msm 1.7 deltamethod(~
   * (x1 + x3 - 1) / (x2 + x3 - 1)) of 0.3, 0.9 and 0.8 on 200,000, 100,000 and 100,000 gives
   * 0.138663 to 0.147051.
   */
  @Test
  void correctedIntervalMatchesTheDeltaMethodInLargeSamples() {
    Interval interval =
        new CorrectedPrevalence(
                0.3, 200_000, new DetectionRate(0.9, 100_000), new DetectionRate(0.8, 100_000))
            .estimate(LEVEL)
            .orElseThrow()
            .interval();
    assertEquals(0.13866293810634, interval.low(), 2e-5);
    assertEquals(0.14705134760795, interval.high(), 2e-5);
  }

  /** Kish's size: weights 1, 1, 1 and 3 are worth 36 / 12 = 3 equal ones; of 6, 5 hit. */
  @Test
  void weightsShrinkTheSizeByKishsRule() {
    DetectionRate rate = DetectionRate.weighted(5, 6, 12).orElseThrow();
    assertEquals(3, rate.size(), 1e-12);
    assertEquals(5 / 6.0, rate.rate(), 1e-12);
    assertEquals(Optional.empty(), DetectionRate.weighted(0, 0, 0));
  }

  @Test
  void correctionWithAPerfectProgramAndManyCodesIsAlmostTheApparentShare() {
    Estimate estimate =
        CorrectedPrevalence.of(
                new Proportion(300, 1000),
                new Proportion(1_000_000, 1_000_000),
                new Proportion(1_000_000, 1_000_000))
            .estimate(LEVEL)
            .orElseThrow();
    Interval plain = new Proportion(300, 1000).wilson(LEVEL);
    assertEquals(0.3, estimate.value(), 1e-12);
    assertEquals(plain.low(), estimate.interval().low(), 1e-3);
    assertEquals(plain.high(), estimate.interval().high(), 1e-3);
  }

  @Test
  void correctionRefusesAProgramNoBetterThanChance() {
    CorrectedPrevalence corrected =
        CorrectedPrevalence.of(
            new Proportion(300, 1000), new Proportion(40, 100), new Proportion(60, 100));
    assertFalse(corrected.uncut().isPresent());
    assertFalse(corrected.estimate(LEVEL).isPresent());
  }

  /** The physicians' health study of Agresti (2007): R cor of the two yes-or-no columns. */
  @Test
  void phiMatchesR() {
    assertEquals(0.0336650729651, new TwoByTwo(189, 10845, 104, 10933).phi().orElseThrow(), 1e-12);
  }

  /** The fourfold table with margins of 50: phi is twice the share on the diagonal less one. */
  @Test
  void phiAndLiftByHand() {
    TwoByTwo table = new TwoByTwo(40, 10, 10, 40);
    assertEquals(0.6, table.phi().orElseThrow(), 1e-12);
    assertEquals(0.4 / (0.5 * 0.5), table.lift().orElseThrow(), 1e-12);
    assertTrue(new TwoByTwo(0, 0, 3, 4).phi().isEmpty());
    assertTrue(new TwoByTwo(0, 0, 3, 4).lift().isEmpty());
  }
}
