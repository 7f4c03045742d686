package everypart.analyzer.judge;

import java.util.Arrays;
import java.util.List;

/**
 * A model that reads a demand beside an answer, and tells how likely the answer addresses it.
 *
 * <p>The judge works without one. What stands behind it is loaded from a jar of its own, as a
 * service; opening it may be slow and may fail, using it may not. Serves all threads.
 */
public interface Reader {
  /**
   * What it makes of one demand.
   *
   * @param logOdds the logarithm of the odds that the demand is addressed, as the model gives it
   * @param evidence for each piece of the own text, then of the rest, how much it bears on the
   *     demand, as log-odds
   * @param lacks how well each word for what an open demand lacks fits, the higher the better, in
   *     the order of {@link #LACKS}
   */
  record Opinion(double logOdds, List<Double> evidence, List<Double> lacks) {
    /** Copies the lists. */
    public Opinion {
      evidence = List.copyOf(evidence);
      lacks = List.copyOf(lacks);
    }
  }

  /** The words for what an open demand lacks, in the order in which a reader gives them. */
  List<String> LACKS = Arrays.stream(Lack.values()).map(Lack::word).toList();

  /**
   * Returns the share of verdicts, over 0 and up to 1, that it is asked about: those that the
   * features are least sure of.
   */
  default double share() {
    return 1;
  }

  /**
   * Returns this reader for callers that ask about one demand at a time and wait for the answer: it
   * may use all cores for each. Its opinions are the same.
   */
  default Reader oneAtATime() {
    return this;
  }

  /** Returns a reader that is asked only about a share of the verdicts, over 0 and up to 1. */
  static Reader ofLeastSure(Reader reader, double share) {
    return new Reader() {
      @Override
      public double share() {
        return share;
      }

      @Override
      public Opinion read(String demand, List<String> own, List<String> rest) {
        return reader.read(demand, own, rest);
      }
    };
  }

  /**
   * Reads one demand and an answer.
   *
   * @param demand the demand in words, as {@code DemandText} puts it
   * @param own the text that the part got, cut into pieces, in order
   * @param rest the rest of the response, cut into pieces, in order
   */
  Opinion read(String demand, List<String> own, List<String> rest);
}
