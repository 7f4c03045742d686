package everypart.analyzer.detect;

import java.util.Collection;
import java.util.HashSet;
import java.util.Set;

/**
 * Tells whether some text is off the subject: a good deal of it, and hardly a word in common with
 * the prompt. Short answers often share no word with their question, so nothing is said of them.
 */
final class Subject {
  private static final int LEAST_SAID = 15;
  private static final int LEAST_SHARED = 2;

  private final Vocabulary words;

  /**
   * Makes a subject.
   *
   * @param words the words of the whole prompt, with its stimulus and model answers
   */
  Subject(Vocabulary words) {
    this.words = words;
  }

  /** Tells whether some clauses are off the subject. */
  boolean isLeftBy(Collection<Clause> clauses) {
    Set<String> said = new HashSet<>();
    clauses.forEach(clause -> said.addAll(clause.content()));
    if (said.size() < LEAST_SAID) {
      return false;
    }
    long exactly = said.stream().filter(words.words()::contains).limit(LEAST_SHARED).count();
    return exactly < LEAST_SHARED
        && said.stream().filter(words::has).limit(LEAST_SHARED).count() < LEAST_SHARED;
  }
}
