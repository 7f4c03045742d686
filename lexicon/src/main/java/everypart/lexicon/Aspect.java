package everypart.lexicon;

import java.util.Locale;

/** What a wording asks for beside its kind of demand. */
public enum Aspect {
  /** What something is good for: "why is it important". */
  PURPOSE,
  /** A way of doing something or finding it out: "how can you test". */
  WAY,
  /** How somebody knew, so that what the set-up tells may be the ground. */
  KNOWING,
  /** What something is there for: its job, its role. */
  FUNCTION,
  /** The way to a value or statement that is given: "show that". */
  PROOF,
  /** How a thing is different from what it was: "how was it different when". */
  CHANGE,
  /** Something to be done: a step, a method, "what could". */
  ACTION,
  /** An experiment. */
  EXPERIMENT,
  /** What happens or would happen. */
  OUTCOME,
  /** What something means or shows. */
  MEANING;

  private final String word = name().toLowerCase(Locale.ROOT);

  /** Returns the word that the public formats and the lexicon files use. */
  public String word() {
    return word;
  }

  /**
   * Returns the aspect for a word of the lexicon files.
   *
   * @throws IllegalArgumentException naming the word when it is no aspect
   */
  public static Aspect of(String word) {
    for (Aspect aspect : values()) {
      if (aspect.word.equals(word)) {
        return aspect;
      }
    }
    throw new IllegalArgumentException("\"" + word + "\" is no aspect of a demand");
  }
}
