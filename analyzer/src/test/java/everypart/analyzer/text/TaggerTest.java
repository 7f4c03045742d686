package everypart.analyzer.text;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.sun.management.ThreadMXBean;
import everypart.lexicon.WordForms;
import java.lang.management.ManagementFactory;
import java.util.List;
import org.junit.jupiter.api.Test;

class TaggerTest {
  private static final int LONG = 3_000;

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

  @Test
  void readsWhatIsNoSentenceInTimeThatGrowsWithItsLength() {
    long once = copied(LONG);
    long twice = copied(2 * LONG);
    assertTrue(twice < 2.3 * once, twice + " bytes, for half of it " + once);
  }

  /** Returns how many bytes the tagger makes for so many words without a stop. */
  private static long copied(int words) {
    Text text = new TextReader(new WordForms()::stem).read("plan ".repeat(words));
    Tagger tagger = new Tagger();
    Sentence sentence = text.sentences().get(0);
    assertEquals(words, tagger.tags(text, sentence).size());
    ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
    long before = threads.getThreadAllocatedBytes(Thread.currentThread().getId());
    tagger.tags(text, sentence);
    return threads.getThreadAllocatedBytes(Thread.currentThread().getId()) - before;
  }
}
