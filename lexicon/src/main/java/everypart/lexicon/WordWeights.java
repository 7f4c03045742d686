package everypart.lexicon;

import java.util.HashMap;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.IntStream;

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
  static final double COUNTED = 230_000;

  private static final double HIGHEST = Math.log(COUNTED);

  /** The weights of the lower counts, which nearly all stems have. */
  private static final double[] REMEMBERED =
      IntStream.range(0, 256).mapToDouble(doubled -> doubled == 0 ? 0 : weight(doubled)).toArray();

  /** The name of the table that the build makes of the weights. */
  static final String TABLE = "weights.table";

  private final Table counts;

  private WordWeights(Table counts) {
    this.counts = counts;
  }

  /** Returns the weights that come with the program. */
  static WordWeights bundled() {
    return new WordWeights(
        Table.bundled(TABLE)
            .orElseGet(() -> Table.of(doubledCounts(WordLists.bundled(), new WordForms()))));
  }

  /** Returns twice the count behind each stem, which is a whole number; 0 for function words. */
  static Map<String, Integer> doubledCounts(WordLists lists, WordForms forms) {
    Map<String, Double> counts = new HashMap<>();
    lists.forEach(
        (form, word) -> counts.merge(forms.stem(form), count(word), (a, b) -> Math.max(a, b)));
    Map<String, Integer> doubled = new TreeMap<>();
    counts.forEach((stem, count) -> doubled.put(stem, (int) (2 * count)));
    for (String form : Language.english().words("function")) {
      doubled.put(forms.stem(form), 0);
      doubled.put(form, 0);
    }
    return doubled;
  }

  private static double weight(int doubled) {
    return Math.min(1, Math.log(COUNTED / (doubled / 2.0)) / HIGHEST);
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
   * Returns how often a stem occurs in {@link #COUNTED} words of general English; 0 for stems that
   * are not in the lists, and for function words, which were not counted.
   */
  double count(String stem) {
    return Math.max(0, counts.get(stem)) / 2.0;
  }

  /**
   * Returns the weight of a stem: 0 for function words, near 0.5 for the commonest content words, 1
   * for stems that are not in the lists.
   */
  public double weight(String stem) {
    int doubled = counts.get(stem);
    if (doubled <= 0) {
      return doubled == Table.ABSENT ? 1.0 : 0.0;
    }
    return doubled < REMEMBERED.length ? REMEMBERED[doubled] : weight(doubled);
  }
}
