package everypart.lexicon;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** Splits the names of a lexicon into words the way texts are split: hyphens and slashes apart. */
final class NameSplitter {
  private NameSplitter() {}

  /** Returns the words, figures and marks of a name in lower case. */
  static List<String> split(String name) {
    String text = name.toLowerCase(Locale.ROOT).replace('\u2019', '\'');
    List<String> words = new ArrayList<>();
    int i = 0;
    while (i < text.length()) {
      char c = text.charAt(i);
      int end = i + 1;
      if (Character.isLetterOrDigit(c)) {
        while (end < text.length() && belongs(text, end)) {
          end++;
        }
      }
      if (!Character.isWhitespace(c)) {
        words.add(text.substring(i, end));
      }
      i = end;
    }
    return words;
  }

  private static boolean belongs(String text, int i) {
    return Character.isLetterOrDigit(text.charAt(i))
        || (text.charAt(i) == '\''
            && i + 1 < text.length()
            && Character.isLetter(text.charAt(i + 1)));
  }
}
