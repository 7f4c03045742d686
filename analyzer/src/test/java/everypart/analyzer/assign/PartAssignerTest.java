package everypart.analyzer.assign;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.prompt.PromptReader;
import everypart.analyzer.text.Text;
import everypart.analyzer.text.TextReader;
import everypart.lexicon.Lexicon;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

class PartAssignerTest {
  private static final Lexicon LEXICON = Lexicon.bundled();

  private final TextReader texts = new TextReader(LEXICON.forms()::stem);
  private final Prompt prompt =
      new PromptReader(LEXICON)
          .read(
              "lantern",
              """
              (a) Why does the lantern flicker?
              (b) Describe how the keeper cleans the mirror.
              (c) What would happen to the ships without a foghorn?
              """);

  @Test
  void alignsSentencesWithoutLabels() {
    assertEquals(
        "a b c",
        parts(
            "The lantern flickers because of wind. The keeper wipes the mirror with a cloth. "
                + "Ships would run aground without the foghorn."));
  }

  @Test
  void cutsASentenceThatAnswersTwoParts() {
    String text =
        "The lantern flickers because of wind and the keeper wipes the mirror with a cloth, "
            + "ships would run aground without the foghorn.";
    assertEquals(
        List.of(
            "a: The lantern flickers because of wind",
            "b: and the keeper wipes the mirror with a cloth,",
            "c: ships would run aground without the foghorn."),
        new PartAssigner(LEXICON, texts)
            .assign(prompt, texts.read(text)).stretches().stream()
                .map(
                    stretch ->
                        stretch.part().orElse("-") + ": " + stretch.sentence().span().of(text))
                .toList());
  }

  @Test
  void aReaderPlacesWhatSharesNoWordWithAnyPartAgainstTheOrder() {
    String text = "Such chaos on the rocks. A draught gets in.";
    Heard back = new Heard(Map.of("chaos", 2, "draught", 0));
    assertEquals("c a", labels(back, text));
    assertEquals(text, String.join("", back.pieces));
    assertEquals("a b", labels(new Heard(Map.of("chaos", 0, "draught", 1)), text));
  }

  @Test
  void aReaderIsNotAskedAboutTextThatTheWriterLabelled() {
    Heard heard = new Heard(Map.of("draught", 2));
    assertEquals("a b", labels(heard, "(a) A draught gets in.\n(b) He rubs it."));
    assertEquals(List.of(), heard.pieces);
  }

  /** A reader that takes a piece with a certain word for an answer to a certain part. */
  private static final class Heard implements Bearing {
    private final Map<String, Integer> partOf;
    private List<String> pieces = List.of();

    Heard(Map<String, Integer> partOf) {
      this.partOf = partOf;
    }

    @Override
    public double[][] of(Prompt asked, List<String> cut) {
      pieces = List.copyOf(cut);
      double[][] bears = new double[cut.size()][asked.parts().size()];
      partOf.forEach(
          (word, part) -> {
            for (int i = 0; i < cut.size(); i++) {
              bears[i][part] = cut.get(i).contains(word) ? 6 : 0;
            }
          });
      return bears;
    }

    @Override
    public boolean isSure() {
      return true;
    }
  }

  private String labels(Bearing bearing, String text) {
    return new PartAssigner(LEXICON, texts, Optional.empty(), Optional.of(bearing))
        .assign(prompt, texts.read(text)).stretches().stream()
            .map(stretch -> stretch.part().orElse("-"))
            .collect(Collectors.joining(" "));
  }

  @Test
  void keepsASentenceWholeThatAnswersOnePart() {
    assertEquals(
        "b c",
        parts(
            "The keeper wipes the mirror with a cloth, and then he polishes it and it shines. "
                + "Ships would run aground without the foghorn."));
  }

  @Test
  void givesWorkingToThePartThatAsksToCalculate() {
    Prompt sums =
        new PromptReader(LEXICON)
            .read(
                "lamp",
                """
                (a) Describe how the flame changes as the oil rises.
                (b) Calculate the fall in the height of the flame at 2 g/L of oil.
                (c) Compare the two lanterns.
                """);
    String text =
        "At 8 g/L the flame is basically flat. 6 minus 2 is 4. The old one is dimmer than the new.";
    assertEquals(
        "a b c",
        new PartAssigner(LEXICON, texts)
            .assign(sums, texts.read(text)).stretches().stream()
                .map(stretch -> stretch.part().orElse("-"))
                .collect(Collectors.joining(" ")));
  }

