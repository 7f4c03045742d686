package everypart.analyzer.judge;

import java.util.Locale;

/** What an answer lacks that leaves a demand open. */
enum Lack {
  NOTHING,
  RESTATES,
  NOT_WHY,
  NO_CLAIM,
  ONE_SIDE,
  OFF,
  NAMES_ONLY,
  NO_VALUE,
  EXAMPLE,
  DONT_KNOW,
  VAGUE;

  private final String word = name().toLowerCase(Locale.ROOT).replace('_', '-');

  /** Returns the word that the coded data and {@code reasons.yaml} use, such as {@code not-why}. */
  String word() {
    return word;
  }
}
