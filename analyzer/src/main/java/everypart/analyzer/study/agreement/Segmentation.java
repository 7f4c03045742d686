package everypart.analyzer.study.agreement;

import java.util.BitSet;

/**
 * How far a segmentation of a text is from a reference, by two published measures. Both are 0 where
 * the segmentations are the same and never above 1; lower is better.
 *
 * <p>A segmentation of {@code units} sentences (or words) is the set of the units behind which a
 * segment ends. A window of {@code width} units slides over both.
 *
 * @param units how many units the text has
 * @param ends the units behind which a segment ends, from 0
 */
public record Segmentation(int units, BitSet ends) {
  /** Copies the ends; throws where one lies outside the text. */
  public Segmentation {
    ends = (BitSet) ends.clone();
    if (units < 0 || ends.length() > units) {
      throw new IllegalArgumentException(
          "ends must lie inside " + units + " units, not at " + (ends.length() - 1));
    }
  }

  @Override
  public BitSet ends() {
    return (BitSet) ends.clone();
  }

  /**
   * Returns the usual width: half the mean length of a segment of this segmentation, rounded, and
   * at least 1 (Beeferman, Berger and Lafferty 1999).
   */
  public int usualWidth() {
    return (int) Math.max(1, Math.rint(units / (2.0 * Math.max(1, ends.cardinality()))));
  }

  /**
   * Returns P<sub>k</sub>: the share of windows in which one segmentation has an end and the other
   * has none (Beeferman, Berger and Lafferty 1999, Statistical models for text segmentation).
   *
   * @param width the window in units, from 1 to the number of units
   */
  public double pk(Segmentation found, int width) {
    return differing(found, width, false);
  }

  /**
   * Returns WindowDiff: the share of windows in which the two have different numbers of ends
   * (Pevzner and Hearst 2002, A critique and improvement of an evaluation metric for text
   * segmentation).
   *
   * @param width the window in units, from 1 to the number of units
   */
  public double windowDiff(Segmentation found, int width) {
    return differing(found, width, true);
  }

  private double differing(Segmentation found, int width, boolean counted) {
    if (found.units != units) {
      throw new IllegalArgumentException(
          "segmentations of " + units + " and " + found.units + " units cannot be compared");
    }
    if (width < 1 || width > units) {
      throw new IllegalArgumentException("width must be from 1 to " + units + ", not " + width);
    }
    int here = 0;
    int there = 0;
    int differing = 0;
    for (int i = 0; i < units; i++) {
      here += ends.get(i) ? 1 : 0;
      there += found.ends.get(i) ? 1 : 0;
      if (i >= width) {
        here -= ends.get(i - width) ? 1 : 0;
        there -= found.ends.get(i - width) ? 1 : 0;
      }
      if (i >= width - 1) {
        boolean differs = counted ? here != there : here > 0 != there > 0;
        differing += differs ? 1 : 0;
      }
    }
    return (double) differing / (units - width + 1);
  }
}
