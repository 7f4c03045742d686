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
    out.printf(
        Locale.ROOT,
        "Codes are 1 addressed, 0 missing. Figures with their %.0f %% intervals; a dash where there is"
            + " nothing to count.%n%n",
        level.value() * 100);
    if (agreement.drawn()) {
      out.printf(
          Locale.ROOT,
          "The demands are a sample: figures are weighted to stand for the whole set, the tables of"
              + " codes are not.%n%n");
    }
    out.printf(
        Locale.ROOT,
        ROW,
        "",
        "n",
        "agreement",
        "kappa (standard error)",
        "AC1",
        "alpha",
        "missing: precision",
        "missing: recall",
        "F1");
    for (Agreement.Section section : agreement.sections()) {
      String name = section.kind().map(kind -> kind.word()).orElse("all demands");
      out.printf(Locale.ROOT, "%n%s: %d coded", name, section.coded());
      if (section.tied() > 0) {
        out.printf(Locale.ROOT, ", %d of them tied between coders", section.tied());
      }
      if (section.unchecked() > 0) {
        out.printf(Locale.ROOT, ", %d left unchecked by the program", section.unchecked());
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
        "  " + pair.first() + " and " + pair.second(),
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
    out.printf(
        Locale.ROOT,
        "    intervals: %s over %d%s%n",
        pair.method().name().label(),
        pair.method().clusters(),
        pair.method().warning().map(words -> "; " + words).orElse(""));
  }

  private void line(Agreement.People people) {
    out.printf(
        Locale.ROOT,
        ROW,
        "  all " + people.coders() + " people",
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
    out.printf(Locale.ROOT, "%nCodes against codes, over all demands%n");
    for (Agreement.Pair pair : pairs) {
      List<List<Long>> counts = pair.table().counts();
      out.printf(
          Locale.ROOT,
          "  %s (rows), %s (columns): missing %d %d, addressed %d %d%n",
          pair.first(),
          pair.second(),
          counts.get(0).get(0),
          counts.get(0).get(1),
          counts.get(1).get(0),
          counts.get(1).get(1));
    }
  }

  private void groups(Agreement agreement, String column) {
    out.printf(Locale.ROOT, "%nThe program's errors by %s, against the majority%n", column);
    for (Agreement.GroupErrors one : agreement.errorsBy(column)) {
      out.printf(
          Locale.ROOT,
          "  %s: %d coded; missing ones overlooked %s; addressed ones called missing %s%n",
          one.value(),
          one.coded(),
          share(one.overlooked()),
          share(one.falseAlarms()));
    }
    for (Agreement.GroupTilt one : agreement.tiltsBy(column)) {
      one.tilt()
          .ifPresent(
              tilt ->
                  out.printf(
                      Locale.ROOT,
                      "  %s less %s: the program adds %.1f points (%.1f to %.1f) to the difference%n",
                      one.first(),
                      one.second(),
                      100 * tilt.value(),
                      100 * tilt.interval().low(),
                      100 * tilt.interval().high()));
      one.warning().ifPresent(words -> out.println("    (!) " + words));
      one.method().warning().ifPresent(words -> out.println("    (!) " + words));
    }
  }

  private void unsettled(
      List<CodedDemand> demands, Function<CodedDemand, Disagreement> describe, int most) {
    if (demands.isEmpty()) {
      return;
    }
    out.printf(
        Locale.ROOT,
        "%nWhere coders differ and nobody has settled it: %d (--settle FILE writes a sheet)%s%n",
        demands.size(),
        demands.size() > most ? ", the first " + most + " here" : "");
    for (CodedDemand demand : demands.subList(0, Math.min(most, demands.size()))) {
      out.printf(
          Locale.ROOT,
          "  %s, part %s, demand %d (%s): %s%n",
          demand.responseId(),
          demand.part(),
          demand.demand(),
          demand.kind().word(),
          describe.apply(demand).people());
    }
  }

  private void curve(ReliabilityCurve curve) {
    out.printf(Locale.ROOT, "%nIs the program right as often as its confidence says?%n");
    for (ReliabilityCurve.Bin bin : curve.bins()) {
      out.printf(
          Locale.ROOT,
          "  confidence %.1f to %.1f: %5d verdicts, mean confidence %.3f, right %s%n",
          bin.low(),
          bin.high(),
          bin.right().total(),
          bin.meanConfidence(),
          share(Optional.of(new Estimate(bin.right().rate(), bin.right().wilson(level)))));
    }
    curve.brier().ifPresent(score -> out.printf(Locale.ROOT, "  Brier score %.4f%n", score));
    curve
        .calibrationError()
        .ifPresent(error -> out.printf(Locale.ROOT, "  calibration error %.4f%n", error));
  }

  private void list(
      List<CodedDemand> demands, Function<CodedDemand, Disagreement> describe, int most) {
    out.printf(
        Locale.ROOT,
        "%nWhere program and people differ: %d%s%n",
        demands.size(),
        demands.size() > most ? ", the first " + most + " here" : "");
    for (CodedDemand demand : demands.subList(0, Math.min(most, demands.size()))) {
      Disagreement one = describe.apply(demand);
      out.printf(
          Locale.ROOT,
          "  %s, part %s, demand %d (%s): program %s at %.2f, people %s%n",
          demand.responseId(),
          demand.part(),
          demand.demand(),
          demand.kind().word(),
          demand.verdict().word(),
          demand.confidence(),
          one.people());
      one.why().forEach(why -> out.println("    why: " + Words.oneLine(why)));
      one.quotes().forEach(quote -> out.println("    relied on: " + Words.oneLine(quote)));
      one.text().ifPresent(text -> out.println("    text: " + Words.oneLine(text)));
    }
  }

  private static String share(Optional<Estimate> share) {
    return share.map(AgreementText::estimate).orElse("-");
  }

  private static String estimate(Estimate estimate) {
    return String.format(Locale.ROOT, "%.3f %s", estimate.value(), interval(estimate.interval()));
  }

  private static String interval(Interval interval) {
    return String.format(Locale.ROOT, "%.2f to %.2f", interval.low(), interval.high());
  }
}
