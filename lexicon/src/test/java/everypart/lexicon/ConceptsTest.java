package everypart.lexicon;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
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
  void weightsRiseFromFunctionWordsToRareWords() {
    WordWeights weights = LEXICON.weights();
    WordForms forms = LEXICON.forms();
    assertEquals(0.0, weights.weight("the"));
    assertTrue(weights.weight(forms.stem("make")) < weights.weight(forms.stem("water")));
    assertTrue(weights.weight(forms.stem("water")) < weights.weight(forms.stem("mitosis")));
    assertEquals(1.0, weights.weight("zzyzzx"));
  }
}
