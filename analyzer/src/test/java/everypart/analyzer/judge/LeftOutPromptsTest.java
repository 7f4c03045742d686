package everypart.analyzer.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.coverage.CoverageAnalyzer;
import everypart.analyzer.coverage.DemandCoverage;
import everypart.analyzer.coverage.Verdict;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.prompt.PromptYaml;
import everypart.lexicon.DemandKind;
import everypart.lexicon.Lexicon;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The features alone, held to prompts that no weight was learned from. */
final class LeftOutPromptsTest {
  private static final CoverageAnalyzer ANALYZER = new CoverageAnalyzer(Lexicon.bundled());
  private static final PromptYaml YAML = new PromptYaml(ANALYZER.prompts());

  /** A little under what was measured (docs/judge.md). */
  private static final double LEAST_KAPPA = 0.47;

  /** A little over what was measured without the other jar; too much yet (docs/judge.md). */
  private static final double MOST_UNRELATED = 0.25;

  private static List<DemandCoverage> judged(Prompt prompt, String text) {
    Coverage coverage = ANALYZER.analyze(prompt, "r", text);
    return coverage.parts().stream().flatMap(part -> part.demands().stream()).toList();
  }

  @Test
  void agreesWithTheCodesOnPromptsLeftOut() throws IOException {
    Map<Boolean, Map<Boolean, Integer>> counts = new HashMap<>();
    int demands = 0;
    for (CodedAnswers.Coded coded : CodedAnswers.leftOut()) {
      Prompt prompt = YAML.read(coded.id(), coded.yaml());
      for (CodedAnswers.Response response : coded.responses()) {
        List<DemandCoverage> judged = judged(prompt, response.text());
        assertEquals(coded.kinds().size(), judged.size(), coded.id());
        for (int i = 0; i < judged.size(); i++) {
          if (coded.kinds().get(i) != DemandKind.REPRESENT) {
            counts
                .computeIfAbsent(response.addressed().get(i), key -> new HashMap<>())
                .merge(judged.get(i).verdict() != Verdict.MISSING, 1, Integer::sum);
            demands++;
          }
        }
      }
    }
    assertTrue(demands > 2000, demands + " demands");
    double kappa = CodedAnswers.kappa(counts);
    assertTrue(kappa >= LEAST_KAPPA, "kappa " + kappa + " on " + demands + " demands: " + counts);
  }

  @Test
  void anUnrelatedRemarkIsSeldomTakenForAnAnswer() throws IOException {
    List<String> remarks = remarks();
    List<String> taken = new ArrayList<>();
    int demands = 0;
    int next = 0;
    for (CodedAnswers.Coded coded : CodedAnswers.leftOut()) {
      Prompt prompt = YAML.read(coded.id(), coded.yaml());
      String remark = remarks.get(next++ % remarks.size());
      for (DemandCoverage demand : judged(prompt, remark)) {
        if (demand.demand().kind() != DemandKind.REPRESENT) {
          demands++;
          if (demand.verdict() != Verdict.MISSING) {
            taken.add(demand.demand().kind() + ": " + remark);
          }
        }
      }
    }
    assertTrue(demands > 500, demands + " demands");
    assertTrue(taken.size() <= MOST_UNRELATED * demands, taken.size() + " of " + demands + taken);
  }

  private static List<String> remarks() throws IOException {
    try (InputStream in =
        Objects.requireNonNull(LeftOutPromptsTest.class.getResourceAsStream("unrelated.txt"))) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8)
          .lines()
          .filter(line -> !line.startsWith("#"))
          .toList();
    }
  }

  /** Task verbs that ask for the same (common practice, no source). */
  @ParameterizedTest
  @CsvSource({
    "Explain why the lamps went dark., Clarify why the lamps went dark.",
    "Explain why the lamps went dark., Account for why the lamps went dark.",
    "Describe the shore., Outline what the shore is like.",
    "Propose a way to dry the hay., Suggest a way to dry the hay.",
  })
  void aSynonymOfTheTaskVerbChangesNoVerdict(String one, String other) {
    Prompt first = ANALYZER.prompts().read("p", one);
    Prompt second = ANALYZER.prompts().read("p", other);
    for (String response :
        List.of(
            "Salt water got into the cable, so no current reached them any more.",
            "They went dark and nobody saw a thing.",
            "Long and stony, with tall grass and a few boats that are pulled up.",
            "Spread it over the racks on the hill, where the wind is strong.",
            "No idea.")) {
      assertEquals(
          judged(first, response).get(0).verdict(),
          judged(second, response).get(0).verdict(),
          other + " " + response);
    }
  }
}
