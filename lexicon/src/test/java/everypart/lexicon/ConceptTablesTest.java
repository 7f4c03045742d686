package everypart.lexicon;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;

/** Misspellings, look-alikes and word forms, as tables. */
class ConceptTablesTest {
  private static final Lexicon LEXICON = Lexicon.bundled();

  @Test
  void misspellingsAreMendedOrLeftAsTheTableSays() {
    WordForms forms = new WordForms();
    List<String> unlike = new ArrayList<>();
    List<List<String>> rows = TestTable.rows("misspelt-terms.tsv", 3);
    for (List<String> row : rows) {
      String found = LEXICON.mend(row.get(0));
      String outcome =
          found.equals(row.get(0))
              ? "left"
              : forms.stem(found).equals(forms.stem(row.get(1))) ? "mended" : "turned to " + found;
      if (!outcome.equals(row.get(2))) {
        unlike.add(row + " -> " + outcome);
      }
    }
    assertEquals(List.of(), unlike);
    assertTrue(rows.size() >= 200, () -> rows.size() + " misspellings");
  }

  @Test
  void lookAlikesNeverMatch() {
    List<String> matched = new ArrayList<>();
    List<List<String>> rows = TestTable.rows("look-alikes.tsv", 2);
    for (List<String> row : rows) {
      String concept = row.get(1);
      assertTrue(LEXICON.concept(concept).isPresent(), () -> "no concept " + concept);
      List<ConceptMatch> found =
          LEXICON.concepts(new Words("we saw the " + row.get(0) + " here"), List.of(concept));
      if (found.stream().anyMatch(match -> match.concept().equals(concept))) {
        matched.add(row + " -> " + found);
      }
    }
    assertEquals(List.of(), matched);
    assertTrue(rows.size() >= 200, () -> rows.size() + " look-alikes");
  }

  /** A word of English is a form of a name's word by inflection, or stands in the reviewed list. */
  @Test
  void everyDerivedFormHasBeenReviewed() {
    Set<String> names = new HashSet<>();
    for (Concept concept : LEXICON.concepts()) {
      names.addAll(concept.names());
      names.addAll(concept.never());
    }
    Set<String> derived = new ConceptWords(names, WordLists.bundled(), form -> form).derived();
    Set<String> reviewed = new TreeSet<>();
    TestTable.rows("derived-forms.tsv", 2).forEach(row -> reviewed.add(String.join("\t", row)));
    Set<String> unknown = new TreeSet<>(derived);
    unknown.removeAll(reviewed);
    assertEquals(Set.of(), unknown, "read these, then add them to derived-forms.tsv");
    assertTrue(derived.size() >= 500, () -> derived.size() + " forms");
  }

  /** The words that a stemmer takes for one: each pair shares its stem and no number. */
  @Test
  void wordsThatOnlyShareAStemAreApart() {
    WordForms stemmer = new WordForms();
    List<List<String>> pairs =
        List.of(
            List.of("organ", "organism"),
            List.of("import", "important"),
            List.of("lateral", "later"),
            List.of("animal", "animated"),
            List.of("mineral", "miner"));
    ConceptWords words =
        new ConceptWords(
            pairs.stream().map(pair -> pair.get(0)).toList(), WordLists.bundled(), form -> form);
    for (List<String> pair : pairs) {
      assertEquals(stemmer.stem(pair.get(0)), stemmer.stem(pair.get(1)), pair.toString());
      assertEquals(ConceptWords.UNKNOWN, words.of(pair.get(1)), pair.toString());
    }
  }

  @Test
  void formsOfAWordShareItsNumber() {
    ConceptWords words =
        new ConceptWords(
            List.of("diffusion", "mitochondrion", "color", "hope", "hop"),
            WordLists.bundled(),
            form -> form);
    assertEquals(words.of("diffusion"), words.of("diffused"));
    assertEquals(words.of("mitochondrion"), words.of("mitochondria"));
    assertEquals(words.of("color"), words.of("colours"));
    assertEquals(words.of("hope"), words.of("hoped"));
    assertEquals(words.of("hop"), words.of("hopped"));
    assertEquals(words.of("hop"), words.of("hop's"));
  }
}
