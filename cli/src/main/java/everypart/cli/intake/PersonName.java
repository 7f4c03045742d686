package everypart.cli.intake;

import java.text.Normalizer;
import java.util.HashSet;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The words in a name by which files and rows are known as a person's: without accents, capitals
 * and order.
 */
final class PersonName {
  private static final Pattern WORD = Pattern.compile("[\\p{L}\\p{N}]+");
  private static final Pattern ACCENT = Pattern.compile("\\p{M}+");

  /** What people and systems add to the name of a file that they save again. */
  private static final Pattern VERSION =
      Pattern.compile(
          "\\(\\d{1,3}\\)|(?<![\\p{L}\\p{N}])(?:final|draft|copy|new|version|v\\d{1,2})(?![\\p{L}])");

  private PersonName() {}

  /** Returns all words of a name. */
  static Set<String> words(String name) {
    return split(plain(name));
  }

  /** Returns the words of a name without those that tell one version of a file from another. */
  static Set<String> withoutVersion(String name) {
    return split(VERSION.matcher(plain(name)).replaceAll(" "));
  }

  private static String plain(String name) {
    return ACCENT
        .matcher(Normalizer.normalize(name, Normalizer.Form.NFKD))
        .replaceAll("")
        .toLowerCase(Locale.ROOT);
  }

  private static Set<String> split(String plain) {
    Set<String> words = new HashSet<>();
    Matcher word = WORD.matcher(plain);
    while (word.find()) {
      words.add(word.group());
    }
    return words;
  }
}
