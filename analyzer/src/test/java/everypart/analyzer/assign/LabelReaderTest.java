package everypart.analyzer.assign;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.text.Span;
import everypart.analyzer.text.TextReader;
import everypart.lexicon.WordForms;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

class LabelReaderTest {
  private final TextReader texts = new TextReader(new WordForms()::stem);

  @TestFactory
  Stream<DynamicTest> findsTheLabelsAndNothingElse() throws IOException {
    List<String[]> rows = rows();
    assertTrue(rows.size() >= 40, () -> rows.size() + " rows");
    return rows.stream()
        .map(
            row ->
                DynamicTest.dynamicTest(
                    row[0],
                    () -> assertEquals(row[2], labels(List.of("a", "b", "c", "d"), row[1]))));
  }

  @Test
  void findsSubPartsBelowThePartNamedLast() {
    List<String> parts = List.of("a", "b.i", "b.ii", "c.i", "c.ii");
    assertEquals(
        "b.i b.ii c.i c.ii",
        labels(parts, "(b)(i) It rises.\n(ii) It falls.\n(c)(i) It stays.\n(ii) It goes."));
    assertEquals("a b.ii", labels(parts, "a) It rises.\nb ii) It falls."));
  }

  @Test
  void findsNothingWhereThePromptHasOnePart() {
    assertEquals("-", labels(List.of("1"), "(a) It rises.\n(b) It falls."));
  }

  private String labels(List<String> parts, String response) {
    Prompt prompt =
        new Prompt(
            "p",
            Optional.empty(),
            "",
            "",
            parts.stream()
                .map(label -> new Part(label, "", new Span(0, 0), Optional.empty(), List.of()))
                .toList(),
            List.of());
    String found =
        new LabelReader(new Labels(prompt))
            .read(texts.read(response)).stream()
                .map(mark -> mark.part().orElse("?"))
                .collect(Collectors.joining(" "));
    return found.isEmpty() ? "-" : found;
  }

  /** Reads the table; a row with the wrong number of fields fails. */
  private static List<String[]> rows() throws IOException {
    try (InputStream in =
            Objects.requireNonNull(LabelReaderTest.class.getResourceAsStream("labels.tsv"));
        BufferedReader lines =
            new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
      List<String[]> rows =
          lines
              .lines()
              .filter(line -> !line.startsWith("#"))
              .map(line -> line.replace("\\n", "\n").split("\t", -1))
              .toList();
      rows.forEach(row -> assertEquals(3, row.length, () -> Arrays.toString(row)));
      return rows;
    }
  }
}
