package everypart.analyzer.coverage;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.analyzer.coverage.Confidence.Signs;
import everypart.lexicon.DemandKind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

class ConfidenceTest {
  private static final Confidence BUNDLED = Confidence.bundled();

  @ParameterizedTest
  @EnumSource(DemandKind.class)
  void clearerSignsNeverMakeAVerdictLessSure(DemandKind kind) {
    for (boolean several : new boolean[] {false, true}) {
      for (int words : new int[] {0, 3, 30, 300}) {
        for (int percent = 1; percent <= 100; percent++) {
          double more = percent / 100.0;
          double less = (percent - 1) / 100.0;
          assertTrue(
              BUNDLED.of(new Signs(true, more, words, several, kind))
                  >= BUNDLED.of(new Signs(true, less, words, several, kind)));
          assertTrue(
              BUNDLED.of(new Signs(false, less, words, several, kind))
                  >= BUNDLED.of(new Signs(false, more, words, several, kind)));
        }
      }
    }
  }

  @ParameterizedTest
  @ValueSource(doubles = {0, 0.02, 0.5, 1})
  void confidenceIsAProbability(double strength) {
    for (boolean found : new boolean[] {false, true}) {
      double sure = BUNDLED.of(new Signs(found, strength, 1_000_000, true, DemandKind.EXPLAIN));
      assertTrue(sure > 0 && sure < 1, () -> "confidence " + sure);
    }
  }

  /** By hand: 1 / (1 + e^-(1 + 0.5 ln(0.8 / 0.2))) = 1 / (1 + 0.36788 / 2) = 0.84464. */
  @Test
  void theCurveIsLogisticInTheLogOddsOfTheSigns() {
    Confidence curve =
        new Confidence(new double[] {1, 0.5, 0, 0, 0}, new double[] {0, 0, 0, 0, 0}, 0.7);
    Signs signs = new Signs(true, 0.8, 12, false, DemandKind.IDENTIFY);
    assertEquals(0.84464, curve.of(signs), 1e-5);
    assertEquals(0.5, curve.of(new Signs(false, 0.8, 12, false, DemandKind.IDENTIFY)), 1e-12);
  }

  @Test
  void aLookIsAskedForBelowTheThresholdOnly() {
    Confidence curve = new Confidence(new double[5], new double[5], 0.7);
    assertTrue(curve.asksForLook(0.699));
    assertFalse(curve.asksForLook(0.7));
  }
}
