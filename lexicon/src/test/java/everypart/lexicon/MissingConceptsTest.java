package everypart.lexicon;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class MissingConceptsTest {
  private static final Lexicon LEXICON = Lexicon.bundled();

  private static final List<String> FILLERS =
      List.of(
          "The boat came home late.",
          "We think that it was cold.",
          "Nothing happened on the second day.",
          "The keeper wrote it down.");

  /** Four rows of the table of word pairs in Dunning (1993), with the ratios given there. */
  @ParameterizedTest
  @CsvSource({
    "110, 2442, 111, 29114, 270.72", // the swiss
    "29, 13, 123, 31612, 263.90", // can be
    "31, 23, 139, 31584, 256.84", // previous year
    "10, 0, 3, 31764, 167.23", // mineral water
  })
  void theRatioIsThatOfItsPublication(
      double both, double first, double second, double neither, double published) {
    assertEquals(published, LikelihoodRatio.of(both, first, second, neither), 0.005);
  }

  @Test
  void theRatioIsNoughtWhereNothingDependsOnAnything() {
    assertEquals(0, LikelihoodRatio.of(10, 20, 30, 60), 1e-9);
    assertEquals(0, LikelihoodRatio.of(0, 0, 0, 0), 1e-9);
  }

  private static List<MissingConcepts.Written> response(String... sentences) {
    return Stream.of(sentences)
        .map(
            sentence ->
                new MissingConcepts.Written(
                    sentence,
                    new WordSequence() {
                      private final Words words = new Words(sentence);

                      @Override
                      public int size() {
                        return words.size();
                      }

                      @Override
                      public String form(int i) {
                        return words.form(i);
                      }

                      @Override
                      public String stem(int i) {
                        return Character.isLetter(form(i).charAt(0))
                            ? LEXICON.forms().stem(form(i))
                            : form(i);
                      }
                    }))
        .toList();
  }

  private static MissingConcepts withPlanted(int times) {
    MissingConcepts missing = new MissingConcepts(LEXICON, 3);
    for (int i = 0; i < 12; i++) {
      String filler = FILLERS.get(i % FILLERS.size());
      if (i < times) {
        missing.add(
            response(
                filler, "Osmosis moves water into the glimmer " + (i > 0 ? "pouches." : "pouch.")));
      } else {
        missing.add(response(filler));
      }
    }
    return missing;
  }

  private static Optional<MissingPhrase> planted(List<MissingPhrase> ranked) {
    return ranked.stream().filter(one -> one.phrase().startsWith("glimmer pouch")).findFirst();
  }

  @Test
  void findsAPlantedPhraseInAllItsFormsWithItsSentence() {
    try (MissingConcepts missing = withPlanted(6)) {
      List<MissingPhrase> ranked = missing.ranked(3);
      MissingPhrase first = ranked.get(0);
      assertEquals("glimmer pouch", first.phrase());
      assertEquals(6, first.times());
      assertEquals(6, first.responses());
      assertEquals("Osmosis moves water into the glimmer pouch.", first.example());
      assertTrue(first.likelihoodRatio() > 10.83, ranked.toString());
    }
  }

  @Test
  void whatAConceptCoversAndPiecesOfALongerPhraseAreNotShown() {
    try (MissingConcepts missing = withPlanted(6)) {
      List<String> phrases = missing.ranked(1).stream().map(MissingPhrase::phrase).toList();
      assertFalse(phrases.isEmpty());
      for (String phrase : List.of("osmosis", "water", "glimmer", "pouch", "into the glimmer")) {
        assertFalse(phrases.contains(phrase), phrase + " in " + phrases);
      }
    }
  }

  @Test
  void aPhraseInTooFewResponsesIsNotShown() {
    try (MissingConcepts missing = withPlanted(2)) {
      assertTrue(planted(missing.ranked(3)).isEmpty());
      assertTrue(planted(missing.ranked(2)).isPresent());
    }
  }

  @Test
  void wordsThatMeetByChanceAreNoPhrase() {
    try (MissingConcepts missing = new MissingConcepts(LEXICON, 2)) {
      for (String one : List.of("glimmer", "frobbit", "dabwort", "snickle")) {
        for (String other : List.of("pouch", "wimple", "bannock", "trivet")) {
          missing.add(response(one + " " + other + ".", one + " " + other + "."));
        }
      }
      List<String> phrases = missing.ranked(1).stream().map(MissingPhrase::phrase).toList();
      assertTrue(phrases.contains("glimmer"), phrases.toString());
      assertTrue(phrases.stream().noneMatch(phrase -> phrase.contains(" ")), phrases.toString());
    }
  }

  @Test
  void whatIsAsFrequentInTheBackgroundDoesNotStandOut() {
    try (MissingConcepts missing = withPlanted(6)) {
      for (int i = 0; i < 12; i++) {
        missing.compareWith(
            response(
                FILLERS.get(i % FILLERS.size()), "The glimmer pouch is full.", "A pouch is dry."));
      }
      assertTrue(planted(missing.ranked(1)).isEmpty());
    }
    try (MissingConcepts missing = withPlanted(6)) {
      for (int i = 0; i < 120; i++) {
        missing.compareWith(response(FILLERS.get(i % FILLERS.size())));
      }
      assertTrue(planted(missing.ranked(1)).isPresent());
    }
  }

  @Test
  void whatTheQuestionHasIsMarked() {
    try (MissingConcepts missing = withPlanted(6)) {
      missing.ask(response("What fills a glimmer pouch?"));
      assertTrue(planted(missing.ranked(3)).orElseThrow().asked());
    }
    try (MissingConcepts missing = withPlanted(6)) {
      assertFalse(planted(missing.ranked(3)).orElseThrow().asked());
    }
  }

  @Test
  void aSetWithoutWordsHasNoPhrases() {
    try (MissingConcepts missing = new MissingConcepts(LEXICON, 3)) {
      assertEquals(List.of(), missing.ranked(1));
      assertThrows(IllegalArgumentException.class, () -> new MissingConcepts(LEXICON, 0));
    }
    try (MissingConcepts missing = new MissingConcepts(LEXICON, 3)) {
      missing.add(response("... 12 ,", "x".repeat(100_000)));
      assertEquals(List.of(), missing.ranked(1));
    }
  }
}
