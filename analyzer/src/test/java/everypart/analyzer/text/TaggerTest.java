package everypart.analyzer.text;

import static org.junit.jupiter.api.Assertions.assertEquals;

import everypart.lexicon.WordForms;
import java.util.List;
import org.junit.jupiter.api.Test;

class TaggerTest {
  @Test
  void tellsTheNounFromTheVerb() {
    TextReader reader = new TextReader(new WordForms()::stem);
    Tagger tagger = new Tagger();
    Text verb = reader.read("They plan the trip.");
    Text noun = reader.read("The plan failed.");
    assertEquals(
        List.of("PRON", "VERB", "DET", "NOUN", "PUNCT"),
        tagger.tags(verb, verb.sentences().get(0)));
    assertEquals(
        List.of("DET", "NOUN", "VERB", "PUNCT"), tagger.tags(noun, noun.sentences().get(0)));
  }
}
