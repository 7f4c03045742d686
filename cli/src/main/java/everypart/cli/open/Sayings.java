package everypart.cli.open;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Properties;

/** The sentences of this room, from {@code words.properties}. */
final class Sayings {
  private static final Properties WORDS = load();

  private Sayings() {}

  private static Properties load() {
    Properties words = new Properties();
    try (InputStream in = Sayings.class.getResourceAsStream("words.properties")) {
      if (in == null) {
        throw new IllegalStateException("words.properties is not on the class path");
      }
      words.load(new InputStreamReader(in, StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return words;
  }

  /**
   * Returns the words under a key, with values in the place of {0}, {1} and so on.
   *
   * @throws IllegalArgumentException when there are none
   */
  static String of(String key, Object... values) {
    String words = WORDS.getProperty(key);
    if (words == null) {
      throw new IllegalArgumentException("no words for " + key);
    }
    for (int i = 0; i < values.length; i++) {
      words = words.replace("{" + i + "}", String.valueOf(values[i]));
    }
    return words;
  }
}
