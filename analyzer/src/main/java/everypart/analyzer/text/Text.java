package everypart.analyzer.text;

import java.util.List;

/**
 * A text and its sentences.
 *
 * @param raw the text as given
 * @param sentences its sentences, in order, without overlap; white space between them belongs to
 *     none
 */
public record Text(String raw, List<Sentence> sentences) {
  /** Copies the sentences. */
  public Text {
    sentences = List.copyOf(sentences);
  }

  /** Returns the number of tokens. */
  public int tokenCount() {
    return sentences.stream().mapToInt(Sentence::size).sum();
  }

  /** Tells whether there is no token in it. */
  public boolean isBlank() {
    return sentences.isEmpty();
  }
}
