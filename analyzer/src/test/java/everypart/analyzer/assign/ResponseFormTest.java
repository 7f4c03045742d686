package everypart.analyzer.assign;

import static org.junit.jupiter.api.Assertions.assertEquals;

import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.prompt.PromptReader;
import everypart.analyzer.text.TextReader;
import everypart.lexicon.Lexicon;
import java.util.EnumSet;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Which answers fit which questions is common practice, no source. */
class ResponseFormTest {
  private static final Lexicon LEXICON = Lexicon.bundled();

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "Why does the keeper trim the wick?|REASON,CAUSE",
        "Explain how the gulls find the harbour.|REASON,CAUSE",
        "What happens to the flame when the wind rises?|OUTCOME",
        "Predict the height of the flame.|OUTCOME",
        "How would a longer wick affect the flame?|OUTCOME",
        "What does the red flag tell the sailors?|MEANING",
        "What do you think the black ball means?|MEANING",
        "Name two parts of the lantern.|",
      })
  void tellsWhatAQuestionAsksFor(String question, String forms) {
    Prompt prompt = new PromptReader(LEXICON).read("lantern", question);
    assertEquals(named(forms), ResponseForm.askedBy(prompt.parts().get(0).demands()));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "So that the ships see it.|REASON",
        "It is because the oil runs low.|REASON,CAUSE",
        "The flame is dim because of soot.|CAUSE",
        "It would burn higher.|OUTCOME",
        "The old lantern gets dark.|OUTCOME",
        "That there is a storm.|MEANING",
        "The flag means a storm is near.|MEANING",
        "A brass mirror.|",
        "The soap is new.|",
      })
  void tellsWhatFormAnAnswerTakes(String answer, String forms) {
    assertEquals(named(forms), ResponseForm.takenBy(answer, 0, answer.length()));
  }

  @Test
  void looksAtTheStretchAlone() {
    String text = "Because of the wind. The mirror is brass.";
    assertEquals(Set.of(), ResponseForm.takenBy(text, 21, text.length()));
  }

  @Test
  void placesBareAnswersByTheirForm() {
    assertEquals(
        "b a",
        placed(
            """
            (a) Why does the keeper trim the wick?
            (b) What does the red flag tell the sailors?
            """,
            "That there is a storm.\nSo that it burns clean."));
  }

  @Test
  void placesByTheOneSpokenOf() {
    assertEquals(
        "b a",
        placed(
            """
            (a) Mara filled the lamp before she left. What did she do next?
            (b) Otto heard the foghorn while he slept. What did he do next?
            """,
            "He rowed out.\nShe lit it."));
  }

  private static String placed(String prompt, String response) {
    TextReader texts = new TextReader(LEXICON.forms()::stem);
    Prompt read = new PromptReader(LEXICON).read("lantern", prompt);
    return new PartAssigner(LEXICON, texts)
        .assign(read, texts.read(response)).stretches().stream()
            .map(stretch -> stretch.part().orElse("-"))
            .collect(Collectors.joining(" "));
  }

  private static Set<ResponseForm> named(String forms) {
    Set<ResponseForm> named = EnumSet.noneOf(ResponseForm.class);
    if (forms != null) {
      for (String form : forms.split(",", -1)) {
        named.add(ResponseForm.valueOf(form));
      }
    }
    return named;
  }
}
