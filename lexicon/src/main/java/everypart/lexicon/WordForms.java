package everypart.lexicon;

import java.util.Locale;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.UnaryOperator;
import org.tartarus.snowball.ext.EnglishStemmer;

/**
 * Brings the inflections of a word together: one stem for "absorb", "absorbs" and "absorbed".
 *
 * <p>The stemmer is Snowball's English one (Porter 1980, in the revision known as Porter2), as
 * Lucene ships it. Stems are remembered, so a word costs one look-up after it was first seen; the
 * memory is bounded, and words past the bound are stemmed each time.
 */
public final class WordForms {
  private static final int MOST_REMEMBERED = 200_000;

  private final ConcurrentHashMap<String, String> remembered = new ConcurrentHashMap<>();
  private final UnaryOperator<String> spelling;
  private final ThreadLocal<EnglishStemmer> stemmers = ThreadLocal.withInitial(EnglishStemmer::new);

  /** Makes a stemmer that takes words as they are spelled. */
  public WordForms() {
    this(UnaryOperator.identity());
  }

  /**
   * Makes a stemmer.
   *
   * @param spelling gives the word that a form in lower case stands for, asked once a form
   */
  WordForms(UnaryOperator<String> spelling) {
    this.spelling = spelling;
  }

  /**
   * Returns the stem of a word.
   *
   * @param form the word in lower case
   */
  public String stem(String form) {
    String known = remembered.get(form);
    if (known != null) {
      return known;
    }
    EnglishStemmer stemmer = stemmers.get();
    stemmer.setCurrent(spelling.apply(form.toLowerCase(Locale.ROOT)));
    stemmer.stem();
    String stem = stemmer.getCurrent();
    if (remembered.size() < MOST_REMEMBERED) {
      remembered.put(form, stem);
    }
    return stem;
  }
}
