package everypart.cli.report.plot;

import java.util.List;
import java.util.Locale;

/**
 * How often verdicts of like confidence are right; on the slanting line confidence tells just that.
 *
 * @param label what the plot shows
 * @param points the points, from low to high confidence
 */
public record ReliabilityPlot(String label, List<Point> points) {
  private static final int SIDE = 320;
  private static final int LEFT = 60;
  private static final int TOP = 12;

  /**
   * Verdicts of like confidence.
   *
   * @param confidence their mean confidence
   * @param right the share that is right
   * @param low the lower limit of that share
   * @param high the upper limit of that share
   */
  public record Point(double confidence, double right, double low, double high) {}

  /** Copies the list. */
  public ReliabilityPlot {
    points = List.copyOf(points);
  }

  /** Returns the plot. */
  public String svg() {
    Svg svg = new Svg(LEFT + SIDE + 20.0, TOP + SIDE + 44.0, label);
    for (int step = 0; step <= 4; step++) {
      double value = step / 4.0;
      svg.line("grid", x(value), y(0), x(value), y(1));
      svg.line("grid", x(0), y(value), x(1), y(value));
      String figure = String.format(Locale.ROOT, "%.2f", value);
      svg.text("middle", x(value), y(0) + 16, figure);
      svg.text("end", x(0) - 6, y(value) + 4, figure);
    }
    svg.text("middle", x(0.5), y(0) + 36, "confidence (across), share right (upwards)");
    svg.line("mark", x(0), y(0), x(1), y(1));
    for (Point point : points) {
      svg.line(
          "interval",
          x(point.confidence()),
          y(point.low()),
          x(point.confidence()),
          y(point.high()));
      svg.dot("value", x(point.confidence()), y(point.right()), 4);
    }
    return svg.end();
  }

  private static double x(double value) {
    return LEFT + SIDE * value;
  }

  private static double y(double value) {
    return TOP + SIDE * (1 - value);
  }
}
