package everypart.analyzer.judge;

import everypart.analyzer.judge.WordClasses.Form;
import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.Token;
import everypart.lexicon.Language;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Tells whether a sentence hands back the prompt's wording: nearly all of it is runs of words from
 * the prompt, or all that it adds are words like "I" and "my". Marks and capitals do not matter.
 *
 * <p>Words are held as numbers, two neighbours as the number of their pair, and a run as two pairs.
 */
final class CopiedWording {
  /**
   * So many words in a row, taken from the prompt, are a copy rather than a common phrase. Chosen
   * by eye.
   */
  private static final int RUN = 4;

  /** The share of a sentence in such runs from which it counts as copied. Chosen by eye. */
  private static final double NEARLY_ALL = 0.85;

  /** From this many words on, a sentence that only adds words like "I" is handed back. */
  private static final int LONG = 8;

  /**
   * The share of a long sentence in such runs from which it is a copy, if it adds nothing else.
   * Chosen by eye.
   */
  private static final double MOST = 0.6;

  private static final int UNKNOWN = -1;

  /** 2^64 over the golden ratio; odd, so no two products are the same (Knuth 1973, 6.4). */
  private static final long SCATTER = 0x9E3779B97F4A7C15L;

  private static final Set<String> ADDS_NOTHING = Language.english().words("adds_nothing");

  private final WordClasses words;
  private final Map<String, Integer> numbers = new HashMap<>();
  private final Map<Long, Integer> pairs = new HashMap<>();
  private final Set<Long> runs = new HashSet<>();
  private final Set<List<Integer>> wholes = new HashSet<>();

  /** Keeps the wording of some sentences. */
  CopiedWording(Collection<Sentence> prompt, WordClasses words) {
    this.words = words;
    for (Sentence sentence : prompt) {
      List<Integer> said =
          said(sentence).stream()
              .map(token -> numbers.computeIfAbsent(token.form(), form -> numbers.size()))
              .toList();
      for (int i = 0; i + 2 <= said.size(); i++) {
        pairs.putIfAbsent(pair(said.get(i), said.get(i + 1)), pairs.size());
      }
      for (int i = 0; i + RUN <= said.size(); i++) {
        runs.add(
            pair(
                pairs.getOrDefault(pair(said.get(i), said.get(i + 1)), UNKNOWN),
                pairs.getOrDefault(pair(said.get(i + 2), said.get(i + 3)), UNKNOWN)));
      }
      wholes.add(said);
    }
  }

  /** Tells whether a sentence only hands the wording back. */
  boolean holds(Sentence sentence) {
    List<Token> said = said(sentence);
    int[] known = new int[said.size()];
    int unknown = 0;
    for (int i = 0; i < known.length; i++) {
      known[i] = numbers.getOrDefault(said.get(i).form(), UNKNOWN);
      unknown += known[i] == UNKNOWN ? 1 : 0;
    }
    if (said.size() > 1 && unknown == 0 && wholes.contains(Arrays.stream(known).boxed().toList())) {
      return true;
    }
    if (said.size() <= RUN) {
      return false;
    }
    int[] paired = new int[said.size() - 1];
    for (int i = 0; i < paired.length; i++) {
      paired[i] =
          known[i] == UNKNOWN || known[i + 1] == UNKNOWN
              ? UNKNOWN
              : pairs.getOrDefault(pair(known[i], known[i + 1]), UNKNOWN);
    }
    boolean[] covered = new boolean[said.size()];
    int copied = 0;
    int all = said.size() - RUN + 1;
    for (int i = 0; i < all; i++) {
      if (paired[i] != UNKNOWN
          && paired[i + 2] != UNKNOWN
          && runs.contains(pair(paired[i], paired[i + 2]))) {
        Arrays.fill(covered, i, i + RUN, true);
        copied++;
      }
    }
    // A short phrase may be quoted as evidence; its closing mark counts as something added.
    int marked = all + (said.size() < sentence.size() ? 1 : 0);
    return copied >= NEARLY_ALL * marked || (said.size() >= LONG && addsNothing(said, covered));
  }

  private boolean addsNothing(List<Token> said, boolean[] covered) {
    int of = 0;
    for (int i = 0; i < covered.length; i++) {
      if (covered[i]) {
        of++;
        continue;
      }
      Token token = said.get(i);
      boolean label = token.form().length() == 1;
      if (!label && !words.is(token, Form.PRONOUN) && !ADDS_NOTHING.contains(token.form())) {
        return false;
      }
    }
    return of >= MOST * covered.length;
  }

  private static List<Token> said(Sentence sentence) {
    List<Token> said = new ArrayList<>(sentence.size());
    for (Token token : sentence.tokens()) {
      if (token.isWord() || token.isNumber()) {
        said.add(token);
      }
    }
    return said;
  }

  /** Returns one number for two, scattered so that neighbours do not share a bucket of the map. */
  private static long pair(int one, int other) {
    return (((long) one << Integer.SIZE) | other) * SCATTER;
  }
}
