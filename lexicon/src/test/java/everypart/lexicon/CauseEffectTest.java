package everypart.lexicon;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class CauseEffectTest {
  private static final Lexicon LEXICON = Lexicon.bundled();

  static List<List<String>> stated() {
    return TestTable.rows("cause-effect.tsv", 4);
  }

  static List<String> notStated() {
    return TestTable.rows("no-cause-effect.txt", 1).stream().map(row -> row.get(0)).toList();
  }

  private static List<CueMatch> causal(Words words) {
    return LEXICON.cues(words).stream().filter(cue -> cue.type() == CueType.CAUSE_EFFECT).toList();
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("stated")
  void causeAndEffectAreFoundWhereTheyStand(List<String> row) {
    Words words = new Words(row.get(1));
    CueMatch match =
        causal(words).stream()
            .filter(cue -> cue.family().equals(row.get(0)))
            .findFirst()
            .orElseThrow(() -> new AssertionError("no " + row.get(0) + " in: " + row.get(1)));
    assertEquals(Words.plain(row.get(2)), text(words, match.cause()), "cause");
    assertEquals(Words.plain(row.get(3)), text(words, match.effect()), "effect");
  }

  private static String text(Words words, Optional<TokenRange> range) {
    return range.map(words::text).orElse("-");
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("notStated")
  void otherUsesOfTheSameWordsAreNoCauses(String sentence) {
    assertEquals(List.of(), causal(new Words(sentence)));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "Salt does not cause rust.",
        "The plant died, but not because it was dry.",
        "The valve doesn't prevent leaks.",
        "The lid never causes trouble."
      })
  void deniedCausesAreMarked(String sentence) {
    assertTrue(causal(new Words(sentence)).get(0).negated());
  }

  @Test
  void theLongestCueHidesThoseInsideIt() {
    List<CueMatch> found = causal(new Words("It sank as a result of the leak."));
    assertEquals(1, found.size());
    assertEquals(new TokenRange(2, 6), found.get(0).at());
  }

  @Test
  void thereAreAtLeastThreeHundredPatterns() {
    List<CuePattern> patterns = CueFile.read(LexiconFile.bundled("cues.yaml")).patterns();
    assertTrue(
        patterns.stream()
                .filter(pattern -> pattern.type() == CueType.CAUSE_EFFECT)
                .map(CuePattern::pattern)
                .distinct()
                .count()
            >= 300);
  }

  @Test
  void anEmptySentenceHasNoCues() {
    assertEquals(List.of(), LEXICON.cues(new Words("")));
  }
}
