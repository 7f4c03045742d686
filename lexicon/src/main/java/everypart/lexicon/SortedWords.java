package everypart.lexicon;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import org.apache.lucene.util.automaton.CharacterRunAutomaton;

/**
 * Words in the order of their letters, among which those that an automaton takes are found without
 * looking at each: words with the same beginning are taken or left together, so the time hardly
 * depends on how many there are.
 */
final class SortedWords {
  private final String[] words;

  SortedWords(Collection<String> words) {
    this.words = words.toArray(new String[0]);
    Arrays.sort(this.words);
  }

  /** Returns the words with a first letter that an automaton takes, in order. */
  List<String> taken(char first, CharacterRunAutomaton automaton) {
    List<String> taken = new ArrayList<>(1);
    int from = end(0, words.length, 0, first - 1);
    walk(from, end(from, words.length, 0, first), 0, 0, automaton, taken);
    return taken;
  }

  /** Looks at a run of words that share their first letters, in a state of the automaton. */
  private void walk(
      int from,
      int to,
      int letters,
      int state,
      CharacterRunAutomaton automaton,
      List<String> taken) {
    int at = from;
    while (at < to && words[at].length() == letters) {
      if (automaton.isAccept(state)) {
        taken.add(words[at]);
      }
      at++;
    }
    while (at < to) {
      char next = words[at].charAt(letters);
      int end = end(at, to, letters, next);
      int then = automaton.step(state, next);
      if (then >= 0) {
        walk(at, end, letters + 1, then, automaton, taken);
      }
      at = end;
    }
  }

  /** Returns the first of a run of words whose letter at a place comes after a letter. */
  private int end(int from, int to, int place, int letter) {
    int low = from;
    int high = to;
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (words[middle].length() > place && words[middle].charAt(place) > letter) {
        high = middle;
      } else {
        low = middle + 1;
      }
    }
    return low;
  }
}
