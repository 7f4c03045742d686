package everypart.cli.report;

import everypart.analyzer.wording.RoomWords;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The sentences of this room, from {@code words.properties}: in one file, so that they can be read
 * in one go and translated.
 */
final class Wording {
  private static final Pattern BLANK = Pattern.compile("\\{(\\w+)\\}");
  private static final Pattern SLOT = Pattern.compile("\\[\\[([\\w.-]+)\\]\\]");

  private static final RoomWords WORDS = RoomWords.of(Wording.class);

  private Wording() {}

  /**
   * Returns the words under a key.
   *
   * @throws IllegalArgumentException when there are none
   */
  static String of(String key) {
    return WORDS.plain(key);
  }

  /**
   * Returns the words under a key with their blanks filled in.
   *
   * @param filling names and values in turn
   */
  static String of(String key, Object... filling) {
    return BLANK
        .matcher(of(key))
        .replaceAll(
            blank -> {
              for (int i = 0; i < filling.length; i += 2) {
                if (filling[i].equals(blank.group(1))) {
                  return Matcher.quoteReplacement(String.valueOf(filling[i + 1]));
                }
              }
              throw new IllegalArgumentException(key + " has no value for " + blank.group());
            });
  }

  /** Returns the words for a number, under {@code key.one} or {@code key.other}; it fills in n. */
  static String count(String key, long number) {
    return of(key + (number == 1 ? ".one" : ".other"), "n", number);
  }

  /** Puts words into a template or script, in the place of each key in double square brackets. */
  static String into(String template) {
    return SLOT.matcher(template).replaceAll(slot -> Matcher.quoteReplacement(of(slot.group(1))));
  }
}
