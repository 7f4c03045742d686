package everypart.analyzer.study.agreement;

import everypart.analyzer.study.statistics.Estimate;
import everypart.analyzer.study.statistics.Interval;
import everypart.analyzer.study.statistics.Level;
import everypart.analyzer.study.statistics.Proportion;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * How often each code of one coder met each code of another.
 *
 * @param categories the codes, the same for rows and columns
 * @param counts one row a code of the first coder, one column a code of the second
 */
public record ConfusionTable(List<String> categories, List<List<Long>> counts) {
  /**
   * Copies the lists.
   *
   * @throws IllegalArgumentException when the table is not square or a count is negative
   */
  public ConfusionTable {
    categories = List.copyOf(categories);
    counts = counts.stream().map(List::copyOf).toList();
    int size = categories.size();
    if (counts.size() != size
        || counts.stream().anyMatch(row -> row.size() != size)
        || counts.stream().flatMap(List::stream).anyMatch(count -> count < 0)) {
      throw new IllegalArgumentException(
          "a table over " + categories + " needs as many rows and columns, not " + counts);
    }
  }

  /** Returns the table of counts given as an array. */
  public static ConfusionTable of(List<String> categories, long[][] counts) {
    return new ConfusionTable(
        categories,
        IntStream.range(0, counts.length)
            .mapToObj(row -> Arrays.stream(counts[row]).boxed().toList())
            .toList());
  }

  /** Returns how many items both coded. */
  public long total() {
    return counts.stream().flatMap(List::stream).mapToLong(Long::longValue).sum();
  }

  /** Returns the share of items coded alike; nothing without items. */
  public Optional<Proportion> agreement() {
    long alike = IntStream.range(0, categories.size()).mapToLong(at -> cell(at, at)).sum();
    return Proportion.of(alike, total());
  }

  /**
   * Returns Cohen's kappa with its interval; nothing without items or when both coders used one and
   * the same code throughout.
   *
   * <p>Cohen J (1960) A coefficient of agreement for nominal scales. Educational and Psychological
   * Measurement 20:37-46.
   */
  public Optional<Kappa> kappa(Level level) {
    if (total() == 0) {
      return Optional.empty();
    }
    double total = (double) total();
    int size = categories.size();
    double[] rows = new double[size];
    double[] columns = new double[size];
    double observed = 0;
    for (int row = 0; row < size; row++) {
      for (int column = 0; column < size; column++) {
        rows[row] += cell(row, column) / total;
        columns[column] += cell(row, column) / total;
      }
      observed += cell(row, row) / total;
    }
    double expected = 0;
    for (int at = 0; at < size; at++) {
      expected += rows[at] * columns[at];
    }
    if (1 - expected < 1e-12) {
      return Optional.empty();
    }
    double kappa = (observed - expected) / (1 - expected);
    double error = standardError(rows, columns, expected, kappa);
    double half = level.normalQuantile() * error;
    Interval interval = new Interval(Math.max(-1, kappa - half), Math.min(1, kappa + half));
    return Optional.of(new Kappa(new Estimate(kappa, interval), error));
  }

  // Equation 13 of Fleiss, Cohen and Everitt.
  private double standardError(double[] rows, double[] columns, double expected, double kappa) {
    double total = (double) total();
    double onDiagonal = 0;
    double offDiagonal = 0;
    for (int row = 0; row < rows.length; row++) {
      double own = 1 - (rows[row] + columns[row]) * (1 - kappa);
      onDiagonal += cell(row, row) / total * own * own;
      for (int column = 0; column < columns.length; column++) {
        if (row != column) {
          double margin = columns[row] + rows[column];
          offDiagonal += cell(row, column) / total * margin * margin;
        }
      }
    }
    double last = kappa - expected * (1 - kappa);
    double variance =
        (onDiagonal + (1 - kappa) * (1 - kappa) * offDiagonal - last * last)
            / ((1 - expected) * (1 - expected) * total);
    return Math.sqrt(Math.max(0, variance));
  }

  private long cell(int row, int column) {
    return counts.get(row).get(column);
  }

  /**
   * Cohen's kappa.
   *
   * @param estimate kappa and its interval, by the normal distribution
   * @param standardError the large-sample standard error that supposes no value of kappa: Fleiss
   *     JL, Cohen J, Everitt BS (1969) Large sample standard errors of kappa and weighted kappa.
   *     Psychological Bulletin 72:323-327
   */
  public record Kappa(Estimate estimate, double standardError) {}
}
