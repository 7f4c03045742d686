package everypart.analyzer.coverage;

import static org.junit.jupiter.api.Assertions.assertEquals;

import everypart.lexicon.Lexicon;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

final class StandingsTest {
  private static final CoverageAnalyzer ANALYZER = new CoverageAnalyzer(Lexicon.bundled());

  @ParameterizedTest(name = "{0} / {1}")
  @CsvSource(
      delimiter = '|',
      value = {
        // an optional demand left open does not count; one that is met does
        "(a) Name the poet.\\n(b) Bonus: Explain why he left. | (a) Orrin Vale. | a addressed, b unchecked: addressed",
        "(a) Name the poet.\\n(b) Bonus: Explain why he left. | (a) Orrin Vale. (b) He left because his lamp broke in the storm and no ship could see the rocks. | a addressed, b addressed: addressed",
        // the same words without "bonus" are missed
        "(a) Name the poet.\\n(b) Explain why he left. | (a) Orrin Vale. | a addressed, b missing: partly",
        // one of two alternatives is enough, either of them; neither is one demand missed
        "Define erosion or calculate the mass of the sand. | 4 + 8 = 12 kg. | 1 unchecked addressed: addressed",
        "Define erosion or calculate the mass of the sand. | '' | 1 missing unchecked: missing",
      })
  void leavesOutWhatMayBeLeftOut(String prompt, String response, String verdicts) {
    Coverage coverage =
        ANALYZER.analyze(ANALYZER.prompts().read("p", prompt.replace("\\n", "\n")), "r", response);
    StringBuilder said = new StringBuilder();
    for (PartCoverage part : coverage.parts()) {
      said.append(said.isEmpty() ? "" : ", ").append(part.part().label());
      part.demands().forEach(demand -> said.append(' ').append(demand.verdict().word()));
    }
    assertEquals(verdicts, said + ": " + coverage.verdict().word());
  }
}
