package everypart.analyzer.text;

/**
 * Turns places counted in {@code char}s into places counted in Unicode code points.
 *
 * <p>A text without surrogate pairs, which is nearly every one, costs one scan and no memory.
 */
public final class CodePoints {
  private final String text;
  private final boolean plain;

  /** Scans the text once. */
  public CodePoints(String text) {
    this.text = text;
    this.plain = text.codePointCount(0, text.length()) == text.length();
  }

  /**
   * Returns the number of code points before a place.
   *
   * @param index a place in {@code char}s, from 0 to the length of the text
   */
  public int of(int index) {
    return plain ? index : text.codePointCount(0, index);
  }
}
