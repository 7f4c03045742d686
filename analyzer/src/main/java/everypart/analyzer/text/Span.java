package everypart.analyzer.text;

/**
 * A stretch of the original text.
 *
 * @param start the first {@code char}, counted from 0
 * @param end the {@code char} after the last one
 */
public record Span(int start, int end) {
  /**
   * Checks the bounds.
   *
   * @throws IllegalArgumentException when {@code start} is negative or {@code end} is before it
   */
  public Span {
    if (start < 0 || end < start) {
      throw new IllegalArgumentException("span from " + start + " to " + end);
    }
  }

  /** Returns the length in {@code char}s. */
  public int length() {
    return end - start;
  }

  /** Tells whether the two share at least one {@code char}. */
  public boolean overlaps(Span other) {
    return start < other.end && other.start < end;
  }

  /** Returns the stretch of {@code text} that this span marks. */
  public String of(String text) {
    return text.substring(start, end);
  }
}
