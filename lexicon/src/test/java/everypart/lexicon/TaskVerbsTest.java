package everypart.lexicon;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashSet;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

final class TaskVerbsTest {
  private final TaskVerbs verbs = TaskVerbs.bundled();

  @Test
  void holdsAtLeastAHundredAndFiftyFormsAndNoneTwice() {
    Set<String> forms = new HashSet<>();
    for (TaskVerb verb : verbs.verbs()) {
      assertTrue(forms.add(verb.form()), () -> verb.form() + " stands twice");
      assertFalse(verb.why().isBlank(), () -> verb.form() + " does not say what it asks for");
    }
    assertTrue(forms.size() >= 150, () -> forms.size() + " forms");
  }

  /**
   * Command words of the list that the examination board AQA publishes for GCSE science ("Command
   * words"). Both the words and their meanings are from memory, so words of the list may be missing
   * here; the kinds are ours, by those meanings.
   */
  @ParameterizedTest
  @CsvSource({
    "calculate, calculate", "choose, identify", "compare, compare", "complete, represent",
    "define, define", "describe, describe", "design, propose", "determine, identify",
    "draw, represent", "estimate, calculate", "evaluate, evaluate", "explain, explain",
    "give, identify", "identify, identify", "justify, justify", "label, represent",
    "measure, calculate", "name, identify", "plan, propose", "plot, represent",
    "predict, predict", "show, represent", "sketch, represent", "suggest, propose",
    "write, identify"
  })
  void knowsThePublishedCommandWords(String word, String kind) {
    assertEquals(kind, verbs.verb(word).orElseThrow().kind().word());
  }

  @Test
  void namesTheFileAndTheEntryOfAMistake() {
    IllegalArgumentException wrong =
        assertThrows(
            IllegalArgumentException.class,
            () -> TaskVerbs.read("own.yaml", "verbs:\n  - {kind: sing, forms: [chant]}\n"));
    assertEquals(
        "own.yaml, line 2 (verbs, entry 1): \"sing\" is no kind of demand", wrong.getMessage());
  }

  @Test
  void namesTheLineOfAMarkOutOfPlace() {
    IllegalArgumentException wrong =
        assertThrows(
            IllegalArgumentException.class,
            () -> TaskVerbs.read("own.yaml", "verbs:\n  - {kind: [\n"));
    assertTrue(String.valueOf(wrong.getMessage()).startsWith("own.yaml, line "));
  }
}
