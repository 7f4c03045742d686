package everypart.lexicon;

/**
 * How far two counts are from what they would be if neither depended on the other: the
 * log-likelihood ratio of a two by two table, which also holds where counts are small (Dunning
 * 1993, "Accurate Methods for the Statistics of Surprise and Coincidence", Computational
 * Linguistics 19(1)).
 */
final class LikelihoodRatio {
  private LikelihoodRatio() {}

  /**
   * Returns minus two times the logarithm of the ratio: 0 where nothing depends on anything, and
   * the more, the less chance explains the table. Had each count come about by itself, it would be
   * above 10.83 once in a thousand times (chi-squared, one degree of freedom).
   *
   * @param both how often the one thing and the other occur together; each count is 0 or more
   * @param first how often the first occurs without the second
   * @param second how often the second occurs without the first
   * @param neither how often neither occurs
   */
  static double of(double both, double first, double second, double neither) {
    double cells = part(both) + part(first) + part(second) + part(neither);
    double rows = part(both + first) + part(second + neither);
    double columns = part(both + second) + part(first + neither);
    double all = part(both + first + second + neither);
    return Math.max(0, 2 * (cells - rows - columns + all));
  }

  private static double part(double count) {
    return count <= 0 ? 0 : count * Math.log(count);
  }
}
