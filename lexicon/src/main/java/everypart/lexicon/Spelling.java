package everypart.lexicon;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.concurrent.ConcurrentHashMap;
import org.apache.lucene.util.automaton.CharacterRunAutomaton;
import org.apache.lucene.util.automaton.LevenshteinAutomata;
import org.jspecify.annotations.Nullable;

/**
 * Finds the word of the lexicon that a misspelt one stands for: "photosynthisis" is
 * "photosynthesis".
 *
 * <p>Only what is no English word and no word of the lexicon is tried, so no real word turns into
 * another: "meiosis" is never "mitosis", and known words cost one look-up. A slip is a letter left
 * out, added or changed, or two neighbours swapped (Damerau 1964); one slip is forgiven in words of
 * five letters or more, two in words of eight or more, none in the first letter. Where a slip could
 * stand for two words, or a common English word lies as near, the word is left as it is. Words that
 * few names have are not worth the risk in short words: "protine" is no "proline".
 */
final class Spelling {
  /** One slip is forgiven in words of so many letters or more. Chosen by eye. */
  private static final int ONE_SLIP_FROM = 5;

  /** Two slips are forgiven in words of so many letters or more. Chosen by eye. */
  private static final int TWO_SLIPS_FROM = 8;

  private static final int MOST_SLIPS = 2;

  /** A word that only a few names have is taken for meant at one slip in eight letters or more. */
  private static final int RARE_SLIPS = 1;

  /** The SCOWL size class up to which a word counts as a common one. */
  private static final int COMMON = 35;

  private static final int MOST_REMEMBERED = 100_000;

  private final WordLists lists;
  private final WordForms forms;
  private final Table targets;
  private final Map<String, String> remembered = new ConcurrentHashMap<>();
  private volatile @Nullable Compared compared;

  /** The words that a misspelt one is compared with. */
  private record Compared(SortedWords targets, SortedWords rare, SortedWords common) {}

  /**
   * Makes the speller.
   *
   * @param targets what {@link #targets} returns, as a table
   * @param forms gives the stems by which two words count as forms of one
   */
  Spelling(Table targets, WordLists lists, WordForms forms) {
    this.targets = targets;
    this.lists = lists;
    this.forms = forms;
  }

  /**
   * Returns the words that misspellings are tried for, 1 beside those for which only misspellings
   * are tried that lie near no other word, else 0.
   *
   * @param words the words that misspellings are tried for; their inflections are, too
   * @param rare words for which only those are tried that lie near no other word
   */
  static Map<String, Integer> targets(
      Collection<String> words, Collection<String> rare, WordLists lists) {
    Map<String, Integer> targets = new TreeMap<>();
    inflected(rare, lists).forEach(word -> targets.put(word, 1));
    inflected(words, lists).forEach(word -> targets.put(word, 0));
    return targets;
  }

  private Compared compared() {
    Compared made = compared;
    if (made == null) {
      List<String> often = new ArrayList<>();
      List<String> rare = new ArrayList<>();
      List<String> common = new ArrayList<>();
      targets.forEach((word, seldom) -> (seldom == 0 ? often : rare).add(word));
      lists.forEach(
          (word, known) -> {
            if (known.level() <= COMMON && word.length() >= ONE_SLIP_FROM - 1) {
              common.add(word);
            }
          });
      made = new Compared(new SortedWords(often), new SortedWords(rare), new SortedWords(common));
      compared = made;
    }
    return made;
  }

  private static Set<String> inflected(Collection<String> words, WordLists lists) {
    Set<String> all = new TreeSet<>();
    for (String word : words) {
      if (word.length() >= ONE_SLIP_FROM && isPlain(word)) {
        for (String form : Inflections.of(word)) {
          if (form.equals(word) || lists.isWord(form)) {
            all.add(form);
          }
        }
      }
    }
    return all;
  }

  private static boolean isPlain(String word) {
    return word.chars().allMatch(c -> c >= 'a' && c <= 'z');
  }

  /**
   * Returns the word that a form stands for: itself where it is known or where nothing is near.
   *
   * @param form a word in lower case
   */
  String mend(String form) {
    if (form.length() < ONE_SLIP_FROM || lists.isWord(form) || targets.has(form)) {
      return form;
    }
    if (form.length() > targets.longest() + MOST_SLIPS) {
      return form; // too long to be near any, and its automaton would be as long
    }
    String known = remembered.get(form);
    if (known != null) {
      return known;
    }
    String mended = isPlain(form) ? search(form) : form;
    if (remembered.size() < MOST_REMEMBERED) {
      remembered.put(form, mended);
    }
    return mended;
  }

  /** Tells whether misspellings are tried for a word. */
  boolean isTarget(String form) {
    return targets.has(form);
  }

  private String search(String form) {
    if (isInflected(form)) {
      return form;
    }
    Compared words = compared();
    char first = form.charAt(0);
    int most = form.length() >= TWO_SLIPS_FROM ? MOST_SLIPS : 1;
    LevenshteinAutomata automata = new LevenshteinAutomata(form, true);
    for (int slips = 1; slips <= most; slips++) {
      CharacterRunAutomaton near = new CharacterRunAutomaton(automata.toAutomaton(slips));
      List<String> found = words.targets().taken(first, near);
      if (found.isEmpty() && most == MOST_SLIPS && slips <= RARE_SLIPS) {
        found = words.rare().taken(first, near);
      }
      if (found.isEmpty()) {
        continue;
      }
      String stem = forms.stem(found.get(0));
      boolean one =
          found.stream().allMatch(word -> forms.stem(word).equals(stem))
              && words.common().taken(first, near).stream()
                  .allMatch(word -> forms.stem(word).equals(stem));
      return one ? found.get(0) : form;
    }
    return form;
  }

  /** Tells whether a form that no list has is a regular inflection of a word that one has. */
  private boolean isInflected(String form) {
    for (String ending : Language.english().list("ending")) {
      if (form.endsWith(ending) && form.length() - ending.length() >= 3) {
        String base = form.substring(0, form.length() - ending.length());
        if (lists.isWord(base) || lists.isWord(base + "e")) {
          return true;
        }
      }
    }
    return false;
  }
}
