package everypart.analyzer.assign;

import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.Text;

/**
 * Tells which parts' demands some words would meet if they stood there alone. What judges demands
 * works on text that was assigned, so it is handed in here.
 */
public interface DemandFit {
  /**
   * Returns for each part of a prompt the share of its demands, from 0 to 1, that the words would
   * meet; 0.5 for a part whose answer cannot be read from text.
   */
  double[] of(Prompt prompt, Text response, Sentence words);

  /** Returns a fit that tells nothing. */
  static DemandFit none() {
    return (prompt, response, words) -> new double[prompt.parts().size()];
  }
}
