package everypart.analyzer.prompt;

import everypart.lexicon.Lexicon;
import java.util.Locale;

/**
 * Shows how the time to read a prompt grows with its length: 1, 10 and 100 pages in one run, as
 * ratios to the first. Run its {@code main}; it asserts nothing.
 */
public final class PromptReadingTime {
  private static final String PAGE =
      "(a) Describe two features of the coast. The sand is dry.\n\n".repeat(40);

  private PromptReadingTime() {}

  /** Prints a line for each length. */
  public static void main(String[] args) {
    PromptReader reader = new PromptReader(Lexicon.bundled());
    best(reader, PAGE.repeat(20));
    double one = best(reader, PAGE);
    for (int pages : new int[] {1, 10, 100}) {
      double ratio = best(reader, PAGE.repeat(pages)) / one;
      System.out.printf(Locale.ROOT, "%3d pages: %.1f times one page%n", pages, ratio);
    }
  }

  private static double best(PromptReader reader, String text) {
    long best = Long.MAX_VALUE;
    for (int i = 0; i < 5; i++) {
      long start = System.nanoTime();
      reader.read("p", text);
      best = Math.min(best, System.nanoTime() - start);
    }
    return best;
  }
}
