package everypart.lexicon;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashSet;
import java.util.Set;
import java.util.TreeSet;
import net.sf.extjwnl.JWNLException;
import net.sf.extjwnl.data.IndexWord;
import net.sf.extjwnl.data.POS;
import net.sf.extjwnl.data.Pointer;
import net.sf.extjwnl.data.PointerType;
import net.sf.extjwnl.data.Synset;
import net.sf.extjwnl.data.Word;
import net.sf.extjwnl.dictionary.Dictionary;
import org.junit.jupiter.api.Test;

/**
 * Checks the breadth of the cue patterns against WordNet 3.1 (Princeton University 2012): of the
 * verbs below the senses "cause, give rise to" and "prevent, keep from happening", and below
 * "increase" and "decrease", that are common in English (SCOWL size class 35 or less and tagged at
 * least five times in WordNet's texts), most are known. Many of the others cause something of their
 * own and are no sign by themselves ("call"), so the floor is far below one.
 */
class CausationVerbsTest {
  /** Measured on 2026-11-25: 0.404 of 89 verbs. */
  private static final double FLOOR = 0.38;

  /** Measured on 2026-11-28: 0.586 of 58 verbs. */
  private static final double CHANGE_FLOOR = 0.56;

  @Test
  void theVerbsOfCausationAreKnown() throws JWNLException {
    assertKnown(FLOOR, "cause", 1, "prevent", 1);
  }

  /** "Increase" and "decrease" in the senses "make bigger or more" and "make smaller". */
  @Test
  void theVerbsOfChangeInAmountAreKnown() throws JWNLException {
    assertKnown(CHANGE_FLOOR, "increase", 2, "decrease", 2);
  }

  private static void assertKnown(
      double floor, String one, int oneSense, String other, int otherSense) throws JWNLException {
    Dictionary dictionary = Dictionary.getDefaultResourceInstance();
    Set<String> verbs = new TreeSet<>();
    below(dictionary, one, oneSense, verbs);
    below(dictionary, other, otherSense, verbs);
    Lexicon lexicon = Lexicon.bundled();
    Set<String> known = new TreeSet<>();
    Set<String> common = new TreeSet<>();
    for (String verb : verbs) {
      WordLists.Word word = WordLists.bundled().word(verb).orElse(null);
      if (word == null || word.level() > 35 || word.count() < 5 || !word.verb()) {
        continue;
      }
      common.add(verb);
      boolean found =
          lexicon.cues(new Words("This will " + verb + " the change.")).stream()
              .anyMatch(cue -> cue.type() == CueType.CAUSE_EFFECT);
      if (found) {
        known.add(verb);
      }
    }
    double share = (double) known.size() / common.size();
    Set<String> unknown = new TreeSet<>(common);
    unknown.removeAll(known);
    assertTrue(common.size() > 20, "too few verbs to tell: " + common);
    assertTrue(share >= floor, share + " of " + common.size() + "; unknown: " + unknown);
  }

  private static void below(Dictionary dictionary, String verb, int sense, Set<String> verbs)
      throws JWNLException {
    IndexWord entry = dictionary.getIndexWord(POS.VERB, verb);
    Deque<Synset> open = new ArrayDeque<>();
    Set<Long> seen = new HashSet<>();
    open.add(entry.getSenses().get(sense - 1));
    while (!open.isEmpty()) {
      Synset synset = open.remove();
      if (!seen.add(synset.getOffset())) {
        continue;
      }
      for (Word word : synset.getWords()) {
        if (!word.getLemma().contains(" ")) {
          verbs.add(word.getLemma());
        }
      }
      for (Pointer pointer : synset.getPointers(PointerType.HYPONYM)) {
        open.add(pointer.getTargetSynset());
      }
    }
  }
}
