package everypart.analyzer.prompt;

import java.util.List;

/**
 * Something that a full answer mentions, as the prompt's author listed it.
 *
 * @param phrases wordings of the point; any one will do; the first names the point
 */
public record Point(List<String> phrases) {
  /**
   * Copies the phrases.
   *
   * @throws IllegalArgumentException when there is none
   */
  public Point {
    phrases = List.copyOf(phrases);
    if (phrases.isEmpty()) {
      throw new IllegalArgumentException("a point needs at least one phrase");
    }
  }

  /** Returns the wording that names the point. */
  public String name() {
    return phrases.get(0);
  }
}
