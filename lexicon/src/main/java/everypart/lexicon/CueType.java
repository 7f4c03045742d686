package everypart.lexicon;

import java.util.Locale;

/** What a cue pattern is a sign of. */
public enum CueType {
  /** A cause and its effect, both stated. */
  CAUSE_EFFECT,
  /** What will or would happen. */
  PREDICTION,
  /** A ground that draws on a principle. */
  REASON,
  /** A ground that draws on data or an observation. */
  EVIDENCE,
  /** Two things set side by side. */
  COMPARISON,
  /** What a term means. */
  DEFINITION,
  /** A value, perhaps with its unit. */
  QUANTITY,
  /** A step that is or should be taken. */
  PROCEDURE,
  /** A judgement or a stand. */
  JUDGEMENT,
  /** A choice that is committed to. */
  CHOICE,
  /** One step after another. */
  SEQUENCE,
  /** An instance that stands for the whole. */
  EXAMPLE,
  /** In an experiment: what is varied on purpose. */
  VARIABLE_CHANGED,
  /** In an experiment: what is recorded. */
  VARIABLE_MEASURED,
  /** In an experiment: the group or set-up that the others are compared with. */
  CONTROL_GROUP,
  /** In an experiment: what is kept the same. */
  HELD_CONSTANT,
  /** In an experiment: that it is done more than once, or on many. */
  REPEATED,
  /** A sign of doubt. */
  HEDGE,
  /** Words that say that no answer is given. */
  NON_ANSWER;

  private final String word = name().toLowerCase(Locale.ROOT).replace('_', '-');

  /** Returns the word that the public formats use, such as {@code cause-effect}. */
  public String word() {
    return word;
  }

  /**
   * Returns the type for a word of the public formats.
   *
   * @throws IllegalArgumentException naming the word when it is no type
   */
  public static CueType of(String word) {
    for (CueType type : values()) {
      if (type.word.equals(word)) {
        return type;
      }
    }
    throw new IllegalArgumentException("\"" + word + "\" is no type of cue");
  }
}
