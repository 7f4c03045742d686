package everypart.cli.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.analyzer.coverage.CoverageAnalyzer;
import everypart.analyzer.points.PointProposer;
import everypart.analyzer.points.Proposals;
import everypart.analyzer.prompt.Demand;
import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.prompt.PromptYaml;
import everypart.lexicon.Lexicon;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A prompt written as YAML and read again makes the same demands. */
final class OutlineYamlTest {
  private static final CoverageAnalyzer ANALYZER = new CoverageAnalyzer(Lexicon.bundled());
  private static final PromptYaml READER = new PromptYaml(ANALYZER.prompts());

  private static String yaml(Prompt prompt, Optional<Proposals> proposals) {
    StringWriter out = new StringWriter();
    OutlineYaml.write(prompt, proposals, new PrintWriter(out, true));
    return out.toString();
  }

  /** All that judging looks at. */
  private static String told(Prompt prompt) {
    StringBuilder told = new StringBuilder(prompt.id() + prompt.title());
    for (Part part : prompt.parts()) {
      told.append("\n").append(part.label()).append(": ").append(part.text().strip());
      part.modelAnswer().ifPresent(words -> told.append("\n model ").append(words.strip()));
      for (Demand demand : part.demands()) {
        told.append("\n ")
            .append(demand.kind())
            .append(" ")
            .append(demand.count())
            .append(" ")
            .append(demand.standing())
            .append(" ")
            .append(demand.verb())
            .append(" / ")
            .append(demand.about())
            .append(" / ")
            .append(demand.span().of(prompt.text()).strip())
            .append(" ")
            .append(demand.points());
      }
    }
    return told.toString();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "Explain why the lamp fails.",
        "Stimulus: two \"lamps\" # 1\n\n(a) Name the lamp's keeper.\n(b) Explain: why? Why?",
        "(a) Name two lamps.\n(b) Bonus: Explain the glow.\n(c) Draw it or describe it.",
        "1. (a) (i) Name the salt.\n(ii) Name the acid.\n(b) Explain the fizz.\n2. Draw the flask.",
        "Calculate (i) the mass of the salt and (ii) the volume of the gas.",
        "Light at sea\n\nName it: yes or no? State the #1 cause, - and \"defend\" your \\ answer.",
        "(a) Explain the \u201cglow\u201d \u2013 a caf\u00e9 \ud83d\udd26 one.\r\n(b) Describe\tit.",
        "(a) Name it.\n(b) The river is long.",
        "Describe the lamp.\n\n  - its glass\n  - its wick\n\nExplain how each one is cleaned.",
      })
  void readsAsItWasWritten(String text) {
    Prompt prompt = ANALYZER.prompts().read("y", text);
    String yaml = yaml(prompt, Optional.empty());
    assertEquals(told(prompt), told(READER.read("other", yaml)), yaml);
  }

  @Test
  void keepsWhatTheAuthorGave() {
    String given =
        """
        id: n
        parts:
          - label: '1.10'
            text: Go on.
            model_answer: We go.
            demands:
              - {kind: describe, count: 2, points: [[on, 'a, b'], '5.0'], optional: true}
        """;
    Prompt prompt = READER.read("p", given);
    assertEquals(told(prompt), told(READER.read("p", yaml(prompt, Optional.empty()))));
  }

  @Test
  void proposesPointsInCommentsOnly() {
    Prompt prompt = ANALYZER.prompts().read("y", "Explain why the snail swells in the rain.");
    Proposals proposals =
        new PointProposer(Lexicon.bundled(), ANALYZER)
            .propose(prompt, "Water enters its cells by osmosis.");
    String yaml = yaml(prompt, Optional.of(proposals));
    assertTrue(yaml.contains("        #   - [osmosis"), yaml);
    Prompt read = READER.read("y", yaml);
    assertTrue(read.parts().get(0).demands().get(0).points().isEmpty());
    String uncommented =
        yaml.replaceAll("(?m)^        # (points:)", "        $1")
            .replaceAll("(?m)^        #(   - )", "        $1");
    assertTrue(
        READER.read("y", uncommented).parts().get(0).demands().get(0).points().stream()
            .anyMatch(point -> point.name().equals("osmosis")),
        uncommented);
  }
}
