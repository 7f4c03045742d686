package everypart.analyzer.judge;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;

/**
 * A set of words that forgives slips of spelling: "temprature" is "temperature". A slip is one
 * letter in words of six letters and more, two in words of ten and more, and never the first one.
 *
 * <p>Words are compared with those only that begin alike, so a look-up hardly grows with the set.
 */
final class Vocabulary {
  /** One slip is forgiven in words of so many letters or more. Chosen by eye. */
  private static final int ONE_SLIP_FROM = 6;

  /** Two slips are forgiven in words of so many letters or more. Chosen by eye. */
  private static final int TWO_SLIPS_FROM = 10;

  /**
   * Two words may be derived from one where their first so many letters are the same. Chosen by
   * eye.
   */
  private static final int LEAST_ROOT = 6;

  private static final int LONGEST_ENDING = 3;

  /** Words looked up before are remembered up to this number: most answers share their words. */
  private static final int MOST_REMEMBERED = 1_000;

  private final Map<String, Boolean> remembered = new ConcurrentHashMap<>(16);
  private final Set<String> words;
  private final Map<Character, List<String>> byLetter = new HashMap<>();
  private final Map<String, List<String>> byRoot = new HashMap<>();

  Vocabulary(Set<String> words) {
    this.words = new HashSet<>(words);
    for (String word : this.words) {
      if (word.length() >= ONE_SLIP_FROM - 1) {
        byLetter.computeIfAbsent(word.charAt(0), key -> new ArrayList<>(2)).add(word);
      }
      if (word.length() >= LEAST_ROOT) {
        byRoot.computeIfAbsent(word.substring(0, LEAST_ROOT), key -> new ArrayList<>(2)).add(word);
      }
    }
  }

  Set<String> words() {
    return words;
  }

  /** Tells whether a word is in it, as spelled or nearly so. */
  boolean has(String word) {
    if (words.contains(word)) {
      return true;
    }
    Boolean known = remembered.get(word);
    if (known != null) {
      return known;
    }
    boolean near = isNear(word);
    if (remembered.size() < MOST_REMEMBERED) {
      remembered.put(word, near);
    }
    return near;
  }

  private boolean isNear(String word) {
    if (isGradeOf(word, "er") || isGradeOf(word, "est")) {
      return true;
    }
    if (word.length() >= LEAST_ROOT && isDerivedFromOne(word)) {
      return true;
    }
    if (word.length() < ONE_SLIP_FROM) {
      return false;
    }
    return !nearest(word).isEmpty();
  }

  private boolean isDerivedFromOne(String word) {
    for (String known : byRoot.getOrDefault(word.substring(0, LEAST_ROOT), List.of())) {
      if (isDerived(known, word)) {
        return true;
      }
    }
    return false;
  }

  /** Tells whether a word that is not in it is a slip for one that is. */
  boolean isMisspelling(String word) {
    return !words.contains(word) && word.length() >= ONE_SLIP_FROM && !nearest(word).isEmpty();
  }

  /** Returns the known word that a word is a slip for; empty when there is none. */
  String nearest(String word) {
    int slips = word.length() >= TWO_SLIPS_FROM ? 2 : 1;
    for (String known : byLetter.getOrDefault(word.charAt(0), List.of())) {
      if (Math.abs(known.length() - word.length()) <= slips
          && distance(known, word, slips) <= slips) {
        return known;
      }
    }
    return "";
  }

  /** Tells whether two stems are of one word and its derivatives: "conductor", "conduction". */
  private static boolean isDerived(String a, String b) {
    int least = Math.min(a.length(), b.length());
    if (least < LEAST_ROOT || Math.max(a.length(), b.length()) - least > LONGEST_ENDING) {
      return false;
    }
    int shared = 0;
    while (shared < least && a.charAt(shared) == b.charAt(shared)) {
      shared++;
    }
    return shared >= LEAST_ROOT && least - shared <= LONGEST_ENDING - 1;
  }

  /** Tells whether a word is a known one with the ending of a comparison: "rounder", "roundest". */
  private boolean isGradeOf(String word, String ending) {
    if (!word.endsWith(ending) || word.length() < ending.length() + 3) {
      return false;
    }
    String base = word.substring(0, word.length() - ending.length());
    int last = base.length() - 1;
    return words.contains(base)
        || words.contains(base + "e")
        || (base.charAt(last) == base.charAt(last - 1) && words.contains(base.substring(0, last)));
  }

  /** Returns the edit distance, swapped neighbours counting as one, or more than {@code most}. */
  private static int distance(String a, String b, int most) {
    int[] before = new int[b.length() + 1];
    int[] last = new int[b.length() + 1];
    int[] now = new int[b.length() + 1];
    for (int j = 0; j <= b.length(); j++) {
      last[j] = j;
    }
    for (int i = 1; i <= a.length(); i++) {
      now[0] = i;
      int least = i;
      for (int j = 1; j <= b.length(); j++) {
        int cost = a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1;
        int d = Math.min(Math.min(now[j - 1] + 1, last[j] + 1), last[j - 1] + cost);
        boolean swapped =
            i > 1
                && j > 1
                && a.charAt(i - 1) == b.charAt(j - 2)
                && a.charAt(i - 2) == b.charAt(j - 1);
        if (swapped) {
          d = Math.min(d, before[j - 2] + 1);
        }
        now[j] = d;
        least = Math.min(least, d);
      }
      if (least > most) {
        return most + 1;
      }
      int[] spare = before;
      before = last;
      last = now;
      now = spare;
    }
    return last[b.length()];
  }
}
