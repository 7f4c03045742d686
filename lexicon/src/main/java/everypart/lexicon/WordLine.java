package everypart.lexicon;

import java.util.Arrays;

/**
 * The words of a sentence on one line, a blank behind each, so that a pattern over words can be
 * matched as a regular expression and its match told in tokens again.
 */
public final class WordLine implements WordSequence {
  private final WordSequence words;
  private final String text;
  private final int[] starts;

  /** Writes the words on a line. */
  public WordLine(WordSequence words) {
    this.words = words;
    this.starts = new int[words.size() + 1];
    StringBuilder line = new StringBuilder();
    for (int i = 0; i < words.size(); i++) {
      starts[i] = line.length();
      line.append(words.form(i)).append(' ');
    }
    starts[words.size()] = line.length();
    this.text = line.toString();
  }

  @Override
  public int size() {
    return words.size();
  }

  @Override
  public String form(int i) {
    return words.form(i);
  }

  @Override
  public String stem(int i) {
    return words.stem(i);
  }

  String text() {
    return text;
  }

  /** Returns where token {@code i} begins on the line; for the size, the line's length. */
  int start(int i) {
    return starts[i];
  }

  /** Returns the token that begins at a place on the line. */
  int tokenAt(int place) {
    return Arrays.binarySearch(starts, place);
  }
}
