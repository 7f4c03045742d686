package everypart.analyzer.study.agreement;

import everypart.analyzer.study.statistics.Proportion;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Whether verdicts that claim a confidence of so much are right so often.
 *
 * <p>The curve: DeGroot MH, Fienberg SE (1983) The comparison and evaluation of forecasters. The
 * Statistician 32:12-22. The score: Brier GW (1950) Verification of forecasts expressed in terms of
 * probability. Monthly Weather Review 78:1-3, here the mean squared distance of confidence from 1
 * when right and 0 when wrong (half of Brier's own two-sided sum).
 */
public final class ReliabilityCurve {
  /** How many bins of equal width the curve has. */
  public static final int BINS = 10;

  private final List<List<Claim>> bins = new ArrayList<>();

  private record Claim(double confidence, boolean right) {}

  /** Makes an empty curve. */
  public ReliabilityCurve() {
    for (int bin = 0; bin < BINS; bin++) {
      bins.add(new ArrayList<>());
    }
  }

  /**
   * Adds a verdict.
   *
   * @param confidence the probability it claims to be right with, 0 to 1
   */
  public void add(double confidence, boolean right) {
    if (!(confidence >= 0 && confidence <= 1)) {
      throw new IllegalArgumentException("a confidence lies between 0 and 1, not " + confidence);
    }
    bins.get(Math.min(BINS - 1, (int) (confidence * BINS))).add(new Claim(confidence, right));
  }

  /**
   * One bin.
   *
   * @param low the least confidence in it
   * @param high the next bin's least confidence
   * @param meanConfidence the mean of the confidences in it
   * @param right how many of its verdicts are right
   */
  public record Bin(double low, double high, double meanConfidence, Proportion right) {}

  /** Returns the bins that hold a verdict, from low to high confidence. */
  public List<Bin> bins() {
    List<Bin> filled = new ArrayList<>();
    for (int bin = 0; bin < BINS; bin++) {
      List<Claim> claims = bins.get(bin);
      if (!claims.isEmpty()) {
        filled.add(
            new Bin(
                (double) bin / BINS,
                (bin + 1.0) / BINS,
                claims.stream().mapToDouble(Claim::confidence).average().orElseThrow(),
                new Proportion(claims.stream().filter(Claim::right).count(), claims.size())));
      }
    }
    return filled;
  }

  /** Returns the Brier score, 0 at best; nothing without verdicts. */
  public Optional<Double> brier() {
    var mean =
        bins.stream()
            .flatMap(List::stream)
            .mapToDouble(claim -> claim.confidence() - (claim.right() ? 1 : 0))
            .map(distance -> distance * distance)
            .average();
    return mean.isPresent() ? Optional.of(mean.getAsDouble()) : Optional.empty();
  }

  /**
   * Returns the mean distance of claimed from measured rightness over bins, weighted by their size;
   * nothing without verdicts.
   *
   * <p>The expected calibration error of Naeini MP, Cooper GF, Hauskrecht M (2015) Obtaining well
   * calibrated probabilities using Bayesian binning. AAAI Conference 29:2901-2907.
   */
  public Optional<Double> calibrationError() {
    double total = bins.stream().mapToInt(List::size).sum();
    return total == 0
        ? Optional.empty()
        : Optional.of(
            bins().stream()
                .mapToDouble(
                    bin ->
                        Math.abs(bin.meanConfidence() - bin.right().rate())
                            * bin.right().total()
                            / total)
                .sum());
  }
}
