package everypart.analyzer.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.analyzer.assign.PartAssigner;
import everypart.analyzer.coverage.CoverageAnalyzer;
import everypart.analyzer.coverage.PartCoverage;
import everypart.analyzer.coverage.Verdict;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.prompt.PromptReader;
import everypart.analyzer.text.Text;
import everypart.analyzer.text.TextReader;
import everypart.lexicon.CueType;
import everypart.lexicon.DemandKind;
import everypart.lexicon.Lexicon;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

final class LearnedJudgeTest {
  private static final Lexicon LEXICON = Lexicon.bundled();
  private static final TextReader TEXTS = new TextReader(LEXICON.forms()::stem);
  private static final PromptReader PROMPTS = new PromptReader(LEXICON);
  private static final String QUESTION =
      "The lamps on the pier went dark at noon. Explain why the lamps went dark.";

  private static Finding judge(Optional<Reader> reader, String question, String response) {
    Prompt prompt = PROMPTS.read("p", question);
    Text text = TEXTS.read(response);
    PartAssigner assigner = new PartAssigner(LEXICON, TEXTS, Optional.empty());
    return new LearnedJudge(LEXICON, TEXTS, reader)
        .judge(prompt, text, assigner.assign(prompt, text))
        .get(0)
        .get(0);
  }

  /** A reader that takes a given word for the answer. */
  private static Reader looksFor(String word) {
    return (demand, own, rest) ->
        new Reader.Opinion(
            String.join(" ", own).contains(word) ? 4 : -4,
            java.util.stream.Stream.concat(own.stream(), rest.stream())
                .map(piece -> piece.contains(word) ? 3.0 : -3.0)
                .toList(),
            Reader.LACKS.stream().map(lack -> lack.equals("restates") ? 1.0 : 0.0).toList());
  }

  @Test
  void theReaderDecidesWhereItIsSureAndItsPieceIsQuoted() {
    String response = "They went dark at noon. Salt water got into the cable.";
    Finding finding = judge(Optional.of(looksFor("cable")), QUESTION, response);
    assertTrue(finding.addressed(), finding::toString);
    assertEquals("Salt water got into the cable", finding.evidence().get(0).of(response));
    assertTrue(finding.confidence() > 0.8, finding::toString);
  }

  @Test
  void removingTheQuotedWordsLowersTheProbability() {
    Reader reader = looksFor("cable");
    Finding with = judge(Optional.of(reader), QUESTION, "Noon. Salt water got into the cable.");
    Finding without = judge(Optional.of(reader), QUESTION, "Noon.");
    assertTrue(without.probability() < with.probability() - 0.3, without + " after " + with);
  }

  @Test
  void whatIsOpenSaysWhatItLacksAndWhereItCameNearest() {
    Finding finding = judge(Optional.of(looksFor("cable")), QUESTION, "They just went dark.");
    assertFalse(finding.addressed());
    assertEquals(
        List.of(
            "says the question or the claim again and adds nothing to it",
            "the nearest words: \"They just went dark\""),
        finding.why());
    assertEquals(List.of(), finding.evidence());
  }

  @Test
  void aReaderForAShareIsAskedOnlyWhereTheFeaturesAreLeastSure() {
    List<String> responses =
        List.of(
            "Salt water got into the cable, so no current reached them.",
            "They just went dark.",
            "because of the storm",
            "The pier is old and long.",
            "The lamps went dark at noon because water ran into the cable and broke the circuit.");
    List<String> asked = new ArrayList<>();
    for (double share : new double[] {0.01, 0.5, 0.99}) {
      int before = asked.size();
      for (String response : responses) {
        int calls = asked.size();
        Reader counted =
            (demand, own, rest) -> {
              asked.add(response);
              return looksFor("cable").read(demand, own, rest);
            };
        Finding finding =
            judge(Optional.of(Reader.ofLeastSure(counted, share)), QUESTION, response);
        if (asked.size() == calls) {
          assertEquals(judge(Optional.empty(), QUESTION, response), finding, response);
        } else {
          assertEquals(judge(Optional.of(looksFor("cable")), QUESTION, response), finding);
        }
      }
      int now = asked.size() - before;
      assertTrue(share < 0.1 ? now == 0 : share < 0.9 ? now > 0 && now < 5 : now == 5, asked + "");
    }
  }

  @Test
  void aPartWithoutADemandIsLeftAlone() {
    Prompt prompt =
        PROMPTS.read(
            "p", "(a) The ferry's log and its captain.\n(b) Explain why the lamps went dark.");
    assertEquals(List.of(), prompt.parts().get(0).demands());
    List<PartCoverage> parts =
        new CoverageAnalyzer(LEXICON)
            .analyze(prompt, "r", "Noon, calm. Salt water got into the cable, so they failed.")
            .parts();
    assertEquals(List.of(), parts.get(0).demands());
    assertEquals(Verdict.ADDRESSED, parts.get(1).demands().get(0).verdict());
  }

  @Test
  void theShareStandsInTheNameOfTheJudge() {
    Reader reader = looksFor("cable");
    for (int share : new int[] {1, 40, 99, 100}) {
      String name =
          new LearnedJudge(LEXICON, TEXTS, Optional.of(Reader.ofLeastSure(reader, share / 100.0)))
              .name();
      assertEquals(share, CoverageAnalyzer.readerShare(name), name);
    }
    assertEquals(0, CoverageAnalyzer.readerShare(CoverageAnalyzer.WITHOUT_READER));
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "   ", "\n"})
  void anEmptyResponseAddressesNothing(String response) {
    Finding finding = judge(Optional.empty(), QUESTION, response);
    assertFalse(finding.addressed());
    assertEquals(List.of("the response is empty"), finding.why());
  }

  @Test
  void aCalculationWithoutANumberHasNoValue() {
    String question = "Calculate the speed of the ferry.";
    Finding finding = judge(Optional.empty(), question, "You divide the way by the time.");
    assertFalse(finding.addressed());
    assertEquals(List.of("shows a way but gives no value"), finding.why());
    assertTrue(judge(Optional.empty(), question, "12 km an hour").addressed());
  }

  @Test
  void thePromptHandedBackAddressesNothing() {
    Finding finding = judge(Optional.empty(), QUESTION, QUESTION);
    assertFalse(finding.addressed());
    assertEquals(List.of("the question's own words are handed back"), finding.why());
  }

  /** Signs that a teacher would expect (common practice, no source). */
  @Test
  void theWeightsHaveTheSignsThatATeacherWouldExpect() {
    Weights features = Weights.read("weights-features.tsv");
    assertTrue(features.weight("cue " + CueType.NON_ANSWER.word(), "shared") < 0);
    for (Weights weights : List.of(features, Weights.read("weights-reader.tsv"))) {
      assertTrue(weight(weights, "size none", DemandKind.EXPLAIN) < 0);
      assertTrue(weight(weights, "label rest and none here", DemandKind.EXPLAIN) < 0);
    }
    assertTrue(weight(features, "number new", DemandKind.CALCULATE) > 0);
    assertTrue(weight(features, "cue judgement", DemandKind.EVALUATE) > 0);
    assertTrue(weight(features, "cue comparison", DemandKind.COMPARE) > 0);
    assertTrue(weight(features, "new none", DemandKind.JUSTIFY) < 0);
    assertTrue(weight(features, "copied runs", DemandKind.DESCRIBE) < 0);
    assertTrue(Weights.read("weights-reader.tsv").weight("reader", "shared") > 0.2);
  }

  private static double weight(Weights weights, String feature, DemandKind kind) {
    return weights.weight(feature, "shared") + weights.weight(feature, kind.word());
  }
}
