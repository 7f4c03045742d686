package everypart.cli.report.plot;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/**
 * How strongly each two things go together: a square a pair, the stronger the darker, with the
 * figure in it.
 *
 * @param label what the map shows
 * @param names the things, in order
 * @param values a value from -1 to 1 for a pair of names, first name first; a pair may be absent
 */
public record PairMap(String label, List<String> names, Map<List<String>, Double> values) {
  private static final int SIDE = 54;
  private static final int NAMES = 130;

  /** How much a slanted name rises a letter, and the room above it. */
  private static final double RISE = 4.4;

  private static final double ABOVE = 24;

  /** What the last slanted name needs beside the squares. */
  private static final int RIGHT = 90;

  private static final int LONGEST_NAME = 20;

  /** Copies the collections. */
  public PairMap {
    names = List.copyOf(names);
    values = Map.copyOf(values);
  }

  /** Returns the map. */
  public String svg() {
    int count = names.size();
    int longest = names.stream().mapToInt(String::length).max().orElse(0);
    double top = ABOVE + RISE * Math.min(longest, LONGEST_NAME);
    Svg svg =
        new Svg(
            NAMES + (double) SIDE * (count - 1) + RIGHT, top + (double) SIDE * (count - 1), label);
    for (int column = 0; column + 1 < count; column++) {
      svg.slanted(
          NAMES + SIDE * (column + 0.5), top - 8.0, Svg.shortened(names.get(column), LONGEST_NAME));
    }
    for (int row = 1; row < count; row++) {
      double y = top + (double) SIDE * (row - 1);
      svg.text("end", NAMES - 8.0, y + SIDE * 0.58, Svg.shortened(names.get(row), LONGEST_NAME));
      for (int column = 0; column < row; column++) {
        square(svg, names.get(row), names.get(column), NAMES + (double) SIDE * column, y);
      }
    }
    return svg.end();
  }

  private void square(Svg svg, String first, String second, double x, double y) {
    Optional<Double> value =
        Optional.ofNullable(values.get(List.of(first, second)))
            .or(() -> Optional.ofNullable(values.get(List.of(second, first))));
    String figure = value.map(found -> String.format(Locale.ROOT, "%.2f", found)).orElse("");
    String style = value.filter(found -> found < 0).isPresent() ? "apart" : "together";
    double strength = value.map(found -> 0.75 * Math.abs(found)).orElse(0.0);
    svg.box(
        style,
        x + 1,
        y + 1,
        SIDE - 2.0,
        SIDE - 2.0,
        strength,
        first + " and " + second + ": " + (figure.isEmpty() ? "not computed" : figure));
    svg.text("middle", x + SIDE / 2.0, y + SIDE * 0.58, figure);
  }
}
