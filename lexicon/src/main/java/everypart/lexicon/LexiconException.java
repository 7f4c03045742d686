package everypart.lexicon;

/**
 * A lexicon file that cannot be used: the message says which file, which line and what is wrong.
 */
public final class LexiconException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  /** Makes one whose message names the place already. */
  LexiconException(String message) {
    super(message);
  }

  /**
   * Makes one.
   *
   * @param file the file's name
   * @param line the line, counted from 1; 0 when the whole file is meant
   * @param problem what is wrong and how to mend it, as a clause without a full stop
   */
  public LexiconException(String file, int line, String problem) {
    this(file + (line > 0 ? ", line " + line : "") + ": " + problem);
  }
}
