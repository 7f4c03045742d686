package everypart.analyzer.study.agreement;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.analyzer.study.statistics.Estimate;
import everypart.analyzer.study.statistics.Level;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * Every coefficient on a published example.
 *
 * <p>Values of books and papers are from memory; "R" is package vcd 1.4-11 under R 4.2.2,
 * "statsmodels" 0.13.5 and "NLTK" 3.8 under Python 3.11, each run once.
 */
final class PublishedCoefficientsTest {
  private static final Level LEVEL = Level.DEFAULT;

  /**
   * Two raters, three diagnoses, 100 patients: kappa 0.68, standard error 0.087. Fleiss JL, Levin
   * B, Paik MC (2003) Statistical Methods for Rates and Proportions, 3rd ed., table 18.1; R vcd
   * Kappa; statsmodels cohens_kappa, which gives 0.5046 to 0.8484.
   */
  @Test
  void kappaMatchesFleiss() {
    var table =
        ConfusionTable.of(
            List.of("psychotic", "neurotic", "organic"),
            new long[][] {{75, 1, 4}, {5, 4, 1}, {0, 0, 10}});
    var kappa = table.kappa(LEVEL).orElseThrow();
    assertEquals(0.676470588, kappa.estimate().value(), 1e-9);
    assertEquals(0.0877029535, kappa.standardError(), 1e-9);
    assertEquals(0.504575958, kappa.estimate().interval().low(), 1e-9);
    assertEquals(0.848365218, kappa.estimate().interval().high(), 1e-9);
    assertEquals(0.89, table.agreement().orElseThrow().rate(), 1e-12);
  }

  /**
   * Two pathologists, four grades of carcinoma, 118 slides: kappa 0.493, standard error 0.057.
   * Agresti A (2002) Categorical Data Analysis, 2nd ed., section 10.5; R vcd Kappa.
   */
  @Test
  void kappaMatchesAgresti() {
    var kappa =
        ConfusionTable.of(
                List.of("1", "2", "3", "4"),
                new long[][] {{22, 2, 2, 0}, {5, 7, 14, 0}, {0, 2, 36, 0}, {0, 1, 17, 10}})
            .kappa(LEVEL)
            .orElseThrow();
    assertEquals(0.493005596, kappa.estimate().value(), 1e-9);
    assertEquals(0.0567431504, kappa.standardError(), 1e-9);
  }

  /**
   * Two readers of 50 proposals, 20 both yes, 15 both no, 5 and 10 apart: agreement 0.70, chance
   * 0.50, kappa 0.40 (the worked example of the article "Cohen's kappa" in Wikipedia).
   */
  @Test
  void kappaMatchesTheFiftyProposals() {
    var table = ConfusionTable.of(List.of("yes", "no"), new long[][] {{20, 5}, {10, 15}});
    assertEquals(0.40, table.kappa(LEVEL).orElseThrow().estimate().value(), 1e-9);
  }

  @Test
  void kappaIsNotGivenWhenBothAlwaysSayTheSame() {
    var table = ConfusionTable.of(List.of("0", "1"), new long[][] {{0, 0}, {0, 12}});
    assertTrue(table.kappa(LEVEL).isEmpty());
    assertEquals(1, table.agreement().orElseThrow().rate());
  }

  /**
   * Four observers, twelve units, codes missing: nominal alpha 0.743. Krippendorff K (2011)
   * Computing Krippendorff's alpha-reliability, section C. The digits: NLTK AnnotationTask.alpha.
   */
  @Test
  void alphaMatchesKrippendorffsCanonicalData() {
    assertEquals(0.743421052631579, canonical().alpha().orElseThrow(), 1e-12);
  }

