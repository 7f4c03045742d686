package everypart.lexicon;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.StringReader;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
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
      for (String name : concept.names()) {
        names++;
        List<ConceptMatch> found =
            LEXICON.concepts(new Words("we saw this " + name + " here"), List.of(concept.name()));
        boolean one = found.size() == 1 && found.get(0).at().from() == 3;
        boolean its = one && found.get(0).concept().equals(concept.name());
        if (!one || !(its || concept.everyday().contains(name))) {
          lost.add(concept.name() + ": " + name + " -> " + found);
        }
      }
    }
    assertEquals(List.of(), lost);
    assertTrue(LEXICON.concepts().size() >= 6_000, "concepts: " + LEXICON.concepts().size());
    assertTrue(names >= 11_000, "names: " + names);
  }

  @Test
  void aNameBelongsToOneConceptUnlessItIsAnEverydayWord() {
    Map<List<Integer>, String> owners = new HashMap<>();
    List<String> shared = new ArrayList<>();
    for (Concept concept : LEXICON.concepts()) {
      for (String name : concept.names()) {
        String owner = owners.putIfAbsent(LEXICON.keyOf(name), concept.name());
        if (owner != null && !owner.equals(concept.name()) && !concept.everyday().contains(name)) {
          shared.add(name + ": " + owner + ", " + concept.name());
        }
      }
    }
    assertEquals(List.of(), shared);
  }

  @Test
  void everyRelationLeadsToAnotherConcept() {
    List<String> wrong = new ArrayList<>();
    for (Concept concept : LEXICON.concepts()) {
      concept
          .relations()
          .forEach(
              (type, names) ->
                  names.stream()
                      .filter(
                          name -> name.equals(concept.name()) || LEXICON.concept(name).isEmpty())
                      .forEach(name -> wrong.add(concept.name() + " " + type + " " + name)));
    }
    assertEquals(List.of(), wrong);
  }

  @Test
  void unitsHoldAsManyConceptsAsTheyShould() {
    Map<String, Integer> sizes = new HashMap<>();
    for (Concept concept : LEXICON.concepts()) {
      sizes.merge(concept.unit(), 1, Integer::sum);
      sizes.merge(concept.subject() + ", all", 1, Integer::sum);
    }
    assertTrue(sizes.getOrDefault("biology, all", 0) >= 2_000, sizes.toString());
    for (String unit : List.of("general science", "chemistry", "physics", "earth science")) {
      assertTrue(sizes.getOrDefault(unit, 0) >= 300, unit + sizes);
    }
    for (String unit : List.of("psychology", "economics", "geography")) {
      assertTrue(sizes.getOrDefault(unit, 0) >= 150, unit + sizes);
    }
  }

  @Test
  void everydayWordsCountOnlyInCompany() {
    assertEquals(List.of(), names("our culture is an old one"));
    assertEquals(
        List.of("bacterial culture", "bacterium"), names("the culture held many bacteria"));
    assertEquals(List.of("acid", "alkali"), names("the acid meets the base"));
    assertEquals(List.of("thymine", "nitrogenous base"), names("thymine is one such base"));
    assertEquals(
        List.of("nitrogenous base"),
        LEXICON.concepts(new Words("it is one such base"), List.of("dna")).stream()
            .map(ConceptMatch::concept)
            .toList());
  }

  @Test
  void anInnocentPhraseNamesNothing() {
    assertEquals(List.of(), names("he rang on his cell phone"));
    assertEquals(List.of("cell"), names("the cell divides its things"));
  }

  @Test
  void relatednessFallsWithTheWayBetweenConcepts() {
    double same = LEXICON.relatedness("glomerulus", "glomerulus");
    double near = LEXICON.relatedness("glomerulus", "nephron");
    double far = LEXICON.relatedness("glomerulus", "kidney");
    assertEquals(1, same);
    assertTrue(near < same && far < near && far > 0, near + " " + far);
    assertEquals(near, LEXICON.relatedness("nephron", "glomerulus"), 0.2);
    assertEquals(0, LEXICON.relatedness("osmosis", "volcano"));
    assertEquals(0, LEXICON.relatedness("osmosis", "zzyzzx"));
    assertEquals(0, LEXICON.relatedness("zzyzzx", "zzyzzx"));
  }

  @Test
  void kindsOfAConceptAreThoseThatNameIt() {
    assertTrue(
        LEXICON
            .namedBy("disaccharide")
            .getOrDefault(RelationType.BROADER, List.of())
            .contains("sucrose"));
    assertEquals(List.of("haploid"), of("diploid", RelationType.OPPOSITE));
  }

  private static List<String> of(String name, RelationType type) {
    return LEXICON.namedBy(name).getOrDefault(type, List.of());
  }

  /** The reference is Lucene's own longest-match synonym filter over the same names. */
  @Test
  void conceptsAreThoseThatLucenesSynonymFilterFinds() throws IOException {
    SynonymMap.Builder names = new SynonymMap.Builder(true);
    Set<String> taken = new HashSet<>();
    ConceptWords numbers = numbers();
    Set<String> always = new HashSet<>();
    Set<String> everyday = new HashSet<>();
    for (Concept concept : LEXICON.concepts()) {
      for (String name : concept.names()) {
        boolean plain = !concept.everyday().contains(name);
        (plain ? always : everyday).add(joined(numbers, name));
      }
    }
    everyday.removeAll(always);
    for (Concept concept : LEXICON.concepts()) {
      for (String name : concept.names()) {
        String joined = joined(numbers, name);
        if (taken.add(joined)) {
          String mark = everyday.contains(joined) ? "~" : "=";
          names.add(new CharsRef(joined), new CharsRef(mark + concept.name()), false);
        }
      }
    }
    for (Concept concept : LEXICON.concepts()) {
      for (String phrase : concept.never()) {
        if (taken.add(joined(numbers, phrase))) {
          names.add(new CharsRef(joined(numbers, phrase)), new CharsRef("~"), false);
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
                  .mapToObj(i -> String.valueOf(numbers.of(words.form(i))))
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
          LEXICON.concepts(words).stream()
              .filter(match -> !everyday.contains(joined(numbers, words.text(match.at()))))
              .map(ConceptMatch::concept)
              .toList(),
          row.get(1));
      compared += reference.size();
    }
    assertTrue(compared >= 100, "concepts compared: " + compared);
  }

  private static ConceptWords numbers() {
    List<String> all = new ArrayList<>();
    for (Concept concept : LEXICON.concepts()) {
      all.addAll(concept.names());
      all.addAll(concept.never());
    }
    return new ConceptWords(all, WordLists.bundled(), LEXICON::mend);
  }

  private static String joined(ConceptWords numbers, String name) {
    return NameSplitter.split(name).stream()
        .map(word -> String.valueOf(numbers.of(word)))
        .collect(Collectors.joining("\u0000"));
  }

  @Test
  void aConceptIsLookedUpByAnyOfItsNamesWhateverTheInflectionOrSlip() {
    assertEquals("cell membrane", firstHit("cell membranes"));
    assertEquals("photosynthesis", firstHit("photosynthisis"));
    assertEquals("water", firstHit("water"));
    assertEquals("antidiuretic hormone", firstHit("vasopressin"));
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
