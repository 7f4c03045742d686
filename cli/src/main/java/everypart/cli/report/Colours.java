package everypart.cli.report;

import everypart.analyzer.coverage.Verdict;

/** Colours for a terminal. They only repeat what the words say. */
public enum Colours {
  /** No colours. */
  OFF,
  /** ANSI colours. */
  ON;

  private static final String RESET = "\u001b[0m";

  String bold(String text) {
    return this == ON ? "\u001b[1m" + text + RESET : text;
  }

  String verdict(String word, String text) {
    if (this == OFF) {
      return text;
    }
    String code =
        word.equals(Verdict.ADDRESSED.word())
            ? "\u001b[32m"
            : word.equals(Verdict.MISSING.word()) ? "\u001b[1;35m" : "\u001b[33m";
    return code + text + RESET;
  }
}
