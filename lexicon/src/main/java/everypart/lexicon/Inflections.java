package everypart.lexicon;

import java.util.LinkedHashSet;
import java.util.Set;

/**
 * The regular inflections of an English word: plural or third person, past, participle.
 *
 * <p>A stemmer would also bring in "promotional" for "promote" and "author" for "authorize", which
 * are no sign of what the verb is a sign of.
 */
final class Inflections {
  private static final String VOWELS = "aeiou";

  private Inflections() {}

  /**
   * Returns the word and its inflections by the rules of spelling; irregular ones are not known.
   */
  static Set<String> of(String word) {
    Set<String> forms = new LinkedHashSet<>();
    forms.add(word);
    int length = word.length();
    char last = word.charAt(length - 1);
    boolean vowelBefore = length > 1 && VOWELS.indexOf(word.charAt(length - 2)) >= 0;
    if (last == 'y' && !vowelBefore) {
      String stem = word.substring(0, length - 1);
      add(forms, stem + "ies", stem + "ied", word + "ing");
    } else if (last == 'e') {
      add(forms, word + "s", word + "d", word.substring(0, length - 1) + "ing");
    } else {
      boolean hissing = word.endsWith("s") || word.endsWith("x") || word.endsWith("z");
      boolean hushing = word.endsWith("ch") || word.endsWith("sh");
      add(forms, word + (hissing || hushing ? "es" : "s"), word + "ed", word + "ing");
      boolean doubles =
          vowelBefore && VOWELS.indexOf(last) < 0 && "wxy".indexOf(last) < 0 && length > 2;
      if (doubles && VOWELS.indexOf(word.charAt(length - 3)) < 0) {
        add(forms, word + last + "ed", word + last + "ing");
      }
    }
    return forms;
  }

  private static void add(Set<String> forms, String plural, String past, String participle) {
    forms.add(plural);
    add(forms, past, participle);
  }

  private static void add(Set<String> forms, String past, String participle) {
    forms.add(past);
    forms.add(participle);
  }
}
