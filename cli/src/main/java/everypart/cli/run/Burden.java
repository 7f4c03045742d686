package everypart.cli.run;

/**
 * How much memory it may take to judge a text. Words and marks count, not characters: of letters
 * with blanks between them a text has ten times as many tokens as one of long words.
 */
final class Burden {
  /** Its place in the queue, its result, and the lines that are written of it. */
  private static final long RESPONSE = 20_000;

  /** The text itself, and what is made of it to look into it. */
  private static final long CHARACTER = 4;

  /** A token with its letters, its clause and its features, and its share of the lines written. */
  private static final long TOKEN = 220;

  private Burden() {}

  /** Returns how many bytes. */
  static long of(String text) {
    long tokens = 0;
    boolean within = false;
    for (int i = 0; i < text.length(); i++) {
      char sign = text.charAt(i);
      boolean letter = Character.isLetterOrDigit(sign);
      // Signs that are no letters may each be a token.
      tokens += letter ? (within ? 0 : 1) : Character.isWhitespace(sign) ? 0 : 1;
      within = letter;
    }
    return RESPONSE + CHARACTER * text.length() + TOKEN * tokens;
  }
}
