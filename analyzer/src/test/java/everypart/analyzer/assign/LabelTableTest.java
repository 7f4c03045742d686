package everypart.analyzer.assign;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.prompt.PromptReader;
import everypart.analyzer.text.Text;
import everypart.analyzer.text.TextReader;
import everypart.lexicon.Lexicon;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

/** Holds the writer's labels, their look-alikes and slips against the text each part should get. */
class LabelTableTest {
  private static final Lexicon LEXICON = Lexicon.bundled();

  private final TextReader texts = new TextReader(LEXICON.forms()::stem);
  private final PartAssigner assigner = new PartAssigner(LEXICON, texts);

  @TestFactory
  Stream<DynamicTest> givesEachPartItsText() throws IOException {
    List<String[]> rows = rows();
    assertTrue(rows.size() >= 250, () -> rows.size() + " rows");
    return rows.stream()
        .map(row -> DynamicTest.dynamicTest(row[0], () -> check(row[1], row[2], row[3], row[4])));
  }

  private void check(String promptName, String response, String expected, String verdict)
      throws IOException {
    Prompt prompt = new PromptReader(LEXICON).read(promptName, resource(promptName + ".txt"));
    Map<String, String> want = new LinkedHashMap<>();
    prompt.parts().forEach(part -> want.put(part.label(), ""));
    for (String one : expected.split(" \\| ", -1)) {
      String label = one.substring(0, one.indexOf('='));
      assertTrue(want.containsKey(label), () -> "the prompt has no part " + label);
      want.put(label, words(one.substring(label.length() + 1)));
    }
    if (verdict.equals("fault")) {
      assertNotEquals(want, got(prompt, texts.read(response)), "a fault less: mark the row ok");
    } else {
      assertEquals("ok", verdict);
      assertEquals(want, got(prompt, texts.read(response)));
    }
  }

  /** Returns what each part gets, without the labels. */
  private Map<String, String> got(Prompt prompt, Text text) {
    Map<String, String> got = new LinkedHashMap<>();
    prompt.parts().forEach(part -> got.put(part.label(), ""));
    Assignment assignment = assigner.assign(prompt, text);
    char[] raw = text.raw().toCharArray();
    new LabelReader(new Labels(prompt, LEXICON.taskVerbs()))
        .read(text)
        .forEach(mark -> Arrays.fill(raw, mark.span().start(), mark.span().end(), ' '));
    for (Stretch stretch : assignment.stretches()) {
      String words = stretch.sentence().span().of(String.valueOf(raw));
      stretch
          .part()
          .ifPresent(part -> got.computeIfPresent(part, (key, had) -> words(had + " " + words)));
    }
    return got;
  }

  private static String words(String text) {
    return text.toLowerCase(Locale.ROOT).replaceAll("[^\\p{L}\\p{N}]+", " ").strip();
  }

  /** Reads the table; a row with the wrong number of fields fails. */
  private static List<String[]> rows() throws IOException {
    List<String[]> rows =
        resource("labels.tsv")
            .lines()
            .filter(line -> !line.startsWith("#"))
            .map(line -> line.split("\t", -1))
            .toList();
    rows.forEach(row -> assertEquals(5, row.length, () -> Arrays.toString(row)));
    rows.forEach(row -> row[2] = row[2].replace("\\n", "\n").replace("\\t", "\t"));
    return rows;
  }

  private static String resource(String name) throws IOException {
    try (InputStream in =
        Objects.requireNonNull(LabelTableTest.class.getResourceAsStream(name), name)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }
}
