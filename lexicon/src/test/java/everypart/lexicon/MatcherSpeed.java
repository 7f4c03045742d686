package everypart.lexicon;

import java.util.List;
import java.util.Locale;

/**
 * Measures how many tokens a second the matchers read on one thread, warmed up. Run by hand; it is
 * no test, since the figure depends on the machine.
 */
final class MatcherSpeed {
  private static final int ROUNDS = 5;
  private static final long ROUND_NANOS = 2_000_000_000L;

  private MatcherSpeed() {}

  /** Prints tokens a second for cues and for concepts, round by round. */
  public static void main(String[] arguments) {
    Lexicon lexicon = Lexicon.bundled();
    List<Words> sentences =
        TestTable.rows("cause-effect.tsv", 4).stream().map(row -> new Words(row.get(1))).toList();
    long tokens = sentences.stream().mapToLong(Words::size).sum();
    sentences.forEach(words -> lexicon.concepts(words));
    for (int round = 1; round <= ROUNDS; round++) {
      System.out.printf(
          Locale.ROOT,
          "round %d: cues %.2f, concepts %.2f million tokens a second%n",
          round,
          millions(tokens, () -> sentences.forEach(words -> lexicon.cues(words))),
          millions(tokens, () -> sentences.forEach(words -> lexicon.concepts(words))));
    }
  }

  private static double millions(long tokens, Runnable pass) {
    long start = System.nanoTime();
    long read = 0;
    while (System.nanoTime() - start < ROUND_NANOS) {
      pass.run();
      read += tokens;
    }
    return read * 1e3 / (System.nanoTime() - start);
  }
}
