package everypart.lexicon;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Twice as many words without a stop take twice the looks at a word. */
class LongSentencesTest {
  private static final Lexicon LEXICON = Lexicon.bundled();
  private static final int LENGTH = 2_000;
  private static final double MOST = 2.3;

  /** Words that count how often one of them is looked at. */
  private static final class Counted implements WordSequence {
    private final Words words;
    private long looks;

    Counted(String sentence) {
      this.words = new Words(sentence);
    }

    @Override
    public int size() {
      return words.size();
    }

    @Override
    public String form(int index) {
      looks++;
      return words.form(index);
    }

    @Override
    public String stem(int index) {
      looks++;
      return words.stem(index);
    }
  }

  private static long looks(String piece, int times) {
    Counted words = new Counted(piece.repeat(times));
    LEXICON.cues(words);
    LEXICON.concepts(words);
    return words.looks;
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "because ",
        "because of ice ",
        "if ",
        "so that ",
        "the ",
        "not ",
        "which is ",
        "ice water ",
        "1 ",
        "more than ",
        "when ice melts ",
        "and ",
        "a current ",
        "either or "
      })
  void takeTwiceTheLooks(String piece) {
    long once = looks(piece, LENGTH);
    for (int times = 2; times <= 4; times *= 2) {
      long twice = looks(piece, times * LENGTH);
      assertTrue(twice < MOST * once, twice + " looks, for half of it " + once);
      once = twice;
    }
  }

  /** Each match is found as often as its words stand there, however many of them there are. */
  @ParameterizedTest
  @ValueSource(ints = {1, 7, 300})
  void longestMatchesStay(int times) {
    long found =
        LEXICON.cues(new Words("it broke as a result of heat . ".repeat(times))).stream()
            .filter(cue -> cue.type() == CueType.CAUSE_EFFECT)
            .count();
    assertEquals(times, found);
  }
}
