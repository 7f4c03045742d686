package everypart.analyzer.prompt;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.lexicon.Lexicon;
import everypart.lexicon.TaskVerbs;
import java.util.List;
import java.util.Locale;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

final class PromptReaderTest {
  private static final PromptReader READER = new PromptReader(Lexicon.bundled());

  static Stream<Arguments> prompts() {
    return TestTable.rows("prompts.tsv", 3)
        .map(row -> Arguments.of(row.get(0), row.get(1).replace("\\n", "\n"), row.get(2)));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("prompts")
  void readsTheDemandsThatATeacherReads(String name, String text, String expected) {
    assertEquals(expected, outline(READER.read("p", text)));
  }

  @Test
  void theTableCoversAtLeastAHundredAndTwentyPrompts() {
    assertTrue(prompts().count() >= 120);
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("prompts")
  void everyDemandPointsIntoItsPartAndSaysWhy(String name, String text, String expected) {
    for (Part part : READER.read("p", text).parts()) {
      assertEquals(part.text(), part.span().of(text).replace("**", "").strip());
      for (Demand demand : part.demands()) {
        assertTrue(
            demand.span().start() >= part.span().start()
                && demand.span().end() <= part.span().end(),
            () -> demand.span() + " outside " + part.span());
        assertTrue(demand.span().length() > 0);
        assertFalse(demand.why().isBlank());
        assertFalse(demand.verb().isBlank());
      }
    }
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      value = {
        "Explain how the flood could harm the reeds. | how the flood could harm the reeds",
        "How would the flood affect the otters? | how would the flood affect the otters",
        "Predict what the keeper would find at dawn. | what the keeper would find at dawn",
        "Predict what will happen to the otters. | the otters",
        "Describe the reeds. | the reeds"
      })
  void whatADemandIsAboutReadsByItself(String text, String about) {
    assertEquals(about, READER.read("p", text).parts().get(0).demands().get(0).about());
  }

  static Stream<Arguments> innocent() {
    return TaskVerbs.bundled().verbs().stream()
        .flatMap(verb -> verb.never().stream())
        .distinct()
        .map(Arguments::of);
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("innocent")
  void readsNoDemandFromAPhraseThatTheListCallsInnocent(String phrase) {
    String text = "On Monday " + phrase + ", as the ferry left at noon.";
    assertEquals("1: none", outline(READER.read("p", text)), text);
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      value = {
        "Describe the coast or describe the hills. | of the alternatives one is enough",
        "Describe either the coast or the hills. | of the alternatives one is enough",
        "If your answer is yes, explain why; if your answer is no, explain how. | only the branch",
        "Name the poet or explain the title. | it may take the place of the one before",
        "Name the poet. Bonus: name the poem. | it may be left out",
        "How would a flood affect the voles? | \"how would ... affect\" asks for an outcome",
      })
  void saysHowItReadADemand(String text, String words) {
    List<Demand> demands = READER.read("p", text).parts().get(0).demands();
    String why = demands.get(demands.size() - 1).why();
    assertTrue(why.contains(words), why);
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      value = {
        "The ferry leaves at noon. The sea is calm. | The sea is calm.",
        "The ferry leaves at noon. Your boat is late. The sea is calm. | Your boat is late.",
        "(a) Name it.\\n(b) The river is long. | The river is long.",
      })
  void pointsToTheSentenceToLookAtWhereNothingIsAsked(String text, String sentence) {
    String prompt = text.replace("\\n", "\n");
    List<String> looks =
        READER.read("p", prompt).remarks().stream()
            .filter(remark -> remark.kind() == Remark.Kind.LOOK)
            .map(remark -> remark.span().of(prompt))
            .toList();
    assertEquals(List.of(sentence), looks);
  }

  @Test
  void keepsTheStemOfSubPartsAsWhatTheyReferTo() {
    Prompt prompt =
        READER.read(
            "p",
            "(a) A keeper lit the lamp.\n(i) Name the keeper.\n(ii) Explain why it smokes.\n(b) Describe the lamp.");
    assertEquals("A keeper lit the lamp.", prompt.stimulus());
    assertEquals("a.i: identify; a.ii: explain; b: describe", outline(prompt));
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      value = {
        "Using the data in Table 2, explain why the pier fell. | Using the data in Table 2",
        "Explain, with reference to Source B, why it fell. | with reference to Source B",
        "Explain why it fell. Refer to Source B. | Refer to Source B."
      })
  void showsADirectionThatIsNoDemand(String text, String direction) {
    Prompt prompt = READER.read("p", text);
    assertEquals("1: explain", outline(prompt));
    assertEquals(
        List.of(direction),
        prompt.remarks().stream().map(remark -> remark.span().of(text)).toList());
  }

  static Stream<Arguments> askings() {
    return TestTable.rows("asking.tsv", 3)
        .map(row -> Arguments.of(row.get(0), row.get(1).replace("\\n", "\n"), row.get(2)));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("askings")
  void readsHowADemandIsWorded(String name, String text, String expected) {
    String askings =
        READER.read("p", text).parts().stream()
            .flatMap(part -> part.demands().stream())
            .map(demand -> asking(demand.asking(), text))
            .collect(Collectors.joining(" / "));
    assertEquals(expected, askings);
  }

  private static String asking(Asking asking, String text) {
    StringBuilder words = new StringBuilder(asking.form().word());
    if (!asking.options().isEmpty()) {
      words.append(" [").append(String.join("; ", asking.options())).append("]");
    }
    new TreeSet<>(asking.aspects()).forEach(aspect -> words.append(" +").append(aspect.word()));
    asking.condition().ifPresent(span -> words.append(" if \"" + span.of(text) + "\""));
    asking
        .claim()
        .ifPresent(claim -> words.append(" for " + claim.part() + "." + (claim.place() + 1)));
    asking.alternatives().forEach(span -> words.append(" or \"" + span.of(text) + "\""));
    if (asking.counted() != CountSource.UNSAID) {
      words.append(" from " + asking.counted().name().toLowerCase(Locale.ROOT));
    }
    asking.other().ifPresent(other -> words.append(" or read \"" + other.kind().word() + "\""));
    asking.setUp().forEach(span -> words.append(" told \"" + span.of(text) + "\""));
    return words.toString();
  }

  static String outline(Prompt prompt) {
    return prompt.parts().stream()
        .map(
            part ->
                part.label()
                    + ": "
                    + (part.demands().isEmpty()
                        ? "none"
                        : part.demands().stream()
                            .map(PromptReaderTest::demand)
                            .collect(Collectors.joining(" "))))
        .collect(Collectors.joining("; "));
  }

  private static String demand(Demand demand) {
    String standing =
        switch (demand.standing()) {
          case REQUIRED -> "";
          case OPTIONAL -> "(optional)";
          case ALTERNATIVE -> "(or)";
        };
    return demand.kind().word() + (demand.count() > 1 ? "*" + demand.count() : "") + standing;
  }

  @Test
  void marksOfBoldAndItalicAreNoPartOfTheWording() {
    Prompt prompt =
        READER.read(
            "p", "(a) **Describe** a lamp and *explain* why it is lit.\n(b) Use 2 * 3 = 6.");
    assertEquals("Describe a lamp and explain why it is lit.", prompt.parts().get(0).text());
    assertEquals("Use 2 * 3 = 6.", prompt.parts().get(1).text());
  }
}
