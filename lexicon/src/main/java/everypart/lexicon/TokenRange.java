package everypart.lexicon;

/**
 * A run of tokens in a {@link WordSequence}.
 *
 * @param from the first token, counted from 0
 * @param to the token after the last one
 */
public record TokenRange(int from, int to) {
  /**
   * Checks the bounds.
   *
   * @throws IllegalArgumentException when {@code from} is negative or {@code to} is before it
   */
  public TokenRange {
    if (from < 0 || to < from) {
      throw new IllegalArgumentException("token range from " + from + " to " + to);
    }
  }

  /** Returns the number of tokens. */
  public int length() {
    return to - from;
  }
}
