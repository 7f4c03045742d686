package everypart.cli.report;

import everypart.analyzer.study.agreement.Agreement;
import everypart.analyzer.study.agreement.CodedDemand;
import everypart.analyzer.study.agreement.ReliabilityCurve;
import everypart.analyzer.study.statistics.Estimate;
import everypart.analyzer.study.statistics.Interval;
import everypart.analyzer.study.statistics.Level;
import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;

/** Agreement as a table for people. */
public final class AgreementText {
  private static final String ROW = "%-34s %6s  %-22s %-25s %-22s %-22s %-22s %-22s %6s%n";

  private final PrintWriter out;
  private final Level level;

  /** Makes a renderer. */
  public AgreementText(PrintWriter out, Level level) {
    this.out = out;
    this.level = level;
  }

  /**
   * Writes the figures.
   *
   * @param by columns by which the program's errors are told apart
   * @param describe returns what is known of a demand, for the list of disagreements
   * @param most how many disagreements are listed
   */
  public void write(
      Agreement agreement,
      List<String> by,
      Function<CodedDemand, Disagreement> describe,
      int most) {
    out.println(Wording.of("agree.codes", "percent", figure("%.0f", level.value() * 100)));
    out.println();
    if (agreement.drawn()) {
      out.println(Wording.of("agree.sample"));
      out.println();
    }
    out.printf(
        Locale.ROOT,
        ROW,
        "",
        Wording.of("agree.head.n"),
        Wording.of("agree.head.agreement"),
        Wording.of("agree.head.kappa"),
        Wording.of("agree.head.ac1"),
        Wording.of("agree.head.alpha"),
        Wording.of("agree.head.precision"),
        Wording.of("agree.head.recall"),
        Wording.of("agree.head.f1"));
    for (Agreement.Section section : agreement.sections()) {
      String name = section.kind().map(kind -> kind.word()).orElse(Wording.of("study.allDemands"));
      out.println();
      out.print(Wording.of("agree.section", "kind", name, "n", section.coded()));
      if (section.tied() > 0) {
        out.print(Wording.of("agree.tied", "n", section.tied()));
      }
      if (section.unchecked() > 0) {
        out.print(Wording.of("agree.unchecked", "n", section.unchecked()));
      }
      out.println();
      section.pairs().forEach(this::line);
      section.people().ifPresent(this::line);
    }
    tables(agreement.sections().get(0).pairs());
    by.forEach(column -> groups(agreement, column));
    curve(agreement.reliability());
    unsettled(agreement.unsettled(), describe, most);
    list(agreement.disagreements(), describe, most);
    out.flush();
  }

  private void line(Agreement.Pair pair) {
    out.printf(
        Locale.ROOT,
        ROW,
        "  " + Wording.of("agree.pair", "first", pair.first(), "second", pair.second()),
        pair.table().total(),
        share(pair.agreement()),
        pair.kappa()
            .map(
                kappa ->
                    String.format(
                        Locale.ROOT,
                        "%.3f (%.3f) %s",
                        kappa.estimate().value(),
                        kappa.standardError(),
                        interval(kappa.estimate().interval())))
            .orElse("-"),
        pair.ac1().map(found -> estimate(found.estimate())).orElse("-"),
        pair.alpha().map(AgreementText::estimate).orElse("-"),
        share(pair.missing().precision()),
        share(pair.missing().recall()),
        pair.missing().f1().map(f1 -> String.format(Locale.ROOT, "%.3f", f1.value())).orElse("-"));
    out.println(
        "    "
            + Wording.of(
                "agree.intervals",
                "method",
                pair.method().name().label(),
                "n",
                pair.method().clusters(),
                "warning",
                pair.method().warning().map(words -> "; " + words).orElse("")));
  }

  private void line(Agreement.People people) {
    out.printf(
        Locale.ROOT,
        ROW,
        "  " + Wording.of("agree.people", "n", people.coders()),
        people.demands(),
        "",
        "",
        people.ac1().map(found -> estimate(found.estimate())).orElse("-"),
        people.alpha().map(AgreementText::estimate).orElse("-"),
        "",
        "",
        "");
  }

  private void tables(List<Agreement.Pair> pairs) {
    section("agree.tables");
    for (Agreement.Pair pair : pairs) {
      List<List<Long>> counts = pair.table().counts();
      line(
          "agree.table",
          "first",
          pair.first(),
          "second",
          pair.second(),
          "both",
          counts.get(0).get(0),
          "onlyFirst",
          counts.get(0).get(1),
          "onlySecond",
          counts.get(1).get(0),
          "neither",
          counts.get(1).get(1));
    }
  }

