package everypart.lexicon;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.StringReader;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.apache.lucene.analysis.TokenStream;
import org.apache.lucene.analysis.core.WhitespaceTokenizer;
import org.apache.lucene.analysis.synonym.SynonymGraphFilter;
import org.apache.lucene.analysis.synonym.SynonymMap;
import org.apache.lucene.analysis.tokenattributes.CharTermAttribute;
import org.apache.lucene.util.CharsRef;
import org.junit.jupiter.api.Test;

class ConceptsTest {
  private static final Lexicon LEXICON = Lexicon.bundled();

  private static List<String> names(String sentence) {
    return LEXICON.concepts(new Words(sentence)).stream().map(ConceptMatch::concept).toList();
  }

  @Test
  void theLongestNameCounts() {
    assertEquals(List.of("cell membrane"), names("the cell membrane"));
  }

  @Test
  void inflectionsAndVariantsNameTheConcept() {
    assertEquals(List.of("organelle"), names("cell organelles"));
  }

  @Test
  void everyNameOfEveryConceptIsFoundInASentence() {
    List<String> lost = new ArrayList<>();
    int names = 0;
    for (Concept concept : LEXICON.concepts()) {
      for (String name : namesOf(concept)) {
        names++;
        List<ConceptMatch> found = LEXICON.concepts(new Words("we saw this " + name + " here"));
        if (found.size() != 1 || found.get(0).at().from() != 3) {
          lost.add(name + " -> " + found);
        }
      }
    }
    assertEquals(List.of(), lost);
    assertTrue(LEXICON.concepts().size() >= 300, "concepts: " + LEXICON.concepts().size());
    assertTrue(names >= 1_500, "names: " + names);
  }

  private static List<String> namesOf(Concept concept) {
    List<String> names = new ArrayList<>(concept.variants());
    names.add(0, concept.name());
    return names;
  }

  /** The reference is Lucene's own longest-match synonym filter over the same names. */
  @Test
  void conceptsAreThoseThatLucenesSynonymFilterFinds() throws IOException {
    SynonymMap.Builder names = new SynonymMap.Builder(true);
    Set<String> taken = new HashSet<>();
    for (Concept concept : LEXICON.concepts()) {
      for (String name : namesOf(concept)) {
        String joined = String.join("\u0000", ConceptMatcher.stems(name, LEXICON.forms()));
        if (taken.add(joined)) {
          names.add(new CharsRef(joined), new CharsRef("=" + concept.name()), false);
        }
      }
    }
    SynonymMap map = names.build();
    int compared = 0;
    for (List<String> row : TestTable.rows("cause-effect.tsv", 4)) {
      Words words = new Words(row.get(1));
      List<String> reference = new ArrayList<>();
      WhitespaceTokenizer stems = new WhitespaceTokenizer();
      stems.setReader(
          new StringReader(
              IntStream.range(0, words.size())
                  .mapToObj(words::stem)
                  .collect(Collectors.joining(" "))));
      try (TokenStream stream = new SynonymGraphFilter(stems, map, false)) {
        CharTermAttribute term = stream.addAttribute(CharTermAttribute.class);
        stream.reset();
        while (stream.incrementToken()) {
          if (term.charAt(0) == '=') {
            reference.add(term.subSequence(1, term.length()).toString());
          }
        }
        stream.end();
      }
      assertEquals(
          reference,
          LEXICON.concepts(words).stream().map(ConceptMatch::concept).toList(),
          row.get(1));
      compared += reference.size();
    }
    assertTrue(compared >= 100, "concepts compared: " + compared);
  }

  @Test
  void aConceptIsLookedUpByAnyOfItsNamesWhateverTheInflectionOrSlip() {
    assertEquals("cell membrane", firstHit("cell membranes"));
    assertEquals("photosynthesis", firstHit("photosynthisis"));
    assertEquals(List.of(), LEXICON.search("zzyzzx", 5));
    assertTrue(LEXICON.search("cell", 3).size() == 3, "as many as asked for");
    assertThrows(IllegalArgumentException.class, () -> LEXICON.search("cell", 0));
  }

  private static String firstHit(String words) {
    return LEXICON.search(words, 1).get(0).name();
  }

  @Test
  void weightsRiseFromFunctionWordsToRareWords() {
    WordWeights weights = LEXICON.weights();
    WordForms forms = LEXICON.forms();
    assertEquals(0.0, weights.weight("the"));
    assertTrue(weights.weight(forms.stem("make")) < weights.weight(forms.stem("water")));
    assertTrue(weights.weight(forms.stem("water")) < weights.weight(forms.stem("mitosis")));
    assertEquals(1.0, weights.weight("zzyzzx"));
  }
}
