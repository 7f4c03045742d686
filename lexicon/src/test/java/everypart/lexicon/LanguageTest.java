package everypart.lexicon;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** Lists of words that take in other lists. */
class LanguageTest {
  private static JsonNode yaml(String text) {
    try {
      return new YAMLMapper().readTree(text);
    } catch (JsonProcessingException e) {
      throw new IllegalArgumentException(e);
    }
  }

  @Test
  void aListTakesInOthersInOrderAndEachWordOnce() {
    Language made =
        new Language(
            "made.yaml",
            yaml("words:\n  all: one +few two\n  few: three +fewer\n  fewer: one four"));
    assertEquals(List.of("one", "three", "four", "two"), made.list("all"));
    assertEquals(Set.of("one", "four"), made.words("fewer"));
    assertEquals("three|one|four", made.either("few"));
    assertEquals(
        List.of("+", "plus", "one", "four"), made.expand(List.of("+", "plus", "+fewer", "one")));
  }

  @Test
  void whatCannotBeReadIsTold() {
    assertTold("has no list \"b\"", "words:\n  a: one +b");
    assertTold("takes in itself: \"a\"", "words:\n  a: +b\n  b: +a");
    assertTold("the list \"a\" is one text", "words:\n  a: [one]");
    assertTold("has no lists", "lists:\n  a: one");
    assertThrows(IllegalArgumentException.class, () -> Language.english().list("no such list"));
  }

  private static void assertTold(String told, String text) {
    String message =
        String.valueOf(
            assertThrows(
                    IllegalArgumentException.class, () -> new Language("made.yaml", yaml(text)))
                .getMessage());
    assertTrue(message.contains(told) && message.contains("made.yaml"), message);
  }

  /** No list is left over that nothing asks for. */
  @Test
  void everyListIsAskedFor() throws IOException {
    Set<String> asked = new TreeSet<>();
    Pattern call = Pattern.compile("(?:words|list|either|numbered)\\(\"(\\w+)\"|[+](\\w+)");
    for (Path root : List.of(Path.of("src/main"), Path.of("../analyzer/src/main"))) {
      try (Stream<Path> files = Files.walk(root)) {
        for (Path file : files.filter(LanguageTest::mayAsk).toList()) {
          call.matcher(Files.readString(file))
              .results()
              .map(found -> found.group(1) == null ? found.group(2) : found.group(1))
              .forEach(asked::add);
        }
      }
    }
    // These are put together in code, from the lists "person" and "shortened" and from letters.
    Language.english().list("person").forEach(asked::add);
    Language.english().list("shortened").forEach(word -> asked.add("means_" + word));
    Set<String> lists = new TreeSet<>();
    Pattern head = Pattern.compile("(?m)^  (\\w+):");
    head.matcher(Files.readString(Path.of("src/main/resources/everypart/lexicon/english.yaml")))
        .results()
        .map((MatchResult found) -> found.group(1))
        .forEach(lists::add);
    assertFalse(lists.isEmpty());
    lists.removeAll(asked);
    assertEquals(Set.of(), lists);
  }

  private static boolean mayAsk(Path file) {
    return file.toString().endsWith(".java") || file.toString().endsWith(".yaml");
  }
}
