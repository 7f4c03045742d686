package everypart.lexicon;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class CueTypesTest {
  private static final Lexicon LEXICON = Lexicon.bundled();

  static List<List<String>> cases() {
    return TestTable.rows("other-cues.tsv", 2);
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("cases")
  void aCueOfTheTypeIsFound(List<String> row) {
    CueType type = CueType.of(row.get(0));
    assertTrue(
        LEXICON.cues(new Words(row.get(1))).stream().anyMatch(cue -> cue.type() == type),
        row.toString());
  }

  @Test
  void noBeforeANounIsNoChoice() {
    assertTrue(
        LEXICON.cues(new Words("No lid was on the pot.")).stream()
            .noneMatch(cue -> cue.type() == CueType.CHOICE));
  }

  @Test
  void everyTypeHasACase() {
    Set<CueType> seen = EnumSet.of(CueType.CAUSE_EFFECT);
    cases().forEach(row -> seen.add(CueType.of(row.get(0))));
    assertEquals(EnumSet.allOf(CueType.class), seen);
  }
}
