package everypart.cli.report.plot;

import java.util.List;
import java.util.Locale;

/**
 * Values with their intervals, one a line: a dot, and a line from limit to limit.
 *
 * @param label what the plot shows
 * @param low the least value of the scale
 * @param high the greatest value of the scale
 * @param mark a value that an upright line marks, such as no difference
 * @param lines the values
 */
public record IntervalPlot(String label, double low, double high, double mark, List<Line> lines) {
  private static final int HEIGHT = 22;
  private static final int NAMES = 210;
  private static final int SCALE = 380;
  private static final int FIGURES = 230;
  private static final int LONGEST_NAME = 32;
  private static final int STEPS = 4;

  /**
   * A value.
   *
   * @param name what it is the value of
   * @param value the value
   * @param low the lower limit
   * @param high the upper limit
   * @param figures the same in figures
   */
  public record Line(String name, double value, double low, double high, String figures) {}

  /** Copies the list. */
  public IntervalPlot {
    lines = List.copyOf(lines);
  }

  /** Returns the plot. */
  public String svg() {
    double bottom = HEIGHT * (lines.size() + 0.5);
    Svg svg = new Svg(NAMES + SCALE + FIGURES, bottom + HEIGHT, label);
    for (int step = 0; step <= STEPS; step++) {
      double value = low + (high - low) * step / STEPS;
      svg.line("grid", x(value), 0, x(value), bottom);
      svg.text("middle", x(value), bottom + 15, String.format(Locale.ROOT, "%.0f %%", value * 100));
    }
    svg.line("mark", x(mark), 0, x(mark), bottom);
    double y = HEIGHT * 0.75;
    for (Line line : lines) {
      svg.text("end", NAMES - 14.0, y + 4, Svg.shortened(line.name(), LONGEST_NAME));
      svg.line("interval", x(line.low()), y, x(line.high()), y);
      svg.dot("value", x(line.value()), y, 4);
      svg.text("start", NAMES + SCALE + 14.0, y + 4, line.figures());
      y += HEIGHT;
    }
    return svg.end();
  }

  private double x(double value) {
    double inside = Math.max(low, Math.min(high, value));
    return NAMES + SCALE * (inside - low) / (high - low);
  }
}
