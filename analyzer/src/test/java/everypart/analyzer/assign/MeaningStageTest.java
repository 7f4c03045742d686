package everypart.analyzer.assign;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.analyzer.meaning.SentenceMeaning;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.prompt.PromptReader;
import everypart.analyzer.prompt.PromptYaml;
import everypart.analyzer.text.TextReader;
import everypart.lexicon.Lexicon;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentSkipListSet;
import org.junit.jupiter.api.Test;

/** Which sentences the model of meaning is asked about, and what comes of it. */
class MeaningStageTest {
  private static final Lexicon LEXICON = Lexicon.bundled();
  private static final TextReader TEXTS = new TextReader(LEXICON.forms()::stem);

  private static final String PROMPT =
      """
      (a) Describe how the harbour pilots find the channel in fog.
      (b) Explain why the bakery on the island closes in winter.
      """;

  /** Bread and flour are near the bakery, bells and buoys near the pilots, nothing else is. */
  private static final class Fake implements SentenceMeaning {
    private final Set<String> asked = new ConcurrentSkipListSet<>();

    @Override
    public float[] vector(String sentence) {
      asked.add(sentence);
      String lower = sentence.toLowerCase(Locale.ROOT);
      if (lower.contains("bakery") || lower.contains("loaves")) {
        return new float[] {1, 0, 0};
      }
      return lower.contains("pilots") || lower.contains("bell")
          ? new float[] {0, 1, 0}
          : new float[] {0, 0, 1};
    }
  }

  private static Prompt prompt(String text) {
    return new PromptReader(LEXICON).read("island", text);
  }

  private static Assignment assign(String prompt, String response, Optional<SentenceMeaning> fake) {
    return new PartAssigner(LEXICON, TEXTS, fake).assign(prompt(prompt), TEXTS.read(response));
  }

  private static List<Optional<String>> parts(Assignment assignment) {
    return assignment.stretches().stream().map(Stretch::part).toList();
  }

  @Test
  void aSentenceWithoutASharedWordGoesWhereItsMeaningIs() {
    Fake fake = new Fake();
    String response = "Nobody buys loaves then.";
    Assignment assignment = assign(PROMPT, response, Optional.of(fake));
    assertEquals(List.of(Optional.of("b")), parts(assignment));
    assertEquals(1, assignment.byMeaning());
    assertTrue(fake.asked.contains(response), () -> fake.asked.toString());
    Assignment other = assign(PROMPT, "They follow a bell.", Optional.of(fake));
    assertEquals(List.of(Optional.of("a")), parts(other));
  }

  @Test
  void labelledSentencesAreNotAskedAbout() {
    Fake fake = new Fake();
    String response = "(a) Nobody buys loaves then. (b) They follow a bell.";
    Assignment assignment = assign(PROMPT, response, Optional.of(fake));
    assertEquals(parts(assign(PROMPT, response, Optional.empty())), parts(assignment));
    assertEquals(0, assignment.byMeaning());
    assertTrue(fake.asked.stream().noneMatch(text -> text.contains("loaves")));
  }

  @Test
  void aSentenceWhoseWordsDecideIsNotAskedAbout() {
    Fake fake = new Fake();
    String decided = "The bakery on the island closes in winter.";
    String open = "Nobody is there.";
    Assignment assignment = assign(PROMPT, decided + " " + open, Optional.of(fake));
    assertFalse(fake.asked.contains(decided), () -> fake.asked.toString());
    assertTrue(fake.asked.contains(open), () -> fake.asked.toString());
    assertEquals(
        List.of(false, true), assignment.stretches().stream().map(Stretch::byMeaning).toList());
  }

  @Test
  void aPromptOfOnePartNeedsNoModel() {
    Fake fake = new Fake();
    assign("Explain why the bakery closes in winter.", "Nobody buys loaves.", Optional.of(fake));
    assertEquals(Set.of(), fake.asked);
  }

  @Test
  void theModelAnswerCountsToo() {
    Fake fake = new Fake();
    Prompt prompt =
        new PromptYaml(new PromptReader(LEXICON))
            .read(
                "island",
                """
                parts:
                  - label: a
                    text: Describe how the harbour works in fog.
                  - label: b
                    text: Explain why the shop closes in winter.
                    model_answer: Few loaves are sold.
                """);
    Assignment assignment =
        new PartAssigner(LEXICON, TEXTS, Optional.of(fake))
            .assign(prompt, TEXTS.read("Nobody is buying loaves."));
    assertEquals(List.of(Optional.of("b")), parts(assignment));
  }
}
