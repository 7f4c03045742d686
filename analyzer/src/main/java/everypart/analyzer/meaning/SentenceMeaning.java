package everypart.analyzer.meaning;

/**
 * Tells how near two sentences are in meaning, beyond the words they share.
 *
 * <p>The analyzer works without one. What stands behind it is loaded from a jar of its own, as a
 * service; opening it may be slow and may fail, using it may not.
 */
public interface SentenceMeaning {
  /**
   * Returns a vector of length 1 for a sentence: the nearer two sentences are in meaning, the
   * greater the dot product of their vectors. The same sentence gives the same vector in every run
   * on one machine, whatever other threads do. Serves all threads.
   */
  float[] vector(String sentence);
}
