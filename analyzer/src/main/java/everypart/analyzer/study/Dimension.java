package everypart.analyzer.study;

import java.util.Locale;

/** What omission rates are counted by. */
public enum Dimension {
  /** All demands. */
  ALL,
  /** The kind of demand. */
  KIND,
  /** The task verb or question form. */
  VERB,
  /** The prompt. */
  PROMPT,
  /** A part of a prompt. */
  PART,
  /** A demand of a part of a prompt. */
  DEMAND,
  /** The running number of the demand within its prompt. */
  POSITION,
  /** The length of the response in words. */
  LENGTH,
  /** A value of a group column. */
  GROUP,
  /** A kind of demand within a value of a group column. */
  GROUP_KIND;

  /** Returns the word that the public formats use. */
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
