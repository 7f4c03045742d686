package everypart.analyzer.points;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.analyzer.coverage.CoverageAnalyzer;
import everypart.analyzer.prompt.Point;
import everypart.analyzer.prompt.Prompt;
import everypart.lexicon.Lexicon;
import java.util.List;
import org.junit.jupiter.api.Test;

final class PointProposerTest {
  private static final Lexicon LEXICON = Lexicon.bundled();
  private static final CoverageAnalyzer ANALYZER = new CoverageAnalyzer(LEXICON);

  private static final Prompt PROMPT =
      ANALYZER
          .prompts()
          .read(
              "pool",
              """
              The pool is full of kelp. Tollops graze there.

              (a) Explain why the snail swells in the rain.
              (b) Calculate the gain in mass.
              """);

  private static final String MODEL =
      """
      (a) Water enters its cells by osmosis, because the rain makes the pool less salty. The kelp does not matter.
      (b) 5.9 - 5.0 = 0.9 g""";

  private static List<List<String>> points(int part) {
    return new PointProposer(LEXICON, ANALYZER)
        .propose(PROMPT, MODEL).parts().get(part).points().get(0).stream()
            .map(Point::phrases)
            .toList();
  }

  @Test
  void proposesConceptsWithTheirOtherNamesAndNounPhrasesRarestFirst() {
    List<List<String>> points = points(0);
    List<String> names = points.stream().map(phrases -> phrases.get(0)).toList();
    assertTrue(names.containsAll(List.of("osmosis", "water", "cells")), names.toString());
    assertTrue(names.indexOf("osmosis") < names.indexOf("water"), names.toString());
    assertTrue(points.get(names.indexOf("osmosis")).contains("osmotic"), points.toString());
  }

  @Test
  void leavesOutWhatThePartHandsOverAndPutsWhatThePromptHoldsLast() {
    List<String> names = points(0).stream().map(phrases -> phrases.get(0)).toList();
    assertFalse(names.contains("rain"), names.toString());
    assertFalse(names.contains("a"), names.toString());
    assertTrue(names.indexOf("osmosis") < names.indexOf("kelp"), names.toString());
  }

  @Test
  void proposesTheResultOfACalculationWithItsUnit() {
    assertEquals(List.of("0.9 g", "0.9"), points(1).get(0));
  }

  @Test
  void givesEachPartItsWordsOfTheModelAnswer() {
    List<Proposals.ForPart> parts =
        new PointProposer(LEXICON, ANALYZER).propose(PROMPT, MODEL).parts();
    assertTrue(parts.get(0).modelAnswer().startsWith("Water enters"), parts.toString());
    assertEquals("5.9 - 5.0 = 0.9 g", parts.get(1).modelAnswer());
  }

  @Test
  void proposesNothingFromAnAnswerToSomethingElse() {
    Proposals none = new PointProposer(LEXICON, ANALYZER).propose(PROMPT, "");
    none.parts().forEach(part -> part.points().forEach(list -> assertTrue(list.isEmpty())));
  }
}
