package everypart.cli.report;

import everypart.analyzer.study.statistics.Estimate;
import everypart.analyzer.study.statistics.Interval;
import everypart.analyzer.study.statistics.SignificanceTest;
import java.util.Locale;

/** Figures of a study as its report writes them for people. */
final class StudyFigures {
  /** What stands where there is no figure. */
  static final String DASH = "\u2013";

  private StudyFigures() {}

  static String figure(double value, int digits) {
    return String.format(Locale.ROOT, "%." + digits + "f", value);
  }

  static String share(double rate) {
    return figure(100 * rate, 1) + " %";
  }

  static String interval(Interval interval) {
    return to(figure(100 * interval.low(), 1), share(interval.high()));
  }

  static String estimate(Estimate estimate) {
    return share(estimate.value()) + " (" + interval(estimate.interval()) + ")";
  }

  static String ratio(Estimate estimate) {
    return figure(estimate.value(), 2)
        + " ("
        + to(figure(estimate.interval().low(), 2), figure(estimate.interval().high(), 2))
        + ")";
  }

  static String probability(double p) {
    return p < 0.0001 ? "< 0.0001" : figure(p, 4);
  }

  static String degrees(double degrees) {
    return degrees == Math.rint(degrees) ? figure(degrees, 0) : figure(degrees, 1);
  }

  static String test(SignificanceTest test) {
    String p = (test.p() < 0.0001 ? "" : "= ") + probability(test.p());
    String name = test.name().label();
    return test.statistic()
        .map(
            found ->
                Wording.of(
                    "study.test.statistic",
                    "name",
                    name,
                    "statistic",
                    figure(found, 2),
                    "degrees",
                    degrees(test.degreesOfFreedom()),
                    "p",
                    p))
        .orElse(Wording.of("study.test", "name", name, "p", p));
  }

  static String points(Estimate estimate) {
    return Wording.of(
        "study.points",
        "value",
        figure(100 * estimate.value(), 1),
        "limits",
        limits(estimate.interval()));
  }

  static String to(String low, String high) {
    return Wording.of("study.to", "low", low, "high", high);
  }

  static String limits(Interval interval) {
    return to(figure(100 * interval.low(), 1), figure(100 * interval.high(), 1));
  }
}
