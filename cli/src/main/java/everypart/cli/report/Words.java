package everypart.cli.report;

import everypart.analyzer.prompt.Demand;
import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Prompt;

/** Wordings that several reports share. */
final class Words {
  private static final String SPACES = " \t\n\u000B\f\r";

  private Words() {}

  /** Returns a clause on how many responses meanings were compared in; nothing for none. */
  static String byMeaning(long responses) {
    return responses == 0 ? "" : Wording.of("words.byMeaning", "n", responses);
  }

  /** Returns a number with its noun, as in "1 part" and "2 parts". */
  static String count(long number, String noun) {
    return number + " " + noun + (number == 1 ? "" : "s");
  }

  /**
   * Returns the short name of a demand, as in "b2": its part's label and its number in the part. A
   * full stop keeps two figures apart, and a question without labelled parts has numbers only.
   */
  static String code(Prompt prompt, Part part, int number) {
    String label = part.label();
    if (prompt.parts().size() == 1 && label.equals("1")) {
      return String.valueOf(number);
    }
    return label.isEmpty() || !Character.isDigit(label.charAt(label.length() - 1))
        ? label + number
        : label + "." + number;
  }

  /** Returns a demand in a few words, as in "describe x 2: ways in which ...". */
  static String demand(Demand demand) {
    String before =
        switch (demand.standing()) {
          case REQUIRED -> "";
          case OPTIONAL -> "optional: ";
          case ALTERNATIVE -> "or: ";
        };
    return before
        + demand.kind().word()
        + (demand.count() > 1 ? " \u00d7 " + demand.count() : "")
        + (demand.about().isBlank() ? "" : ": " + oneLine(demand.about()));
  }

  /** Returns a text with each run of white space as one space. */
  static String oneLine(String text) {
    String stripped = text.strip();
    StringBuilder line = new StringBuilder(stripped.length());
    boolean inSpace = false;
    for (int i = 0; i < stripped.length(); i++) {
      char c = stripped.charAt(i);
      boolean space = SPACES.indexOf(c) >= 0;
      if (!space) {
        line.append(c);
      } else if (!inSpace) {
        line.append(' ');
      }
      inSpace = space;
    }
    return line.toString();
  }

  /** Returns a text cut at a word's end when it is longer than a limit in {@code char}s. */
  static String shortened(String text, int limit) {
    if (text.length() <= limit) {
      return text;
    }
    int end = text.lastIndexOf(' ', limit - 2);
    return text.substring(0, end > 0 ? end : limit - 2) + " \u2026";
  }
}
