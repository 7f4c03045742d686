package everypart.analyzer.study.statistics;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Every formula on a worked example.
 *
 * <p>Values of books and papers are from memory, and each was recomputed where a second program has
 * the routine: "R" is R 4.2.2 (base, or the package named), run once.
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

  /** R prop.test(81, 263, correct = FALSE). */
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

  /** Newcombe (1998) Statistics in Medicine 17:873-890, table II, method 10. */
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
   * (2007) An Introduction to Categorical Data Analysis, 2nd ed., section 2.3.3.
   */
  @Test
  void oddsRatioMatchesAgresti() {
    Estimate ratio = new TwoByTwo(189, 10845, 104, 10933).oddsRatio(LEVEL).orElseThrow();
    assertEquals(1.83, ratio.value(), 0.005);
    assertEquals(1.44, ratio.interval().low(), 0.005);
    assertEquals(2.33, ratio.interval().high(), 0.005);
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

  /** R p.adjust(c(.01, .04, .03, .005), "holm"). */
  @Test
  void holmMatchesR() {
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
   * Data Analysis, 2nd ed., section 10.1; R mcnemar.test without correction and binom.test.
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

  /** R survey 4.1-1: svymean(~y, svydesign(ids = ~g, weights = ~1)); variance 0.0276. */
  @Test
  void clusteredVarianceMatchesR() {
    ClusteredProportion proportion = new ClusteredProportion();
    long[][] clusters = {{3, 4}, {0, 3}, {3, 4}, {0, 2}, {2, 3}, {0, 4}};
    for (long[] cluster : clusters) {
      proportion.add(cluster[0], cluster[1]);
    }
    assertEquals(0.0276, proportion.variance().orElseThrow(), 1e-12);
    assertEquals(0.0276 / (0.4 * 0.6 / 20), proportion.designEffect().orElseThrow(), 1e-12);
  }

  @Test
  void clustersThatAllHitOrAllMissStillGetAnInterval() {
    ClusteredProportion proportion = new ClusteredProportion();
    proportion.add(0, 5);
    assertTrue(proportion.interval(LEVEL).isEmpty());
    proportion.add(0, 5);
    proportion.add(0, 0);
    Interval interval = proportion.interval(LEVEL).orElseThrow();
    assertEquals(new Proportion(0, 2).wilson(LEVEL).high(), interval.high(), 1e-12);
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
