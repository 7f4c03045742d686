package everypart.lexicon;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;

/** What the build keeps for a start says the same as the files that it was made of. */
final class KeepingTest {
  @Test
  void whatLiesBesideTheClassesIsWhatTheFilesGive() throws IOException {
    Map<String, byte[]> kept = Lexicon.kept();
    assertTrue(kept.containsKey("cues.yaml.read"), kept.keySet()::toString);
    for (Map.Entry<String, byte[]> file : kept.entrySet()) {
      try (InputStream in = Lexicon.class.getResourceAsStream(file.getKey())) {
        assertTrue(in != null, file.getKey());
        assertArrayEquals(file.getValue(), in.readAllBytes(), file.getKey());
      }
    }
  }

  @Test
  void aFileAsItWasReadGivesTheSameEntriesAndLines() {
    String name = "concepts-plants.yaml";
    assertEquals(
        ConceptFile.read(YamlValue.read(LexiconFile.bundled(name))),
        ConceptFile.read(YamlValue.bundled(name)));
  }

  @Test
  void aTableGivesEachWordItsNumberAndNoOtherWordAny() {
    Map<String, Integer> numbers = new HashMap<>();
    for (int i = 0; i < 1_000; i++) {
      numbers.put(Integer.toString(i, 36), i * 7);
    }
    numbers.put("", 5);
    numbers.put("\u03b2-sheet", 6);
    Table table = Table.of(new TreeMap<>(numbers));
    numbers.forEach((word, number) -> assertEquals(number, table.get(word), word));
    assertEquals(Table.ABSENT, table.get("Aa"));
    assertFalse(table.has("\u03b1-sheet"));
    Map<String, Integer> handed = new TreeMap<>();
    table.forEach(handed::put);
    assertEquals(new TreeMap<>(numbers), handed);
    assertEquals(7, table.longest());
  }

  @Test
  void wordsWithOneHashCodeAreKeptApart() {
    List<String> same = new ArrayList<>(List.of("AaAa", "BBBB", "AaBB", "BBAa"));
    assertEquals(1, same.stream().map(String::hashCode).distinct().count());
    Map<String, Integer> numbers = new TreeMap<>();
    same.subList(0, 3).forEach(word -> numbers.put(word, numbers.size()));
    Table table = Table.of(numbers);
    numbers.forEach((word, number) -> assertEquals(number, table.get(word), word));
    assertFalse(table.has("BBAa"));
  }
}
