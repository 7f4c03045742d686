package everypart.analyzer.study.statistics;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.apache.commons.statistics.distribution.ChiSquaredDistribution;
import org.apache.commons.statistics.inference.ChiSquareTest;

/** Pearson's chi-square test of independence in a table of counts. */
public final class ChiSquare {
  private ChiSquare() {}

  /**
   * Tests whether rows and columns are independent, after leaving out rows and columns without a
   * count. Nothing when fewer than two of either are left.
   *
   * <p>Pearson K (1900) On the criterion that a given system of deviations from the probable ...
   * Philosophical Magazine 50:157-175. Computed by Apache Commons Statistics, without continuity
   * correction. Trust it when the expected counts reach 5 or so (Cochran WG (1954) Some methods for
   * strengthening the common chi-square tests. Biometrics 10:417-451).
   *
   * @param counts one row a group
   */
  public static Optional<SignificanceTest> independence(long[][] counts) {
    long[][] kept = withoutEmpty(counts);
    if (kept.length < 2 || kept[0].length < 2) {
      return Optional.empty();
    }
    int degrees = (kept.length - 1) * (kept[0].length - 1);
    double statistic = ChiSquareTest.withDefaults().statistic(kept);
    return Optional.of(of(SignificanceTest.Name.CHI_SQUARE, statistic, degrees));
  }

  /** Returns a test whose statistic follows a chi-square distribution. */
  static SignificanceTest of(SignificanceTest.Name name, double statistic, int degrees) {
    double p = ChiSquaredDistribution.of(degrees).survivalProbability(statistic);
    return new SignificanceTest(name, Optional.of(statistic), degrees, p);
  }

  /** Returns the smallest count that independence would lead one to expect in a cell. */
  public static double smallestExpected(long[][] counts) {
    long[][] kept = withoutEmpty(counts);
    double total = (double) Arrays.stream(kept).flatMapToLong(Arrays::stream).sum();
    double smallest = Double.POSITIVE_INFINITY;
    for (long[] row : kept) {
      double rowTotal = (double) Arrays.stream(row).sum();
      for (int column = 0; column < row.length; column++) {
        long columnTotal = 0;
        for (long[] other : kept) {
          columnTotal += other[column];
        }
        smallest = Math.min(smallest, rowTotal * columnTotal / total);
      }
    }
    return smallest;
  }

  private static long[][] withoutEmpty(long[][] counts) {
    int columns = counts.length == 0 ? 0 : counts[0].length;
    List<Integer> keptColumns = new ArrayList<>();
    for (int column = 0; column < columns; column++) {
      int at = column;
      if (Arrays.stream(counts).anyMatch(row -> row[at] > 0)) {
        keptColumns.add(column);
      }
    }
    return Arrays.stream(counts)
        .filter(row -> Arrays.stream(row).sum() > 0)
        .map(row -> keptColumns.stream().mapToLong(column -> row[column]).toArray())
        .toArray(long[][]::new);
  }
}
