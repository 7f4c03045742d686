package everypart.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.coverage.CoverageAnalyzer;
import everypart.analyzer.prompt.Demand;
import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.Text;
import everypart.analyzer.text.Token;
import everypart.cli.report.ResultJson;
import everypart.cli.run.OrderedPipeline;
import everypart.lexicon.Lexicon;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;

/**
 * What holds of any text: words, labels and stops mixed with any signs of Unicode, halves of pairs
 * included. The texts are the same in every run.
 */
class AnyTextTest {
  private static final String SEED = "20261129";

  private static final CoverageAnalyzer ANALYZER = new CoverageAnalyzer(Lexicon.bundled());

  private static final List<Prompt> PROMPTS =
      List.of(
          ANALYZER.prompts().read("one", "Explain why the pipkins hide."),
          ANALYZER
              .prompts()
              .read(
                  "parts",
                  "(a) Describe two features of the pool.\n(b) Predict what happens when the star "
                      + "falls. Justify your prediction.\n(c) Calculate 3 + 4."),
          ANALYZER.prompts().read("none", "A pool lies by the sea."));

  /** What texts are made of: what readers look for, and what they may not expect. */
  private static final List<String> PIECES =
      List.of(
          "a) ",
          "(b) ",
          "Part c: ",
          "2. ",
          "It hides",
          " because ",
          "birds hunt them",
          ". ",
          "? ",
          "\n",
          "\n\n",
          "\r\n",
          "\t",
          ", ",
          "; ",
          "since ",
          "3 + 4 = 7",
          "10.5 cm",
          "I don't know",
          "predicts",
          "the pool is deep",
          " and ",
          "-",
          "\u2013",
          "\"",
          "\u201c",
          "\u2019",
          "**",
          "e\u0301",
          "\u0327\u0301\u0300",
          "\ud83d\ude00",
          "\ud83d",
          "\ude00",
          "\u200d",
          "\u202e",
          "\u05e9\u05dc\u05d5\u05dd ",
          "\u0645\u0631\u062d\u0628\u0627 ",
          "\u6c34\u6e05\u3002",
          "\u0000",
          "\u0007",
          "\u001b[31m",
          "\u0085",
          "\u2028",
          "\ufeff",
          "\u00ad",
          "\u00a0",
          "\ufffd",
          "\uffff",
          "\ud835\udc00",
          "\uff11\uff12",
          "\u0130",
          "\u00df",
          "\ufb01",
          "<b>",
          "&amp;",
          "%s",
          "\\",
          "$1",
          "{{x}}");

  @Provide
  Arbitrary<String> texts() {
    Arbitrary<String> pieces =
        Arbitraries.of(PIECES).list().ofMaxSize(40).map(list -> String.join("", list));
    Arbitrary<String> any = Arbitraries.strings().all().ofMaxLength(60);
    return Arbitraries.oneOf(
        pieces,
        any,
        net.jqwik.api.Combinators.combine(pieces, any, pieces)
            .as((one, two, three) -> one + two + three));
  }

  @Property(tries = 600, seed = SEED)
  void marksStandInsideTheTextAndQuotesAreItsWords(
      @ForAll("texts") String text, @ForAll @IntRange(max = 2) int prompt) {
    Coverage coverage = ANALYZER.analyze(PROMPTS.get(prompt), "r", text);
    assertEquals(text, coverage.text());
    Marks.check(coverage);
  }

  @Property(tries = 600, seed = SEED)
  void sentencesAndTokensFollowEachOtherInTheText(@ForAll("texts") String text) {
    Text read = ANALYZER.texts().read(text);
    assertEquals(text, read.raw());
    int at = 0;
    for (Sentence sentence : read.sentences()) {
      assertTrue(sentence.span().start() >= at, () -> sentence.span() + " in " + text);
      int inside = sentence.span().start();
      for (Token token : sentence.tokens()) {
        assertTrue(token.span().start() >= inside && token.span().length() > 0, token::toString);
        inside = token.span().end();
      }
      assertTrue(inside <= sentence.span().end(), () -> sentence.span() + " in " + text);
      at = sentence.span().end();
    }
    assertTrue(at <= text.length());
  }

  @Property(tries = 600, seed = SEED)
  void demandsStandInsideTheirPartsOfAnyPrompt(@ForAll("texts") String text) {
    Prompt prompt = ANALYZER.prompts().read("q", text);
    for (Part part : prompt.parts()) {
      assertTrue(part.span().end() <= text.length(), part::toString);
      for (Demand demand : part.demands()) {
        assertTrue(demand.span().start() >= part.span().start(), demand::toString);
        assertTrue(demand.span().end() <= part.span().end(), demand::toString);
      }
    }
    Marks.check(ANALYZER.analyze(prompt, "r", text));
  }

  @Property(tries = 15, seed = SEED)
  void verdictsAreTheSameForAnyNumberOfThreadsAndAnyOrder(
      @ForAll @Size(min = 2, max = 40) List<@net.jqwik.api.From("texts") String> texts,
      @ForAll @IntRange(min = 2, max = 8) int threads,
      @ForAll Random random)
      throws IOException {
    List<Integer> order = new ArrayList<>();
    for (int i = 0; i < texts.size(); i++) {
      order.add(i);
    }
    Map<Integer, String> alone = results(1, order, texts);
    Collections.shuffle(order, random);
    assertEquals(alone, results(threads, order, texts));
  }

  private static Map<Integer, String> results(int threads, List<Integer> order, List<String> texts)
      throws IOException {
    Map<Integer, String> results = new HashMap<>();
    List<Integer> handedOn = new ArrayList<>();
    OrderedPipeline.<Integer, Map.Entry<Integer, String>>run(
        threads,
        order.iterator(),
        i ->
            Map.entry(
                i,
                ResultJson.line(
                    ANALYZER.analyze(PROMPTS.get(i % PROMPTS.size()), "r" + i, texts.get(i)),
                    Map.of())),
        outcome -> {
          handedOn.add(outcome.getKey());
          results.put(outcome.getKey(), outcome.getValue());
        });
    assertEquals(order, handedOn);
    return results;
  }
}
