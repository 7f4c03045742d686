package everypart.lexicon;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.apache.lucene.util.automaton.Automata;
import org.apache.lucene.util.automaton.CharacterRunAutomaton;
import org.apache.lucene.util.automaton.LevenshteinAutomata;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class SpellingTest {
  private static final Lexicon LEXICON = Lexicon.bundled();

  static List<List<String>> slips() {
    return TestTable.rows("misspellings.tsv", 2);
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("slips")
  void aSlipIsMendedAndAnotherWordIsNot(List<String> row) {
    assertEquals(row.get(1), LEXICON.mend(row.get(0)));
  }

  @Test
  void noEnglishWordTurnsIntoAnother() {
    Set<String> words = new TreeSet<>();
    WordLists.bundled().forEach((word, known) -> words.add(word));
    assertTrue(words.size() > 50_000, () -> words.size() + " words");
    assertEquals(
        List.of(), words.stream().filter(word -> !LEXICON.mend(word).equals(word)).toList());
  }

  @Test
  void noWordOfAConceptTurnsIntoAnother() {
    Set<String> words =
        LEXICON.concepts().stream()
            .flatMap(concept -> NameSplitter.split(concept.name()).stream())
            .collect(Collectors.toSet());
    assertTrue(words.size() > 500, () -> words.size() + " words");
    assertEquals(
        List.of(), words.stream().filter(word -> !LEXICON.mend(word).equals(word)).toList());
  }

  @Test
  void aMisspeltConceptIsFoundWhereItStands() {
    List<ConceptMatch> found = LEXICON.concepts(words("Plants do photosynthisis by day."));
    assertTrue(
        found.stream()
            .anyMatch(
                match ->
                    match.concept().equals("photosynthesis")
                        && match.at().equals(new TokenRange(2, 3))),
        found::toString);
  }

  @Test
  void mitosisIsNeverMeiosis() {
    assertFalse(
        LEXICON.concepts(words("They divide by meiosis.")).stream()
            .anyMatch(match -> match.concept().equals("mitosis")));
    assertFalse(
        LEXICON.concepts(words("They divide by meitosis.")).stream()
            .anyMatch(match -> match.concept().equals("mitosis")));
  }

  @Test
  void aMisspeltCueIsFound() {
    for (String sentence :
        List.of("It rusted becuase it was wet.", "It was wet therfore it rusted.")) {
      assertTrue(
          LEXICON.cues(words(sentence)).stream()
              .anyMatch(cue -> cue.type() == CueType.CAUSE_EFFECT),
          sentence);
    }
  }

  @Test
  void affectAndEffectAreTheSameCue() {
    assertEquals(
        families("The heat affects the growth."), families("The heat effects the growth."));
    assertEquals(
        families("The heat had an effect on the growth."),
        families("The heat had an affect on the growth."));
    assertFalse(families("The heat affects the growth.").isEmpty());
  }

  private static List<String> families(String sentence) {
    return LEXICON.cues(words(sentence)).stream().map(CueMatch::family).toList();
  }

  /** A sentence stemmed as the lexicon wants it. */
  private static WordSequence words(String sentence) {
    Words plain = new Words(sentence);
    return new WordSequence() {
      @Override
      public int size() {
        return plain.size();
      }

      @Override
      public String form(int i) {
        return plain.form(i);
      }

      @Override
      public String stem(int i) {
        return Character.isLetter(form(i).charAt(0)) ? LEXICON.forms().stem(form(i)) : form(i);
      }
    };
  }

  /** The way through the sorted words finds what a look at each of them finds. */
  @Test
  void sortedWordsFindWhatALookAtEachFinds() {
    List<String> all =
        LEXICON.concepts().stream()
            .flatMap(concept -> NameSplitter.split(concept.name()).stream())
            .filter(word -> word.chars().allMatch(c -> c >= 'a' && c <= 'z'))
            .distinct()
            .sorted()
            .toList();
    SortedWords sorted = new SortedWords(all);
    int found = 0;
    List<List<String>> rows = TestTable.rows("misspelt-terms.tsv", 3);
    for (List<String> row : rows) {
      String form = row.get(0);
      for (int slips = 0; slips <= 2; slips++) {
        CharacterRunAutomaton near =
            new CharacterRunAutomaton(new LevenshteinAutomata(form, true).toAutomaton(slips));
        List<String> each =
            all.stream()
                .filter(word -> word.charAt(0) == form.charAt(0) && near.run(word))
                .toList();
        assertEquals(each, sorted.taken(form.charAt(0), near), form);
        found += each.size();
      }
    }
    int words = found;
    assertTrue(words > rows.size(), () -> words + " words were found");
    assertEquals(List.of(), new SortedWords(List.of()).taken('a', anything()));
    assertEquals(List.of("a"), new SortedWords(List.of("b", "a")).taken('a', anything()));
  }

  private static CharacterRunAutomaton anything() {
    return new CharacterRunAutomaton(Automata.makeAnyString());
  }
}
