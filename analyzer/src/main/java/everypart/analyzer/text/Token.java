package everypart.analyzer.text;

/**
 * A word, number or mark.
 *
 * @param start the first {@code char} in the original text
 * @param end the {@code char} after the last one
 * @param form the token in lower case with straight quotes; short forms that students write ("b/c")
 *     spelled out
 * @param stem the stem of the form
 * @param shape what the token is made of
 */
public record Token(int start, int end, String form, String stem, Shape shape) {
  /** What a token is made of. */
  public enum Shape {
    /** Letters, perhaps with digits, hyphens or apostrophes inside. */
    WORD,
    /** A number in figures, decimals and thousands included. */
    NUMBER,
    /** Anything else. */
    MARK
  }

  /** Tells whether the token is a word. */
  public boolean isWord() {
    return shape == Shape.WORD;
  }

  /** Tells whether the token is a number in figures. */
  public boolean isNumber() {
    return shape == Shape.NUMBER;
  }

  /** Returns where the token stands. */
  public Span span() {
    return new Span(start, end);
  }
}
