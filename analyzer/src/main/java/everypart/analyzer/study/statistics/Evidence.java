package everypart.analyzer.study.statistics;

/**
 * How many clusters what was counted comes from, as an effective number: the squared sum of their
 * counts over the sum of the squares, after Kish L (1965) Survey Sampling, section 11.7. Ten
 * clusters with one missing demand each are worth ten; nine more in one of them, and they are worth
 * less than four.
 */
final class Evidence {
  private double hits;
  private double hitsSquared;
  private double others;
  private double othersSquared;
  private double itemsSquared;

  void add(long clusterHits, long clusterTotal) {
    double rest = (double) (clusterTotal - clusterHits);
    hits += clusterHits;
    hitsSquared += (double) clusterHits * clusterHits;
    itemsSquared += (double) clusterTotal * clusterTotal;
    others += rest;
    othersSquared += rest * rest;
  }

  /** Returns the smaller of what hits and what others are worth. */
  double worth() {
    return Math.min(worth(hits, hitsSquared), worth(others, othersSquared));
  }

  /** Returns what all items are worth. */
  double size() {
    return worth(hits + others, itemsSquared);
  }

  private static double worth(double sum, double squares) {
    return squares == 0 ? 0 : sum * sum / squares;
  }
}
