package everypart.lexicon;

import java.util.Locale;

/** The kinds of demand a prompt can make, in the order in which the formats list them. */
public enum DemandKind {
  /** Name the thing asked for, or commit to a choice. */
  IDENTIFY,
  /** Say what a term means. */
  DEFINE,
  /** Give features, steps, actions or observations. */
  DESCRIBE,
  /** Say how or why. */
  EXPLAIN,
  /** Say what will or would happen. */
  PREDICT,
  /** Give the ground for a claim. */
  JUSTIFY,
  /** Relate two sides. */
  COMPARE,
  /** Work out a value. */
  CALCULATE,
  /** Draw, plot, label or fill in: cannot be read from text. */
  REPRESENT,
  /** Offer a concrete way, test, design or possible cause. */
  PROPOSE,
  /** Commit to a judgement. */
  EVALUATE;

  private final String word = name().toLowerCase(Locale.ROOT);

  /** Returns the word that the public formats use, such as {@code explain}. */
  public String word() {
    return word;
  }

  /**
   * Returns the kind for a word of the public formats.
   *
   * @throws IllegalArgumentException naming the word when it is no kind
   */
  public static DemandKind of(String word) {
    for (DemandKind kind : values()) {
      if (kind.word.equals(word.strip().toLowerCase(Locale.ROOT))) {
        return kind;
      }
    }
    throw new IllegalArgumentException("\"" + word + "\" is no kind of demand");
  }
}
