package everypart.analyzer.study.statistics;

import java.util.List;
import java.util.Optional;

/**
 * A trend in proportions over ordered groups.
 *
 * <p>The Cochran-Armitage test: Cochran WG (1954) Some methods for strengthening the common
 * chi-square tests. Biometrics 10:417-451; Armitage P (1955) Tests for linear trends in proportions
 * and frequencies. Biometrics 11:375-386. Our own: Commons Statistics has none.
 */
public final class Trend {
  private Trend() {}

  /**
   * One ordered group.
   *
   * @param score where it stands, such as a position or a middle length
   * @param proportion how many of it hit
   */
  public record Step(double score, Proportion proportion) {}

  /**
   * Tests for a linear trend of the proportions in the scores. Nothing when all scores are the
   * same, or when all or none hit.
   */
  public static Optional<SignificanceTest> test(List<Step> steps) {
    double total = 0;
    double hits = 0;
    double scores = 0;
    for (Step step : steps) {
      total += step.proportion().total();
      hits += step.proportion().hits();
      scores += step.proportion().total() * step.score();
    }
    double rate = hits / total;
    double mean = scores / total;
    double slope = 0;
    double spread = 0;
    for (Step step : steps) {
      double from = step.score() - mean;
      slope += from * step.proportion().hits();
      spread += from * from * step.proportion().total();
    }
    double variance = rate * (1 - rate) * spread;
    return variance > 0
        ? Optional.of(ChiSquare.of(SignificanceTest.Name.TREND, slope * slope / variance, 1))
        : Optional.empty();
  }
}
