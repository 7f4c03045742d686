package everypart.cli.report;

import static everypart.cli.report.StudyFigures.figure;
import static everypart.cli.report.StudyFigures.ratio;
import static everypart.cli.report.StudyFigures.share;

import everypart.analyzer.study.agreement.Agreement;
import everypart.analyzer.study.agreement.ReliabilityCurve;
import everypart.analyzer.study.statistics.Interval;
import everypart.analyzer.study.statistics.Level;
import everypart.analyzer.study.statistics.Proportion;
import everypart.cli.report.StudyPage.Plot;
import everypart.cli.report.StudyPage.Section;
import everypart.cli.report.plot.ReliabilityPlot;
import java.util.ArrayList;
import java.util.List;

/** The sections of a study's report that set the program beside people's codes. */
final class StudyAgreement {
  /** So many figures are told in sentences; the table has the rest. */
  static final int MOST_NOTES = 6;

  private StudyAgreement() {}

  static Section agreement(Agreement found) {
    List<String> notes = new ArrayList<>();
    List<StudyTables.KindPair> pairs = new ArrayList<>();
    for (Agreement.Section section : found.sections()) {
      String kind = section.kind().map(one -> one.word()).orElse(Wording.of("study.all"));
      for (Agreement.Pair pair : section.pairs()) {
        pairs.add(new StudyTables.KindPair(kind, pair));
        if (section.kind().isEmpty() && notes.size() < MOST_NOTES) {
          notes.add(sentence(pair));
        }
      }
    }
    return new Section(
        Wording.of("study.agreement.title"),
        notes,
        List.of(),
        List.of(StudyTables.agreement(pairs)));
  }

  /** Returns the program's errors in the groups of a column. */
  static Section errors(Agreement agreement, String column) {
    List<String> notes = new ArrayList<>();
    for (Agreement.GroupTilt one : agreement.tiltsBy(column)) {
      one.warning().ifPresent(words -> notes.add("(!) " + words));
      one.method().warning().ifPresent(words -> notes.add("(!) " + words));
    }
    if (notes.isEmpty()) {
      notes.add(Wording.of("study.errors.same"));
    }
    return new Section(
        Wording.of("study.errors.title", "column", column),
        notes.subList(0, Math.min(MOST_NOTES, notes.size())),
        List.of(),
        List.of(StudyTables.errors(agreement.errorsBy(column))));
  }

  static Section reliability(ReliabilityCurve curve, Level level) {
    List<ReliabilityPlot.Point> points = new ArrayList<>();
    for (ReliabilityCurve.Bin bin : curve.bins()) {
      Proportion right = bin.right();
      Interval interval = right.wilson(level);
      points.add(
          new ReliabilityPlot.Point(
              bin.meanConfidence(), right.rate(), interval.low(), interval.high()));
    }
    String score =
        curve.brier().map(brier -> Wording.of("study.brier", "score", figure(brier, 4))).orElse("")
            + curve
                .calibrationError()
                .map(error -> Wording.of("study.calibration", "error", figure(error, 4)))
                .orElse("");
    return new Section(
        Wording.of("study.reliability.title"),
        score,
        List.of(
            new Plot(
                Wording.of("study.reliability.caption"),
                new ReliabilityPlot(Wording.of("study.reliability.plot"), points).svg())),
        List.of(StudyTables.reliability(curve.bins(), level)));
  }

  private static String sentence(Agreement.Pair pair) {
    return Wording.of(
            "study.pair",
            "first",
            pair.first(),
            "second",
            pair.second(),
            "alike",
            pair.agreement()
                .map(
                    alike ->
                        Wording.of(
                            "study.pair.alike",
                            "share",
                            share(alike.value()),
                            "total",
                            pair.table().total()))
                .orElse(Wording.of("study.pair.none")),
            "kappa",
            pair.kappa()
                .map(kappa -> Wording.of("study.pair.kappa", "figure", ratio(kappa.estimate())))
                .orElse(""),
            "ac1",
            pair.ac1()
                .map(ac1 -> Wording.of("study.pair.ac1", "figure", ratio(ac1.estimate())))
                .orElse(""))
        + pair.method().warning().map(words -> " " + words).orElse("");
  }
}
