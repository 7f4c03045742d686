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
  private static final List<Column<Row>> COLUMNS = columns();

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
    row(Column.heads(COLUMNS));
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
    row(Column.cells(COLUMNS, new Row(Optional.of(pair), Optional.empty())));
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
    row(Column.cells(COLUMNS, new Row(Optional.empty(), Optional.of(people))));
  }

  private void row(List<String> cells) {
    out.printf(
        Locale.ROOT, "%-34s %6s  %-22s %-25s %-22s %-22s %-22s %-22s %6s%n", cells.toArray());
  }

  /** What a row is about: two coders, or all people. */
  private record Row(Optional<Agreement.Pair> pair, Optional<Agreement.People> people) {}

  private static Column<Row> column(
      String head,
      Function<Agreement.Pair, String> ofPair,
      Function<Agreement.People, String> ofPeople) {
    return new Column<>(
        head.isEmpty() ? "" : Wording.of("agree.head." + head),
        row -> row.pair().map(ofPair).or(() -> row.people().map(ofPeople)).orElse(""));
  }

  private static List<Column<Row>> columns() {
    return List.of(
        column(
            "",
            pair -> "  " + Wording.of("agree.pair", "first", pair.first(), "second", pair.second()),
            people -> "  " + Wording.of("agree.people", "n", people.coders())),
        column(
            "n",
            pair -> String.valueOf(pair.table().total()),
            people -> String.valueOf(people.demands())),
        column("agreement", pair -> share(pair.agreement()), people -> ""),
        column(
            "kappa",
            pair ->
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
            people -> ""),
        column(
            "ac1",
            pair -> share(pair.ac1().map(found -> found.estimate())),
            people -> share(people.ac1().map(found -> found.estimate()))),
        column("alpha", pair -> share(pair.alpha()), people -> share(people.alpha())),
        column("precision", pair -> share(pair.missing().precision()), people -> ""),
        column("recall", pair -> share(pair.missing().recall()), people -> ""),
        column(
            "f1",
            pair -> pair.missing().f1().map(f1 -> figure("%.3f", f1.value())).orElse("-"),
            people -> ""));
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
