package everypart.cli.report;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Properties;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The sentences of this room, from {@code words.properties}: in one file, so that they can be read
 * in one go and translated.
 */
final class Wording {
  private static final Pattern BLANK = Pattern.compile("\\{(\\w+)\\}");
  private static final Pattern SLOT = Pattern.compile("\\[\\[([\\w.-]+)\\]\\]");

  private static final Properties WORDS = load();

  private Wording() {}

  private static Properties load() {
    Properties words = new Properties();
    try (InputStream in = Wording.class.getResourceAsStream("words.properties")) {
      if (in == null) {
        throw new IllegalStateException("words.properties is not on the class path");
      }
      try (Reader reader = new InputStreamReader(in, StandardCharsets.UTF_8)) {
        words.load(reader);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return words;
  }

  /**
   * Returns the words under a key.
   *
   * @throws IllegalArgumentException when there are none
   */
  static String of(String key) {
    String words = WORDS.getProperty(key);
    if (words == null) {
      throw new IllegalArgumentException("no words for " + key);
    }
    return words;
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
