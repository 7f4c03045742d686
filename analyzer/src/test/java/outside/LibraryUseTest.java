package outside;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.coverage.CoverageAnalyzer;
import everypart.analyzer.coverage.DemandCoverage;
import everypart.analyzer.prompt.Prompt;
import everypart.lexicon.Lexicon;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class LibraryUseTest {
  private static final String PROMPT =
      """
      A pond freezes over for a month.

      (a) Predict what will happen to the number of pond snails. Justify your prediction.

      (b) Describe one way in which the ice changes the pond.
      """;

  private static final String RESPONSE =
      """
      a) The number of snails will fall, because they cannot reach the air through the ice.
      b) Less light gets to the plants under it.
      """;

  @Test
  void readsAPromptAndTellsWhatAResponseCovers() {
    CoverageAnalyzer analyzer = new CoverageAnalyzer(Lexicon.bundled());
    Prompt prompt = analyzer.prompts().read("pond", PROMPT);
    Coverage coverage = analyzer.analyze(prompt, "r1", RESPONSE);
    assertEquals(
        List.of("a", "b"), coverage.parts().stream().map(part -> part.part().label()).toList());
    for (DemandCoverage demand :
        coverage.parts().stream().flatMap(part -> part.demands().stream()).toList()) {
      assertTrue(demand.found() > 0, () -> demand.demand().verb() + ": " + demand.why());
      assertTrue(
          demand.evidence().stream().allMatch(span -> !span.of(coverage.text()).isBlank()),
          () -> demand.demand().verb() + " quotes nothing");
    }
  }

  @Test
  void oneAnalyzerServesManyThreadsAndSaysTheSameEachTime() {
    CoverageAnalyzer analyzer = new CoverageAnalyzer(Lexicon.bundled());
    Prompt prompt = analyzer.prompts().read("pond", PROMPT);
    Coverage alone = analyzer.analyze(prompt, "r1", RESPONSE);
    long same =
        IntStream.range(0, 64)
            .parallel()
            .mapToObj(i -> analyzer.analyze(prompt, "r1", RESPONSE))
            .filter(alone::equals)
            .count();
    assertEquals(64, same);
  }
}
