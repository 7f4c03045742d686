package everypart.lexicon;

import java.util.HashMap;
import java.util.Map;

/**
 * How much a word tells of what a text is about.
 *
 * <p>A weight is the inverse of how common the word's stem is in general English, scaled to run
 * from 0 for "the" to 1 for words that general lists do not have. Commonness is the sum of the
 * sense counts in WordNet 3.1 over the words that share the stem, or, for words without counts,
 * read off the SCOWL size class.
 */
public final class WordWeights {
  /** Roughly the number of counted words in the texts behind the counts. */
  private static final double COUNTED = 230_000;

  private static final double HIGHEST = Math.log(COUNTED);

  private final Map<String, Double> weights = new HashMap<>();

  WordWeights(WordLists lists, WordForms forms) {
    Map<String, Double> counts = new HashMap<>();
    lists
        .words()
        .forEach(
            (form, word) -> counts.merge(forms.stem(form), count(word), (a, b) -> Math.max(a, b)));
    counts.forEach(
        (stem, count) -> weights.put(stem, Math.min(1, Math.log(COUNTED / count) / HIGHEST)));
    for (String form : FunctionWords.ALL) {
      weights.put(forms.stem(form), 0.0);
      weights.put(form, 0.0);
    }
  }

  private static double count(WordLists.Word word) {
    double bySize =
        switch (word.level()) {
          case 10 -> 20;
          case 20 -> 8;
          case 35 -> 4;
          case 40 -> 2.5;
          case 50 -> 2;
          default -> 1.5;
        };
    return Math.max(bySize, word.count());
  }

  /**
   * Returns the weight of a stem: 0 for function words, near 0.5 for the commonest content words, 1
   * for stems that are not in the lists.
   */
  public double weight(String stem) {
    Double weight = weights.get(stem);
    return weight == null ? 1.0 : weight;
  }
}