  @Test
  void findsLinesOutOfOrder() {
    assertEquals(
        "c a",
        parts(
            "Ships would run aground without the foghorn.\nThe lantern flickers because of wind."));
  }

  @Test
  void keepsLinesThatTheWriterBrokeApart() {
    assertEquals(
        "a b",
        parts(
            "the wind makes the lantern flicker\nthe keeper wipes the mirror with a cloth and water"));
  }

  @Test
  void joinsLinesThatAFixedWidthWrapped() {
    assertEquals(
        "b",
        parts(
            "The keeper wipes the mirror with a cloth\nand polishes the mirror until it shines."));
  }

  @Test
  void namesTheClosestSentenceAndWhyItWasNotTaken() {
    List<Nearest> nearest =
        assign("(a) The lantern flickers since the keeper is slow.\n(c) Ships would sink.")
            .nearest();
    assertEquals(1, nearest.size());
    assertEquals("b", nearest.get(0).part());
    assertEquals(
        "it shares \"keeper\" with part b, but stands under the label of part a",
        nearest.get(0).why());
  }

  @Test
  void saysWhichLabelItReadsAsAnotherAndWhy() {
    assertEquals(
        List.of(
            "\"(a) The keeper cleans the mirror with a ...\" is labelled \"a\", read as part b because"
                + " part a is labelled twice, part b has no label, and the words and the place fit it"),
        assign(
                "(a) The lantern flickers in wind.\n(a) The keeper cleans the mirror with a cloth.\n"
                    + "(c) Ships would sink.")
            .remarks());
  }

  @Test
  void saysWhichTextUnderALabelItGivesToTheNextPart() {
    assertEquals(
        List.of(
            "\"The keeper cleans the mirror.\" stands under \"a\", read as part b because"
                + " part b has no label and the words and the place fit it"),
        assign("(a) Wind. The keeper cleans the mirror.\n(c) Ships would sink.").remarks());
  }

  @Test
  void saysThatLabelsStandInAnotherOrder() {
    Assignment assignment = assign("(b) With a cloth.\n(a) Because of wind.\n(c) They would sink.");
    assertEquals(
        List.of("the labels stand in another order than the parts: b, a, c"), assignment.remarks());
    assertEquals(List.of(), assign("(a) Because of wind.\n(b) A cloth.\n(c) They sink.").remarks());
  }

  @Test
  void saysThatAllLabelsAreOnePartTooFar() {
    assertEquals(
        List.of(
            "the labels \"b\" to \"d\" are read as one part earlier each, because part a has no"
                + " label, the prompt has no part \"d\", and the words fit better so"),
        assign(
                "(b) The lantern flickers in wind.\n(c) The keeper cleans the mirror.\n"
                    + "(d) The ships would have no foghorn.")
            .remarks());
  }

  @Test
  void believesALabelThatStandsTwiceWhereTheWordsDoNotSpeakAgainstIt() {
    Assignment assignment = assign("(a) The lantern flickers.\n(a) It is old.\n(c) Rocks.");
    assertEquals(List.of(), assignment.remarks());
    assertEquals(2, assignment.of("a").size());
  }

  @Test
  void namesNoSentenceWhereNoneSharesAWord() {
    assertTrue(assign("(a) Wind.\n(c) Rocks.").nearest().isEmpty());
  }

  @Test
  void placesMoreSentencesThanTheTableCountsPartsFor() {
    String one = "The lantern flickers because of wind. ";
    Assignment assignment = assign(one.repeat(40_000));
    assertEquals(40_000, assignment.stretches().size());
    assertEquals(
        List.of("a"),
        assignment.stretches().stream().flatMap(s -> s.part().stream()).distinct().toList());
  }

  private Assignment assign(String response) {
    Text text = texts.read(response);
    return new PartAssigner(LEXICON, texts).assign(prompt, text);
  }

  private String parts(String response) {
    return assign(response).stretches().stream()
        .map(stretch -> stretch.part().orElse("-"))
        .collect(Collectors.joining(" "));
  }
}
