package everypart.analyzer.wording;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Collections;
import java.util.Enumeration;
import java.util.Map;
import java.util.Properties;
import java.util.ResourceBundle;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** The sentences of one room, from the {@code words.properties} beside its classes. */
public final class RoomWords {
  private static final Pattern BLANK = Pattern.compile("\\{(\\d)\\}");

  private final Map<String, String> words;

  private RoomWords(Map<String, String> words) {
    this.words = words;
  }

  /**
   * Reads the sentences of a room.
   *
   * @param member any class of the room
   */
  public static RoomWords of(Class<?> member) {
    Properties read = new Properties();
    try (InputStream in = member.getResourceAsStream("words.properties")) {
      if (in == null) {
        throw new IllegalStateException("words.properties is not beside " + member);
      }
      read.load(new InputStreamReader(in, StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    Map<String, String> words = new TreeMap<>();
    read.stringPropertyNames().forEach(key -> words.put(key, read.getProperty(key)));
    return new RoomWords(words);
  }

  /**
   * Returns the words under a key, as they stand.
   *
   * @throws IllegalArgumentException when there are none
   */
  public String plain(String key) {
    String found = words.get(key);
    if (found == null) {
      throw new IllegalArgumentException("no words for " + key);
    }
    return found;
  }

  /**
   * Returns the words under a key with values in the place of {0}, {1} and so on. What stands in
   * braces in a value stays as it is.
   *
   * @throws IllegalArgumentException when there are no such words, or a value is lacking
   */
  public String of(String key, Object... values) {
    return BLANK
        .matcher(plain(key))
        .replaceAll(
            blank -> {
              int at = Integer.parseInt(blank.group(1));
              if (at >= values.length) {
                throw new IllegalArgumentException(key + " has no value for " + blank.group());
              }
              return Matcher.quoteReplacement(String.valueOf(values[at]));
            });
  }

  /** Returns all words as they stand, for a library that looks them up by itself. */
  public ResourceBundle bundle() {
    return new ResourceBundle() {
      @Override
      protected @Nullable Object handleGetObject(String key) {
        return words.get(key);
      }

      @Override
      public Enumeration<String> getKeys() {
        return Collections.enumeration(words.keySet());
      }
    };
  }

  /** Returns the words for a number, under {@code key.one} or {@code key.other}; it is {0}. */
  public String count(String key, long number, Object... more) {
    Object[] values = new Object[more.length + 1];
    values[0] = number;
    System.arraycopy(more, 0, values, 1, more.length);
    return of(key + (number == 1 ? ".one" : ".other"), values);
  }
}
