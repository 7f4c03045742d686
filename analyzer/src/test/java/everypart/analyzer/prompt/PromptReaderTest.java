package everypart.analyzer.prompt;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.lexicon.Lexicon;
import everypart.lexicon.TaskVerbs;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

final class PromptReaderTest {
  private static final PromptReader READER = new PromptReader(Lexicon.bundled());

  static Stream<Arguments> prompts() {
    return TestTable.rows("prompts.tsv", 3)
        .map(row -> Arguments.of(row.get(0), row.get(1).replace("\\n", "\n"), row.get(2)));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("prompts")
  void readsTheDemandsThatATeacherReads(String name, String text, String expected) {
    assertEquals(expected, outline(READER.read("p", text)));
  }

  @Test
  void theTableCoversAtLeastAHundredAndTwentyPrompts() {
    assertTrue(prompts().count() >= 120);
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("prompts")
  void everyDemandPointsIntoItsPartAndSaysWhy(String name, String text, String expected) {
    for (Part part : READER.read("p", text).parts()) {
      assertEquals(part.text(), part.span().of(text));
      for (Demand demand : part.demands()) {
        assertTrue(
            demand.span().start() >= part.span().start()
                && demand.span().end() <= part.span().end(),
            () -> demand.span() + " outside " + part.span());
        assertTrue(demand.span().length() > 0);
        assertFalse(demand.why().isBlank());
        assertFalse(demand.verb().isBlank());
      }
    }
  }

  static Stream<Arguments> innocent() {
    return TaskVerbs.bundled().verbs().stream()
        .flatMap(verb -> verb.never().stream())
        .distinct()
        .map(Arguments::of);
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("innocent")
  void readsNoDemandFromAPhraseThatTheListCallsInnocent(String phrase) {
    String text = "On Monday " + phrase + ", as the ferry left at noon.";
    assertEquals("1: none", outline(READER.read("p", text)), text);
  }

  static String outline(Prompt prompt) {
    return prompt.parts().stream()
        .map(
            part ->
                part.label()
                    + ": "
                    + (part.demands().isEmpty()
                        ? "none"
                        : part.demands().stream()
                            .map(PromptReaderTest::demand)
                            .collect(Collectors.joining(" "))))
        .collect(Collectors.joining("; "));
  }

  private static String demand(Demand demand) {
    return demand.kind().word() + (demand.count() > 1 ? "*" + demand.count() : "");
  }
}