  private void groups(Agreement agreement, String column) {
    section("agree.errors", "column", column);
    for (Agreement.GroupErrors one : agreement.errorsBy(column)) {
      line(
          "agree.errors.group",
          "group",
          one.value(),
          "n",
          one.coded(),
          "overlooked",
          share(one.overlooked()),
          "alarms",
          share(one.falseAlarms()));
    }
    for (Agreement.GroupTilt one : agreement.tiltsBy(column)) {
      one.tilt()
          .ifPresent(
              tilt ->
                  line(
                      "agree.tilt",
                      "first",
                      one.first(),
                      "second",
                      one.second(),
                      "points",
                      figure("%.1f", 100 * tilt.value()),
                      "low",
                      figure("%.1f", 100 * tilt.interval().low()),
                      "high",
                      figure("%.1f", 100 * tilt.interval().high())));
      one.warning().ifPresent(words -> out.println("    (!) " + words));
      one.method().warning().ifPresent(words -> out.println("    (!) " + words));
    }
  }

  private void unsettled(
      List<CodedDemand> demands, Function<CodedDemand, Disagreement> describe, int most) {
    if (demands.isEmpty()) {
      return;
    }
    section("agree.unsettled", "n", demands.size(), "first", first(demands, most));
    for (CodedDemand demand : demands.subList(0, Math.min(most, demands.size()))) {
      line(
          "agree.unsettled.one",
          "response",
          demand.responseId(),
          "part",
          demand.part(),
          "demand",
          demand.demand(),
          "kind",
          demand.kind().word(),
          "codes",
          describe.apply(demand).people());
    }
  }

  private void curve(ReliabilityCurve curve) {
    section("study.reliability.title");
    for (ReliabilityCurve.Bin bin : curve.bins()) {
      line(
          "agree.bin",
          "low",
          figure("%.1f", bin.low()),
          "high",
          figure("%.1f", bin.high()),
          "n",
          String.format(Locale.ROOT, "%5d", bin.right().total()),
          "mean",
          figure("%.3f", bin.meanConfidence()),
          "right",
          share(Optional.of(new Estimate(bin.right().rate(), bin.right().wilson(level)))));
    }
    curve.brier().ifPresent(score -> line("agree.brier", "score", figure("%.4f", score)));
    curve
        .calibrationError()
        .ifPresent(error -> line("agree.calibration", "error", figure("%.4f", error)));
  }

  private void list(
      List<CodedDemand> demands, Function<CodedDemand, Disagreement> describe, int most) {
    section("agree.differ", "n", demands.size(), "first", first(demands, most));
    for (CodedDemand demand : demands.subList(0, Math.min(most, demands.size()))) {
      Disagreement one = describe.apply(demand);
      line(
          "agree.differ.one",
          "response",
          demand.responseId(),
          "part",
          demand.part(),
          "demand",
          demand.demand(),
          "kind",
          demand.kind().word(),
          "verdict",
          demand.verdict().word(),
          "confidence",
          figure("%.2f", demand.confidence()),
          "codes",
          one.people());
      one.why().forEach(why -> detail("agree.why", why));
      one.quotes().forEach(quote -> detail("agree.reliedOn", quote));
      one.text().ifPresent(text -> detail("agree.text", text));
    }
  }

  /** Writes what stands over a list, after an empty line. */
  private void section(String key, Object... filling) {
    out.println();
    out.println(Wording.of(key, filling));
  }

  /** Writes an entry of a list. */
  private void line(String key, Object... filling) {
    out.println("  " + Wording.of(key, filling));
  }

  private void detail(String key, String words) {
    out.println("    " + Wording.of(key, "words", Words.oneLine(words)));
  }

  private static String first(List<CodedDemand> demands, int most) {
    return demands.size() > most ? Wording.of("agree.first", "most", most) : "";
  }

  private static String figure(String format, double value) {
    return String.format(Locale.ROOT, format, value);
  }

  private static String share(Optional<Estimate> share) {
    return share.map(AgreementText::estimate).orElse("-");
  }

  private static String estimate(Estimate estimate) {
    return String.format(Locale.ROOT, "%.3f %s", estimate.value(), interval(estimate.interval()));
  }

  private static String interval(Interval interval) {
    return Wording.of(
        "study.to", "low", figure("%.2f", interval.low()), "high", figure("%.2f", interval.high()));
  }
}
