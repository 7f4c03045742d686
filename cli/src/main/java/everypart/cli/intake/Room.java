package everypart.cli.intake;

/**
 * The memory that a class may take: what its page and its tables are made of is held until they are
 * written. Very long texts may take half of it, so that one person's files leave room for the
 * others'.
 */
public final class Room {
  /** Nobody writes as many characters in an answer. */
  private static final int VERY_LONG = 100_000;

  private final long most;
  private long held;

  /**
   * Makes an empty room.
   *
   * @param most how many bytes it has
   */
  public Room(long most) {
    this.most = most;
  }

  /**
   * Takes room, where there is enough of it.
   *
   * @param characters how long the text is that it is taken for
   * @return whether there was enough
   */
  public boolean take(long bytes, long characters) {
    if (held + bytes > (characters > VERY_LONG ? most / 2 : most)) {
      return false;
    }
    held += bytes;
    return true;
  }

  /** Returns how many bytes a text takes. */
  public static long bytes(CharSequence text) {
    return size(text, false);
  }

  /**
   * Returns how many bytes a text takes in the data of a page, with what JSON puts before signs.
   */
  static long bytesInPage(CharSequence text) {
    return size(text, true);
  }

  private static long size(CharSequence text, boolean inPage) {
    long characters = 0;
    boolean wide = false;
    for (int i = 0; i < text.length(); i++) {
      char sign = text.charAt(i);
      wide |= sign > 0xff; // Java then takes two bytes for each of them
      characters +=
          !inPage ? 1 : sign < ' ' || sign == '<' ? 6 : sign == '"' || sign == '\\' ? 2 : 1;
    }
    return wide ? 2 * characters : characters;
  }

  /** Returns what is said of a response for which there is no room. */
  public static InputProblem tooLarge(Place place) {
    return InputProblem.fault(
        place, Sayings.of("class.tooLarge"), Sayings.of("class.tooLarge.mend"));
  }
}
