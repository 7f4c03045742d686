package everypart.analyzer.assign;

import static org.junit.jupiter.api.Assertions.assertEquals;

import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.text.Span;
import everypart.analyzer.text.TextReader;
import everypart.lexicon.TaskVerbs;
import everypart.lexicon.WordForms;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

class LabelReaderTest {
  private final TextReader texts = new TextReader(new WordForms()::stem);

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
        new LabelReader(new Labels(prompt, TaskVerbs.bundled()))
            .read(texts.read(response)).stream()
                .map(mark -> mark.parts().isEmpty() ? "?" : mark.first())
                .collect(Collectors.joining(" "));
    return found.isEmpty() ? "-" : found;
  }
}
