package everypart.cli.run;

import everypart.analyzer.wording.RoomWords;

/** The sentences of this room, from {@code words.properties}. */
final class Sayings {
  private static final RoomWords WORDS = RoomWords.of(Sayings.class);

  private Sayings() {}

  /** Returns the words under a key, with values in the place of {0}, {1} and so on. */
  static String of(String key, Object... values) {
    return WORDS.of(key, values);
  }
}
