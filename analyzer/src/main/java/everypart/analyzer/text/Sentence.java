package everypart.analyzer.text;

import everypart.lexicon.TokenRange;
import everypart.lexicon.WordSequence;
import java.util.List;

/**
 * A sentence, or a line that stands for one.
 *
 * @param start the first {@code char} in the original text
 * @param end the {@code char} after the last one
 * @param tokens the tokens, in order
 * @param lineStart whether it begins a line
 * @param paragraphStart whether it begins a paragraph: the text, or a line after an empty one
 */
public record Sentence(
    int start, int end, List<Token> tokens, boolean lineStart, boolean paragraphStart)
    implements WordSequence {
  /** Copies the tokens. */
  public Sentence {
    tokens = List.copyOf(tokens);
  }

  @Override
  public int size() {
    return tokens.size();
  }

  @Override
  public String form(int i) {
    return tokens.get(i).form();
  }

  @Override
  public String stem(int i) {
    return tokens.get(i).stem();
  }

  /** Returns where the sentence stands. */
  public Span span() {
    return new Span(start, end);
  }

  /** Returns where a run of its tokens stands; an empty run stands at its first token's start. */
  public Span span(TokenRange range) {
    if (range.length() == 0) {
      int at = range.from() < tokens.size() ? tokens.get(range.from()).start() : end;
      return new Span(at, at);
    }
    return new Span(tokens.get(range.from()).start(), tokens.get(range.to() - 1).end());
  }
}
