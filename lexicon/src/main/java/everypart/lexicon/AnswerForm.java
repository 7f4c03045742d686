package everypart.lexicon;

import java.util.Locale;

/** The form of the answer that a wording asks for. */
public enum AnswerForm {
  /** Anything: "explain how", "what happens". */
  OPEN,
  /** Yes or no. */
  YES_NO,
  /** One of the options that the wording names: "rise or fall". */
  OPTION,
  /** A thing to be picked out of several: "which". */
  WHICH,
  /** A thing to be named. */
  NAME,
  /** A number or an amount. */
  QUANTITY,
  /** A place on a scale: "how useful", "to what extent". */
  DEGREE;

  private final String word = name().toLowerCase(Locale.ROOT).replace('_', '-');

  /** Returns the word that the public formats and the lexicon files use, such as {@code yes-no}. */
  public String word() {
    return word;
  }

  /**
   * Returns the form for a word of the lexicon files.
   *
   * @throws IllegalArgumentException naming the word when it is no form
   */
  public static AnswerForm of(String word) {
    for (AnswerForm form : values()) {
      if (form.word.equals(word)) {
        return form;
      }
    }
    throw new IllegalArgumentException("\"" + word + "\" is no form of an answer");
  }
}
