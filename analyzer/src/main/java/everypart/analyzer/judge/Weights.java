package everypart.analyzer.judge;

import everypart.lexicon.DemandKind;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Weights of named features, in columns, read from a file that {@code analyzer/training} wrote.
 *
 * <p>The file has a header of lines that begin with {@code #}, of which those of the form {@code #
 * NAME: NUMBER} are settings; then a line with the names of the columns; then a line a feature. The
 * first feature, {@code base}, is always 1.
 */
final class Weights {
  private static final String BASE = "base";
  private static final int MOST_PLACED = 4;

  private final Map<String, Double> settings;
  private final List<String> columns;
  private final Map<String, double[]> rows;
  private volatile List<Placed> placed = List.of();

  private Weights(Map<String, Double> settings, List<String> columns, Map<String, double[]> rows) {
    this.settings = Map.copyOf(settings);
    this.columns = List.copyOf(columns);
    this.rows = Map.copyOf(rows);
  }

  /**
   * Reads a file beside this class.
   *
   * @throws IllegalStateException naming the file and the line when it is not as it should be
   */
  static Weights read(String file) {
    Map<String, Double> settings = new HashMap<>();
    List<String> columns = new ArrayList<>();
    Map<String, double[]> rows = new HashMap<>();
    try (InputStream in = Weights.class.getResourceAsStream(file)) {
      if (in == null) {
        throw new IllegalStateException(file + " is not on the class path");
      }
      BufferedReader lines = new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8));
      int number = 0;
      for (String line = lines.readLine(); line != null; line = lines.readLine()) {
        number++;
        String[] cells = line.split("\t", -1);
        if (line.startsWith("#")) {
          String[] setting = line.substring(1).strip().split(": ", 2);
          if (setting.length == 2 && setting[1].matches("-?[0-9.]+")) {
            settings.put(setting[0], Double.parseDouble(setting[1]));
          }
        } else if (columns.isEmpty()) {
          columns.addAll(Arrays.asList(cells).subList(1, cells.length));
        } else if (cells.length != columns.size() + 1) {
          throw new IllegalStateException(
              file
                  + ", line "
                  + number
                  + ": "
                  + cells.length
                  + " cells, not "
                  + (columns.size() + 1));
        } else {
          rows.put(
              cells[0],
              Arrays.stream(cells, 1, cells.length).mapToDouble(Double::parseDouble).toArray());
        }
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return new Weights(settings, columns, rows);
  }

  /** Returns a setting of the header. */
  double setting(String name) {
    Double value = settings.get(name);
    if (value == null) {
      throw new IllegalStateException("the header of the weights lacks \"" + name + "\"");
    }
    return value;
  }

  /**
   * Returns the confidence, from 0.5 to 1, below which a share of the verdicts lay on prompts left
   * out: what stands in the header for each tenth, and the straight line between.
   */
  double leastSure(double share) {
    int tenth = (int) Math.floor(share * 10);
    double low = tenth == 0 ? 0.5 : tenth >= 10 ? 1 : setting("least-sure-" + tenth + "0");
    double high = tenth >= 9 ? 1 : setting("least-sure-" + (tenth + 1) + "0");
    return low + (share * 10 - tenth) * (high - low);
  }

  /** Returns the weight of a feature in a column; 0 where the file does not have it. */
  double weight(String feature, String column) {
    double[] row = rows.get(feature);
    int place = columns.indexOf(column);
    return row == null || place < 0 ? 0 : row[place];
  }

  /** Returns the place of a column among the sums. */
  int column(String name) {
    int place = columns.indexOf(name);
    if (place < 0) {
      throw new IllegalStateException("the weights lack the column \"" + name + "\"");
    }
    return place;
  }

  /** Returns the sums of all columns. */
  double[] sums(Values values) {
    double[] sums = rows.getOrDefault(BASE, new double[columns.size()]).clone();
    double[][] byPlace = byPlace(values.names());
    for (int i = 0; i < values.size(); i++) {
      double value = values.number(i);
      double[] row = value == 0 ? null : byPlace[i];
      for (int c = 0; row != null && c < sums.length; c++) {
        sums[c] += value * row[c];
      }
    }
    return sums;
  }

  /** Returns the weights of some names by their places: those of the last few are remembered. */
  private double[][] byPlace(Values.Names names) {
    for (Placed each : placed) {
      if (each.names == names) {
        return each.rows;
      }
    }
    double[][] found = new double[names.size()][];
    for (int i = 0; i < found.length; i++) {
      found[i] = rows.get(names.get(i));
    }
    List<Placed> more = new ArrayList<>(List.of(new Placed(names, found)));
    more.addAll(placed.subList(0, Math.min(placed.size(), MOST_PLACED - 1)));
    placed = List.copyOf(more);
    return found;
  }

  /** Names, and the weights of each by its place; null where a name has none. */
  private static final class Placed {
    final Values.Names names;
    final double[][] rows;

    Placed(Values.Names names, double[][] rows) {
      this.names = names;
      this.rows = rows;
    }
  }

  /** Returns the probability by the shared column and that of a kind. */
  double probability(Values values, DemandKind kind) {
    return probability(sums(values), kind);
  }

  /** Returns the probability where one more feature stands behind the others. */
  double probability(Values values, DemandKind kind, String last, double value) {
    double[] sums = sums(values);
    double[] row = rows.getOrDefault(last, new double[sums.length]);
    for (int c = 0; c < sums.length; c++) {
      sums[c] += value * row[c];
    }
    return probability(sums, kind);
  }

  private double probability(double[] sums, DemandKind kind) {
    double sum = sums[columns.indexOf("shared")];
    int own = columns.indexOf(kind.word());
    return 1 / (1 + Math.exp(-(sum + (own < 0 ? 0 : sums[own]))));
  }
}