  /** Two observers, ten units, two values: alpha 0.095. Krippendorff (2011), section A. */
  @Test
  void alphaMatchesKrippendorffsBinaryData() {
    Ratings ratings = new Ratings(2);
    int[] first = {0, 1, 0, 0, 0, 0, 0, 0, 1, 0};
    int[] second = {1, 1, 1, 0, 0, 1, 0, 0, 0, 0};
    for (int unit = 0; unit < first.length; unit++) {
      int ones = first[unit] + second[unit];
      ratings.add(2 - ones, ones);
    }
    assertEquals(0.095, ratings.alpha().orElseThrow(), 5e-4);
  }

  @Test
  void alphaIntervalIsTheSameForTheSameSeedAndHoldsTheEstimate() {
    Estimate once = canonical().alpha(LEVEL, 500, 7).orElseThrow();
    assertEquals(once, canonical().alpha(LEVEL, 500, 7).orElseThrow());
    assertTrue(once.interval().contains(once.value()));
    assertTrue(once.interval().low() < once.interval().high());
  }

  /**
   * 118 of 125 alike, the second code rare: AC1 0.9408, where kappa is -0.0234. Gwet KL (2008)
   * British J Mathematical and Statistical Psychology 61:29-48, table 1.
   */
  @Test
  void ac1MatchesGwetWhereKappaFails() {
    Ratings ratings = new Ratings(2);
    for (int unit = 0; unit < 125; unit++) {
      ratings.add(unit < 118 ? 2 : 1, unit < 118 ? 0 : 1);
    }
    assertEquals(0.9408, ratings.ac1(LEVEL).orElseThrow().estimate().value(), 5e-5);
    var table = ConfusionTable.of(List.of("+", "-"), new long[][] {{118, 5}, {2, 0}});
    assertEquals(-0.0234, table.kappa(LEVEL).orElseThrow().estimate().value(), 5e-5);
  }

  /**
   * The same data as for alpha: AC1 0.77544, standard error 0.14295, interval 0.461 to 1. Gwet KL
   * (2014) Handbook of Inter-Rater Reliability, 4th ed.
   */
  @Test
  void ac1MatchesGwetWithMissingCodes() {
    var ac1 = canonical().ac1(LEVEL).orElseThrow();
    assertEquals(0.77544, ac1.estimate().value(), 5e-6);
    assertEquals(0.14295, ac1.standardError(), 5e-6);
    assertEquals(0.461, ac1.estimate().interval().low(), 5e-4);
    assertEquals(1, ac1.estimate().interval().high());
  }

  /** Krippendorff's four observers; 0 stands for a missing code. */
  private static Ratings canonical() {
    int[][] observers = {
      {1, 2, 3, 3, 2, 1, 4, 1, 2, 0, 0, 0},
      {1, 2, 3, 3, 2, 2, 4, 1, 2, 5, 0, 3},
      {0, 3, 3, 3, 2, 3, 4, 2, 2, 5, 1, 0},
      {1, 2, 3, 3, 2, 4, 4, 1, 2, 5, 1, 0}
    };
    Ratings ratings = new Ratings(5);
    for (int unit = 0; unit < 12; unit++) {
      int[] counts = new int[5];
      for (int[] observer : observers) {
        if (observer[unit] > 0) {
          counts[observer[unit] - 1]++;
        }
      }
      ratings.add(counts);
    }
    return ratings;
  }

  @Test
  void reliabilityCurveAndBrierScoreByHand() {
    ReliabilityCurve curve = new ReliabilityCurve();
    curve.add(0.9, true);
    curve.add(0.9, true);
    curve.add(0.9, false);
    curve.add(1.0, true);
    curve.add(0.55, false);
    assertEquals(2, curve.bins().size());
    assertEquals(0.75, curve.bins().get(1).right().rate());
    assertEquals((0.01 + 0.01 + 0.81 + 0 + 0.3025) / 5, curve.brier().orElseThrow(), 1e-12);
    assertEquals(
        (0.55 + 4 * Math.abs(0.925 - 0.75)) / 5, curve.calibrationError().orElseThrow(), 1e-12);
  }
}
