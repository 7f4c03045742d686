package everypart.analyzer.coverage;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.analyzer.prompt.Prompt;
import everypart.lexicon.Lexicon;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** Answers that stand under one part and say that they belong to another. */
class ReferencesTest {
  private final CoverageAnalyzer analyzer =
      new CoverageAnalyzer(Lexicon.bundled(), Optional.empty());
  private final Prompt prompt =
      analyzer
          .prompts()
          .read(
              "harbour",
              """
              A keeper moves the foghorn from the pier to the hill.
              (a) Predict what will happen to the number of ships that run aground. Justify your prediction.
              (b) A captain says that the move is a mistake. Do you agree? Justify your answer.
              """);

  private DemandCoverage demand(String response, int part, int place) {
    return analyzer.analyze(prompt, "r", response).parts().get(part).demands().get(place);
  }

  @Test
  void aGroundNamedForAnotherPartCountsThere() {
    String response =
        "(a) Fewer ships will run aground. The reason I say no in (b) is that sound carries further"
            + " over the water from a height.\n(b) No.";
    assertEquals(Verdict.ADDRESSED, demand(response, 1, 1).verdict());
  }

  @Test
  void withoutTheReferenceItDoesNot() {
    String response =
        "(a) Fewer ships will run aground since sound carries further over the water from a height."
            + "\n(b) No.";
    assertEquals(Verdict.MISSING, demand(response, 1, 1).verdict());
  }

  @Test
  void seeAboveSendsToTheRestOfTheResponse() {
    String response =
        "(a) Fewer ships will run aground because sound carries further over the water from a"
            + " height.\n(b) No, see above.";
    DemandCoverage found = demand(response, 1, 1);
    assertEquals(Verdict.ADDRESSED, found.verdict());
    assertTrue(
        found.why().contains("it stands outside the text of this part"), found.why().toString());
    assertEquals(List.of(), demand("(a) No idea.\n(b) No, see above.", 1, 1).evidence());
  }
}
