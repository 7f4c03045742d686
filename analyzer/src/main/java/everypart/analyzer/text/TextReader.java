package everypart.analyzer.text;

import java.util.List;
import java.util.function.UnaryOperator;

/**
 * Reads a text into sentences and tokens.
 *
 * <p>One reader serves all threads. The models are loaded on first need and shared.
 */
public final class TextReader {
  private final SentenceSplitter splitter;
  private final TokenSplitter tokens;

  /**
   * Makes a reader.
   *
   * @param stemmer gives the stem of a word in lower case
   */
  public TextReader(UnaryOperator<String> stemmer) {
    this.splitter = new SentenceSplitter();
    this.tokens = new TokenSplitter(stemmer);
  }

  /** Reads a text. A text of nothing but white space has no sentences. */
  public Text read(String raw) {
    List<Sentence> sentences =
        splitter.split(raw).stream()
            .map(
                piece ->
                    new Sentence(
                        piece.start(),
                        piece.end(),
                        tokens.split(raw, piece.start(), piece.end()),
                        piece.lineStart(),
                        piece.paragraphStart()))
            .filter(sentence -> sentence.size() > 0)
            .toList();
    return new Text(raw, sentences);
  }
}
