package everypart.analyzer.judge;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/** Counts how many different things some clauses say, where a demand asks for more than one. */
final class Counting {
  /**
   * Two clauses say the same where they share this much of the shorter one's words. Chosen by eye.
   */
  private static final double SAME_FROM = 0.6;

  /**
   * The outcome of a count.
   *
   * @param different the clauses that say something different, one for each
   * @param repeats the clauses that were taken to say one of them again
   */
  record Count(List<Clause> different, List<Clause> repeats) {
    Count {
      different = List.copyOf(different);
      repeats = List.copyOf(repeats);
    }
  }

  private Counting() {}

  /**
   * Counts until there are as many as asked for. Sentences are taken as one thing each; where there
   * are fewer sentences than things asked for, clauses are.
   *
   * @param wanted how many are asked for
   */
  static Count count(List<Clause> clauses, int wanted, Vocabulary said) {
    Count bySentence = count(clauses, wanted, said, true);
    return bySentence.different().size() >= wanted
        ? bySentence
        : count(clauses, wanted, said, false);
  }

  private static Count count(
      List<Clause> clauses, int wanted, Vocabulary said, boolean bySentence) {
    List<Clause> different = new ArrayList<>();
    List<Clause> repeats = new ArrayList<>();
    List<Set<String>> seen = new ArrayList<>();
    int sentence = -1;
    for (Clause clause : clauses) {
      if (different.size() >= wanted) {
        break;
      }
      Set<String> own = new HashSet<>();
      for (String word : clause.content()) {
        if (!said.has(word)) {
          own.add(word);
        }
      }
      if (own.isEmpty()) {
        continue;
      }
      boolean hangsOn = clause.role() != Clause.Role.MAIN || bySentence;
      if (clause.sentenceIndex() == sentence && hangsOn && !seen.isEmpty()) {
        seen.get(seen.size() - 1).addAll(own);
        continue;
      }
      sentence = clause.sentenceIndex();
      if (seen.stream().anyMatch(other -> isSame(other, own))) {
        repeats.add(clause);
      } else {
        different.add(clause);
        seen.add(own);
      }
    }
    return new Count(different, repeats);
  }

  private static boolean isSame(Set<String> a, Set<String> b) {
    long shared = b.stream().filter(a::contains).count();
    return shared >= SAME_FROM * Math.min(a.size(), b.size());
  }
}
