package everypart.analyzer.prompt;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import everypart.lexicon.DemandKind;
import everypart.lexicon.Lexicon;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

final class PromptYamlTest {
  private final PromptYaml reader = new PromptYaml(new PromptReader(Lexicon.bundled()));

  @Test
  void readsDemandsFromTheWordingWhereNoneAreGiven() {
    Prompt prompt =
        reader.read(
            "p",
            """
            stimulus: Two rivers cross the plain.
            parts:
              - label: a
                text: Name the source of each river, and explain why one is dry.
            """);
    List<Demand> demands = prompt.parts().get(0).demands();
    assertEquals(
        List.of(DemandKind.IDENTIFY, DemandKind.EXPLAIN),
        demands.stream().map(Demand::kind).toList());
    assertEquals(2, demands.get(0).count());
    assertEquals("Name the source of each river", demands.get(0).span().of(prompt.text()));
  }

  @Test
  void takesDemandsAsGiven() {
    Prompt prompt =
        reader.read(
            "p",
            """
            parts:
              - label: a
                text: Explain the fog.
                demands:
                  - {kind: describe, count: 2, points: [[cold air, chill], damp]}
            """);
    Demand demand = prompt.parts().get(0).demands().get(0);
    assertEquals(DemandKind.DESCRIBE, demand.kind());
    assertEquals(2, demand.count());
    assertEquals(List.of("cold air", "damp"), demand.points().stream().map(Point::name).toList());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "parts:\\n  - label: a\\n    text: Go.\\n    demands:\\n      - kind: sing | line 5: \"sing\" is no kind of demand; the kinds are identify, define, describe, explain, predict, justify, compare, calculate, represent, propose, evaluate",
        "parts:\\n  - label: a\\n    text: Go.\\n    demands:\\n      - {kind: define, count: many} | line 5: the count of a demand is a whole number from 1, not \"many\"",
        "parts:\\n  - {label: a, text: Go.}\\n  - {label: a, text: Stay.} | line 3: two parts have the label \"a\"; give each its own",
        "parts:\\n  - label: a | line 2: part a has neither \"text\" nor \"demands\"; write one of them",
        "title: x | a prompt in YAML needs a list \"parts\" with at least one part, \"- label: a\"",
        "parts:\\n  - Go. | line 2: a part has fields such as \"label\" and \"text\"; write \"- text: \" before it",
        "parts:\\n  - label: a\\n    text: Go.\\n    demands: describe | line 4: \"demands\" is a list; write each as \"- kind: \" and its kind",
        "parts:\\n  - label: a\\n    text: [Go, on] | 'line 3: \"text\" is one text; put it in quotation marks or below \"text: |\"'",
        "parts:\\n  - label: a\\n    text: Go.\\n    demands:\\n      - kind: define\\n        count: 2.5 | line 6: the count of a demand is a whole number from 1, not \"2.5\"",
        "parts:\\n  - label: a\\n    text: Go.\\n    demands:\\n      - kind: define\\n        points: lamp | line 6: \"points\" is a list; write each point as \"- \" and its wording",
        "parts:\\n  - label: a\\n    text: Go.\\n    text: Stay. | line 4: \"text\" stands twice; keep one of the two",
        "parts:\\n  - label: a\\n   text: Go. | 'line 3: this is no valid YAML; check that the fields of a part stand exactly below each other and that a text with \": \" or \"#\" in it stands in quotation marks or below \"text: |\"'"
      })
  void saysWhatIsWrongAndWhere(String yaml, String message) {
    IllegalArgumentException wrong =
        assertThrows(
            IllegalArgumentException.class, () -> reader.read("p", yaml.replace("\\n", "\n")));
    assertEquals(message, wrong.getMessage());
  }

  @Test
  void demandsThatTheAuthorGaveTakeTheirWordsFromTheWording() {
    Prompt prompt =
        reader.read(
            "p",
            """
            parts:
              - label: a
                text: The pump stopped. Will the fish live or die? Why? Describe two repairs.
                demands:
                  - {kind: identify}
                  - {kind: justify}
                  - {kind: propose, count: 2}
            """);
    List<Demand> demands = prompt.parts().get(0).demands();
    assertEquals(
        List.of("Will the fish live or die?", "Why?", "Describe two repairs."),
        demands.stream().map(demand -> demand.span().of(prompt.text())).toList());
    assertEquals(List.of("live", "die"), demands.get(0).asking().options());
    assertEquals(Optional.of(new Asking.Claim("a", 0)), demands.get(1).asking().claim());
    assertEquals(CountSource.AUTHOR, demands.get(2).asking().counted());
    for (Demand demand : demands) {
      assertEquals(
          List.of("The pump stopped."),
          demand.asking().setUp().stream().map(told -> told.of(prompt.text())).toList());
    }
  }
}
