package everypart.cli.report;

import java.util.Optional;

/** Why a row of a study has no result, or may be left out of its figures. */
public enum Exclusion {
  /** It could not be read. */
  UNREADABLE("unreadable"),
  /** It names a prompt that was not given, or none where there are several. */
  UNKNOWN_PROMPT("unknown prompt"),
  /** It was read, yet could not be judged: too long for the memory, or a fault of the program. */
  NOT_JUDGED("not judged"),
  /** The response has not one word. */
  EMPTY("empty"),
  /** It has words, yet fewer than the study asks for. */
  TOO_SHORT("too short");

  private final String word;

  Exclusion(String word) {
    this.word = word;
  }

  /** Returns the word for it in files. */
  public String word() {
    return word;
  }

  /**
   * Returns what speaks against counting a response, or nothing. An empty one is named whatever is
   * asked for; it is left out only where at least one word is.
   *
   * @param words how many it has
   * @param leastWords how many the study asks for; 0 where it takes them all
   */
  public static Optional<Exclusion> of(int words, int leastWords) {
    return words == 0
        ? Optional.of(EMPTY)
        : words < leastWords ? Optional.of(TOO_SHORT) : Optional.empty();
  }

  /**
   * Returns why a response is left out of the figures; nothing when it counts.
   *
   * @param words how many it has
   * @param leastWords how many the study asks for; 0 where it takes them all
   */
  public static Optional<Exclusion> leftOut(int words, int leastWords) {
    return words < leastWords ? of(words, leastWords) : Optional.empty();
  }
}
