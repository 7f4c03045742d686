package everypart.analyzer.assign;

import everypart.analyzer.prompt.Prompt;
import java.util.List;

/**
 * Tells how much each stretch of a response bears on each part: what a reader of demands and
 * answers makes of the response as a whole. Serves all threads.
 */
public interface Bearing {
  /**
   * Returns a row for each piece, a column for each part: log-odds that the piece answers the part,
   * 0 where it begins to.
   *
   * @param pieces the whole response, cut, in reading order
   */
  double[][] of(Prompt prompt, List<String> pieces);

  /** Tells whether it can be relied on where it speaks against the prompt's order. */
  boolean isSure();
}
