package everypart.analyzer.text;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.params.provider.Arguments.arguments;

import everypart.lexicon.WordForms;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

class TextReaderTest {
  private final TextReader reader = new TextReader(new WordForms()::stem);

  static Stream<Arguments> sentences() throws IOException {
    return rows("sentences.tsv", 3).map(row -> arguments(row[0], row[1], row[2]));
  }

  static Stream<Arguments> tokens() throws IOException {
    return rows("tokens.tsv", 2).map(row -> arguments(row[0], row[1]));
  }

  /** Reads a table; a row with the wrong number of fields fails the test that asks for it. */
  private static Stream<String[]> rows(String file, int fields) throws IOException {
    try (InputStream in =
            Objects.requireNonNull(TextReaderTest.class.getResourceAsStream(file), file);
        BufferedReader lines =
            new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
      List<String[]> rows =
          lines
              .lines()
              .filter(line -> !line.startsWith("#"))
              .map(line -> line.replace("\\r", "\r").replace("\\n", "\n").split("\t", -1))
              .toList();
      rows.forEach(row -> assertEquals(fields, row.length, () -> Arrays.toString(row)));
      assertFalse(rows.isEmpty());
      return rows.stream();
    }
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("sentences")
  void splitsSentences(String name, String text, String expected) {
    List<String> found =
        reader.read(text).sentences().stream().map(sentence -> sentence.span().of(text)).toList();
    assertEquals(List.of(expected.split("\\|")), found);
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("tokens")
  void splitsTokens(String text, String expected) {
    String found =
        reader.read(text).sentences().stream()
            .flatMap(sentence -> sentence.tokens().stream())
            .map(Token::form)
            .collect(Collectors.joining(" "));
    assertEquals(expected, found);
  }

  @Test
  void readsNothingFromWhiteSpace() {
    assertTrue(reader.read("").isBlank());
    assertTrue(reader.read(" \n\t\r\n ").isBlank());
  }

  @Test
  void keepsEveryVisibleCharacterInExactlyOneTokenWhateverTheText() {
    Random random = new Random(20261125);
    String alphabet = "abcXYZ019 .,;:!?'’\"()[]-–•\n\r\t/%=+µ°é漢\uD83D\uDC1A";
    for (int round = 0; round < 500; round++) {
      String text =
          random
              .ints(random.nextInt(120), 0, alphabet.length() - 1)
              .mapToObj(i -> alphabet.substring(i, alphabet.offsetByCodePoints(i, 1)))
              .collect(Collectors.joining());
      int at = 0;
      for (Sentence sentence : reader.read(text).sentences()) {
        for (Token token : sentence.tokens()) {
          assertTrue(text.substring(at, token.start()).isBlank(), text);
          assertTrue(token.end() > token.start(), text);
          assertFalse(Character.isLowSurrogate(text.charAt(token.start())), text);
          at = token.end();
        }
        assertTrue(sentence.start() <= sentence.tokens().get(0).start(), text);
        assertTrue(sentence.end() >= at, text);
      }
      assertTrue(text.substring(at).isBlank(), text);
    }
  }

  @Test
  void neverCutsACharacterOfTwoUnitsInHalf() {
    String text = "\uD83D\uDC1F Rain falls \uD83D\uDC1A";
    for (Token token : reader.read(text).sentences().get(0).tokens()) {
      assertFalse(Character.isLowSurrogate(text.charAt(token.start())), text);
      assertFalse(Character.isHighSurrogate(text.charAt(token.end() - 1)), text);
    }
  }

  @Test
  void countsCodePointsAtTheBoundary() {
    String text = "\uD83D\uDC1A shells";
    CodePoints points = new CodePoints(text);
    assertEquals(0, points.of(0));
    assertEquals(1, points.of(2));
    assertEquals(8, points.of(text.length()));
  }
}
