package everypart.analyzer.prompt;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.lexicon.Lexicon;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * All that is read in the prompts of the tables, not only kinds and counts: titles, stimulus, where
 * parts and demands stand, what they are about, and why. {@code readings.txt} holds it; with
 * -Deverypart.golden=write it is written anew, and the change is there to be looked at.
 */
final class ReadingsTest {
  private static final PromptReader READER = new PromptReader(Lexicon.bundled());
  private static final Path HELD =
      Path.of("src/test/resources/everypart/analyzer/prompt/readings.txt");
  private static final String APART = "\n\n";

  static Stream<Arguments> prompts() {
    return Stream.of("prompts.tsv", "asking.tsv")
        .flatMap(table -> TestTable.rows(table, 3))
        .map(row -> Arguments.of(row.get(0), row.get(1)));
  }

  private static List<String> held = List.of();

  private static synchronized List<String> held() throws IOException {
    if (held.isEmpty()) {
      held = Arrays.asList(Files.readString(HELD).strip().split(APART));
    }
    return held;
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("prompts")
  void readsAllOfItAsHeld(String name, String prompt) throws IOException {
    if (!"write".equals(System.getProperty("everypart.golden"))) {
      String reading = reading(name, prompt);
      String first = reading.substring(0, reading.indexOf('\n', reading.indexOf('\n') + 1));
      List<String> same = held().stream().filter(one -> one.startsWith(first + "\n")).toList();
      assertTrue(same.contains(reading), () -> reading + "\n\nheld is\n" + same);
    }
  }

  @Test
  void eachPromptHasOneReadingAndNoneIsLeftOver() throws IOException {
    List<String> readings =
        prompts().map(row -> reading((String) row.get()[0], (String) row.get()[1])).toList();
    if ("write".equals(System.getProperty("everypart.golden"))) {
      Files.writeString(HELD, String.join(APART, readings) + "\n");
    }
    assertEquals(readings.size(), held().size());
  }

  private static String reading(String name, String row) {
    Prompt prompt = READER.read("p", row.replace("\\n", "\n"));
    StringBuilder reading = new StringBuilder(name).append('\n').append(row).append('\n');
    prompt.title().ifPresent(title -> reading.append("title: ").append(title).append('\n'));
    if (!prompt.stimulus().isEmpty()) {
      reading.append("stimulus: ").append(prompt.stimulus()).append('\n');
    }
    for (Part part : prompt.parts()) {
      String wording = part.text().equals(row) ? "" : " (" + part.text() + ")";
      reading.append(part.label()).append(wording).append('\n');
      for (Demand demand : part.demands()) {
        reading.append(
            Stream.of(
                    demand.verb(),
                    demand.about(),
                    demand.span().of(prompt.text()),
                    demand.why(),
                    demand.asking().form().word()
                        + " "
                        + demand.asking().counted()
                        + demand.asking().options())
                .collect(Collectors.joining(" | ", "  ", "\n")));
      }
    }
    for (Remark remark : prompt.remarks()) {
      reading
          .append(remark.kind())
          .append(": ")
          .append(remark.span().of(prompt.text()))
          .append(" | ")
          .append(remark.message())
          .append('\n');
    }
    return reading.toString().replaceAll("\n{2,}", "\n").strip();
  }
}
