package everypart.analyzer.study.statistics;

import java.util.Optional;
import org.apache.commons.statistics.inference.FisherExactTest;

/**
 * A table of two yes-or-no properties.
 *
 * @param both how many have both properties
 * @param first how many have only the first
 * @param second how many have only the second
 * @param neither how many have neither
 */
public record TwoByTwo(long both, long first, long second, long neither) {
  /** Up to this many items the exact test is used; beyond it, the chi-square test. */
  public static final long EXACT_UP_TO = 100_000;

  /**
   * Checks the counts.
   *
   * @throws IllegalArgumentException when one is negative
   */
  public TwoByTwo {
    if (both < 0 || first < 0 || second < 0 || neither < 0) {
      throw new IllegalArgumentException(
          "counts are not negative: " + both + ", " + first + ", " + second + ", " + neither);
    }
  }

  /** Returns how many items the table counts. */
  public long total() {
    return both + first + second + neither;
  }

  /**
   * Returns the odds ratio with Woolf's interval, after adding one half to every count when one of
   * them is 0; nothing when a row or a column is empty.
   *
   * <p>Woolf B (1955) On estimating the relation between blood group and disease. Annals of Human
   * Genetics 19:251-253; the half: Haldane JBS (1956), same journal, 20:309-311, and Anscombe FJ
   * (1956) On estimating binomial response relations. Biometrika 43:461-464.
   */
  public Optional<Estimate> oddsRatio(Level level) {
    if (lacksMargin()) {
      return Optional.empty();
    }
    double add = Math.min(Math.min(both, first), Math.min(second, neither)) == 0 ? 0.5 : 0;
    double a = both + add;
    double b = first + add;
    double c = second + add;
    double d = neither + add;
    double log = Math.log(a) - Math.log(b) - Math.log(c) + Math.log(d);
    double half = level.normalQuantile() * Math.sqrt(1 / a + 1 / b + 1 / c + 1 / d);
    return Optional.of(
        new Estimate(Math.exp(log), new Interval(Math.exp(log - half), Math.exp(log + half))));
  }

  /**
   * Returns the phi coefficient, the correlation of the two properties, -1 to 1; nothing when a row
   * or a column is empty.
   *
   * <p>Yule GU (1912) On the methods of measuring association between two attributes. J Royal
   * Statistical Society 75:579-652.
   */
  public Optional<Double> phi() {
    if (lacksMargin()) {
      return Optional.empty();
    }
    double determinant = (double) both * neither - (double) first * second;
    double margins =
        Math.sqrt((double) (both + first))
            * Math.sqrt((double) (second + neither))
            * Math.sqrt((double) (both + second))
            * Math.sqrt((double) (first + neither));
    return Optional.of(determinant / margins);
  }

  /**
   * Returns how many times more often both occur together than if they had nothing to do with each
   * other; nothing when one of them never occurs.
   *
   * <p>Brin S, Motwani R, Ullman JD, Tsur S (1997) Dynamic itemset counting and implication rules
   * for market basket data. SIGMOD Record 26(2):255-264, where it is called interest.
   */
  public Optional<Double> lift() {
    double withFirst = (double) (both + first);
    double withSecond = (double) (both + second);
    return withFirst == 0 || withSecond == 0
        ? Optional.empty()
        : Optional.of(both / withFirst / withSecond * total());
  }

  /**
   * Tests whether the two properties are independent, by Fisher's exact test, two-sided by the sum
   * of small probabilities, up to {@link #EXACT_UP_TO} items and by Pearson's chi-square test
   * without continuity correction beyond. Nothing when a row or a column is empty.
   *
   * <p>Fisher RA (1935) The logic of inductive inference. J Royal Statistical Society 98:39-82;
   * Pearson K (1900) Philosophical Magazine 50:157-175. Both computed by Apache Commons Statistics.
   */
  public Optional<SignificanceTest> independence() {
    if (lacksMargin()) {
      return Optional.empty();
    }
    if (total() > EXACT_UP_TO) {
      return ChiSquare.independence(new long[][] {{both, first}, {second, neither}});
    }
    double p =
        FisherExactTest.withDefaults()
            .test(new int[][] {{(int) both, (int) first}, {(int) second, (int) neither}})
            .getPValue();
    return Optional.of(
        new SignificanceTest(SignificanceTest.Name.FISHER_EXACT, Optional.empty(), 0, p));
  }

  private boolean lacksMargin() {
    return both + first == 0 || second + neither == 0 || both + second == 0 || first + neither == 0;
  }
}
