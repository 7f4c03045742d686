package everypart.lexicon;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

final class WordPatternTest {
  private static final Map<String, List<String>> CLASSES =
      Map.of("give", List.of("give", "hand over"), "any", List.of("stud*", "you"));

  private static WordLine line(String words) {
    return new WordLine(new Words(words));
  }

  @ParameterizedTest
  @CsvSource({
    "give|name, name the star, 1",
    "@give, hand over the star, 2",
    "@any should, students should go, 2",
    "[please] give, give the star, 1",
    "..2 star, the old star, 3",
    "# stars, 12 stars, 2",
    "_ star, old star, 2",
    "name|$, star, -1",
    "give, hand over, -1"
  })
  void matchesFromAWordOn(String pattern, String words, int end) {
    OptionalInt expected = end < 0 ? OptionalInt.empty() : OptionalInt.of(end);
    WordLine line = line(words);
    assertEquals(expected, new WordPattern(pattern, CLASSES).match(line, 0, line.size()));
  }

  @Test
  void isTriedOnlyWhereItCanBegin() {
    WordLine line = line("a star fell over you");
    WordPattern give = new WordPattern("@give star", CLASSES);
    for (int i = 0; i <= line.size(); i++) {
      assertFalse(give.mayBegin(line, i));
    }
    WordPattern fell = new WordPattern("fell|fall ..3 you", CLASSES);
    assertFalse(fell.mayBegin(line, 1));
    assertTrue(fell.mayBegin(line, 2));
    assertTrue(new WordPattern("@any", CLASSES).mayBegin(line, 0));
    assertTrue(new WordPattern("$", CLASSES).match(line, line.size(), line.size()).isPresent());
  }
}
