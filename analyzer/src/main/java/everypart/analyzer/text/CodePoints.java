package everypart.analyzer.text;

/**
 * Turns places counted in {@code char}s into places counted in Unicode code points.
 *
 * <p>A text without surrogate pairs, which is nearly every one, costs one scan and no memory. In
 * others the pairs are counted up to every 256th {@code char}, so a place costs no more far behind
 * than near the start.
 */
public final class CodePoints {
  private static final int STEP_BITS = 8;

  private final String text;
  private final boolean plain;
  private final int[] pairsBefore;

  /** Scans the text once. */
  public CodePoints(String text) {
    this.text = text;
    this.plain = text.codePointCount(0, text.length()) == text.length();
    this.pairsBefore = new int[plain ? 0 : (text.length() >> STEP_BITS) + 1];
    int pairs = 0;
    for (int step = 1; step < pairsBefore.length; step++) {
      pairs += pairs((step - 1) << STEP_BITS, step << STEP_BITS);
      pairsBefore[step] = pairs;
    }
  }

  /** Returns how many surrogate pairs have their second half between two places. */
  private int pairs(int from, int to) {
    int pairs = 0;
    for (int at = Math.max(from, 1); at < to; at++) {
      boolean pair =
          Character.isLowSurrogate(text.charAt(at))
              && Character.isHighSurrogate(text.charAt(at - 1));
      pairs += pair ? 1 : 0;
    }
    return pairs;
  }

  /**
   * Returns the number of code points before a place.
   *
   * @param index a place in {@code char}s, from 0 to the length of the text
   */
  public int of(int index) {
    if (plain) {
      return index;
    }
    int step = index >> STEP_BITS;
    return index - pairsBefore[step] - pairs(step << STEP_BITS, index);
  }
}
