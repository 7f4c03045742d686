package everypart.analyzer.text;

/**
 * Bounds how many accents and like marks stand on one letter.
 *
 * <p>At each place a pattern's {@code \b} looks back over all marks before it, so its time would
 * grow with the square of their number. No language writes more than a few on one letter.
 */
public final class StackedMarks {
  /** How many marks in a row are left. */
  static final int MOST = 8;

  /** What takes the place of the others: it is not seen, is no letter, and is no such mark. */
  private static final char UNSEEN = '\u200b';

  private StackedMarks() {}

  /**
   * Returns a text of the same length in which no more than {@value #MOST} marks stand in a row;
   * all other signs keep their places.
   */
  public static String bounded(String text) {
    StringBuilder changed = null;
    int row = 0;
    int size;
    for (int i = 0; i < text.length(); i += size) {
      int sign = text.codePointAt(i);
      size = Character.charCount(sign);
      row = Character.getType(sign) == Character.NON_SPACING_MARK ? row + 1 : 0;
      if (row > MOST) {
        if (changed == null) {
          changed = new StringBuilder(text);
        }
        for (int j = i; j < i + size; j++) {
          changed.setCharAt(j, UNSEEN);
        }
      }
    }
    return changed == null ? text : changed.toString();
  }
}
