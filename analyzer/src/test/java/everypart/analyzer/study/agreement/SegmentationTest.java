package everypart.analyzer.study.agreement;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.BitSet;
import org.junit.jupiter.api.Test;

/**
 * Expected values are those that the Natural Language Toolkit 3.10.3 documents for {@code
 * nltk.metrics.segmentation.windowdiff} and {@code pk}, rounded to two places there.
 */
class SegmentationTest {
  private static final double TWO_PLACES = 0.005;

  @Test
  void windowDiffGivesTheDocumentedValues() {
    Segmentation one = of("000100000010");
    Segmentation two = of("000010000100");
    Segmentation three = of("100000010000");
    assertEquals(0.00, one.windowDiff(one, 3), 0);
    assertEquals(0.30, one.windowDiff(two, 3), TWO_PLACES);
    assertEquals(0.80, two.windowDiff(three, 3), TWO_PLACES);
  }

  @Test
  void pkGivesTheDocumentedValues() {
    Segmentation reference = of("0100".repeat(100));
    assertEquals(0.50, reference.pk(of("1".repeat(400)), 2), TWO_PLACES);
    assertEquals(0.50, reference.pk(of("0".repeat(400)), 2), TWO_PLACES);
    assertEquals(0.00, reference.pk(reference, 2), 0);
  }

  /** Pevzner and Hearst's case against Pk; three of the seven windows hold the second end too. */
  @Test
  void windowDiffSeesASecondEndInsideAWindowThatPkOverlooks() {
    Segmentation reference = of("0001000000");
    Segmentation found = of("0011000000");
    assertEquals(0, reference.pk(found, 4), 0);
    assertEquals(3 / 7.0, reference.windowDiff(found, 4), 1e-12);
  }

  @Test
  void usualWidthIsHalfTheMeanSegment() {
    assertEquals(2, of("0100".repeat(100)).usualWidth());
    assertEquals(3, of("000100000010").usualWidth());
    assertEquals(1, of("1").usualWidth());
  }

  @Test
  void refusesWhatCannotBeCompared() {
    assertThrows(IllegalArgumentException.class, () -> of("010").pk(of("01"), 1));
    assertThrows(IllegalArgumentException.class, () -> of("010").windowDiff(of("010"), 4));
    assertThrows(IllegalArgumentException.class, () -> of("010").pk(of("010"), 0));
  }

  private static Segmentation of(String ends) {
    BitSet set = new BitSet();
    for (int i = 0; i < ends.length(); i++) {
      set.set(i, ends.charAt(i) == '1');
    }
    return new Segmentation(ends.length(), set);
  }
}
