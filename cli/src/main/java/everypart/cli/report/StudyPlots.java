package everypart.cli.report;

import static everypart.cli.report.StudyFigures.points;

import everypart.analyzer.study.statistics.Estimate;
import everypart.cli.report.plot.IntervalPlot;
import java.util.List;

/** The drawings of intervals in the report of a study. */
final class StudyPlots {
  /** A plot shows so many values at most; the table beside it and summary.json have them all. */
  static final int MOST_PLOTTED = 40;

  private StudyPlots() {}

  /** Returns a plot with intervals, with a mark at 0. */
  static StudyPage.Plot plot(
      String caption, double low, double high, List<IntervalPlot.Line> lines) {
    return new StudyPage.Plot(
        caption,
        new IntervalPlot(
                caption, low, high, 0, lines.subList(0, Math.min(MOST_PLOTTED, lines.size())))
            .svg());
  }

  /** Returns a plot of differences, with a scale as wide as they need. */
  static StudyPage.Plot differences(String caption, List<IntervalPlot.Line> lines) {
    double farthest =
        lines.stream()
            .mapToDouble(line -> Math.max(Math.abs(line.low()), Math.abs(line.high())))
            .max()
            .orElse(1);
    double reach = farthest <= 0.2 ? 0.2 : farthest <= 0.4 ? 0.4 : farthest <= 0.6 ? 0.6 : 1;
    return plot(caption, -reach, reach, lines);
  }

  static IntervalPlot.Line line(String name, Estimate estimate) {
    return new IntervalPlot.Line(
        name,
        estimate.value(),
        estimate.interval().low(),
        estimate.interval().high(),
        points(estimate));
  }
}
