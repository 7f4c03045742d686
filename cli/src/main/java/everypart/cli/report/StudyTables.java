package everypart.cli.report;

import static everypart.cli.report.StudyFigures.DASH;
import static everypart.cli.report.StudyFigures.figure;
import static everypart.cli.report.StudyFigures.interval;
import static everypart.cli.report.StudyFigures.ratio;
import static everypart.cli.report.StudyFigures.share;
import static everypart.cli.report.StudyFigures.to;

import everypart.analyzer.coverage.Verdict;
import everypart.analyzer.study.Dimension;
import everypart.analyzer.study.StudySummary;
import everypart.analyzer.study.agreement.Agreement;
import everypart.analyzer.study.agreement.ReliabilityCurve;
import everypart.analyzer.study.statistics.Level;
import everypart.analyzer.study.statistics.Method;
import everypart.cli.report.StudyPage.Table;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.BiPredicate;
import java.util.function.Function;

/** The tables of a study's report, each by its columns. */
final class StudyTables {
  private StudyTables() {}

  /** A pair of coders in the section of its kind. */
  record KindPair(String kind, Agreement.Pair pair) {}

  /** A file that the study rests on. */
  record Basis(String what, StudyLog.Checked file) {}

  /** Makes a column; one whose name is empty has nothing above it. */
  private static <T> Column<T> column(String name, Function<T, String> value) {
    return new Column<>(name.isEmpty() ? "" : Wording.of("study.head." + name), value);
  }

  private static <T> Column<T> count(String name, Function<T, Number> value) {
    return column(name, row -> String.valueOf(value.apply(row)));
  }

  /** A column of what may not be there. */
  private static <T, F> Column<T> figureOf(
      String name, Function<T, Optional<F>> value, Function<F, String> words) {
    return column(name, row -> value.apply(row).map(words).orElse(DASH));
  }

  /** The columns of a method: in words, and its warning. */
  private static <T> List<Column<T>> method(Function<T, Method> method) {
    return List.of(
        column("method", row -> named(method.apply(row))),
        column("", row -> method.apply(row).warning().orElse("")));
  }

  private static String named(Method method) {
    return method.name() == Method.Name.NONE
        ? DASH
        : method.name().label()
            + method
                .degreesOfFreedom()
                .map(df -> Wording.of("study.df", "degrees", figure(df, 1)))
                .orElse("");
  }

  /** The columns of how many demands have each verdict. */
  private static <T> List<Column<T>> verdicts(Function<T, Map<Verdict, Long>> verdicts) {
    return List.of(
        count("missing", row -> verdicts.apply(row).getOrDefault(Verdict.MISSING, 0L)),
        count("partly", row -> verdicts.apply(row).getOrDefault(Verdict.PARTLY, 0L)),
        count("addressed", row -> verdicts.apply(row).getOrDefault(Verdict.ADDRESSED, 0L)),
        count("unchecked", row -> verdicts.apply(row).getOrDefault(Verdict.UNCHECKED, 0L)));
  }

  /** The column that says whether a comparison was planned, where there is a plan. */
  private static <T> List<Column<T>> role(Optional<Planned> planned, BiPredicate<Planned, T> is) {
    return planned
        .map(
            plan ->
                List.of(
                    new Column<T>(
                        Wording.of("planned.head"), row -> Planned.role(is.test(plan, row)))))
        .orElse(List.of());
  }

  static Table levels(List<StudySummary.ClusterLevel> levels) {
    return Table.of(
        Wording.of("study.table.clusters"),
        List.of(
            column("", StudySummary.ClusterLevel::column),
            count("clusters", StudySummary.ClusterLevel::clusters),
            figureOf(
                "designEffect", StudySummary.ClusterLevel::designEffect, deff -> figure(deff, 2)),
            figureOf(
                "likeness", StudySummary.ClusterLevel::likeness, likeness -> figure(likeness, 3))),
        levels);
  }

  /** Returns what the figures of a rate are called. */
  static String name(StudySummary.Rate rate) {
    if (rate.dimension() == Dimension.ALL) {
      return Wording.of("study.allDemands");
    }
    return rate.value().isEmpty() ? rate.name() : rate.value();
  }

  static Table rates(List<StudySummary.Rate> rates) {
    List<Column<StudySummary.Rate>> columns = new ArrayList<>();
    columns.add(column("", StudyTables::name));
    columns.addAll(verdicts(StudySummary.Rate::verdicts));
    columns.add(
        figureOf("omissionRate", StudySummary.Rate::missing, missing -> share(missing.rate())));
    columns.add(figureOf("wilson", StudySummary.Rate::wilson, StudyFigures::interval));
    columns.add(figureOf("clustered", StudySummary.Rate::clustered, StudyFigures::interval));
    columns.add(figureOf("designEffect", StudySummary.Rate::designEffect, deff -> figure(deff, 2)));
    columns.add(count("clusters", StudySummary.Rate::clusters));
    columns.addAll(method(StudySummary.Rate::method));
    return Table.of(Wording.of("study.table.rates"), columns, rates);
  }

  /** Returns what a comparison of groups is called. */
  static String name(StudySummary.GroupComparison one) {
    return one.kind().map(kind -> kind.word() + ": ").orElse("")
        + Wording.of("study.less", "first", one.first(), "second", one.second());
  }

  static Table comparisons(
      List<StudySummary.GroupComparison> comparisons, Optional<Planned> planned) {
    List<Column<StudySummary.GroupComparison>> columns = new ArrayList<>();
    columns.add(column("", StudyTables::name));
    columns.add(column("first", one -> share(one.rates().first().rate())));
    columns.add(column("second", one -> share(one.rates().second().rate())));
    columns.add(
        figureOf("difference", StudySummary.GroupComparison::difference, StudyFigures::estimate));
    columns.add(
        figureOf("oddsRatio", StudySummary.GroupComparison::oddsRatio, StudyFigures::ratio));
    columns.add(figureOf("test", StudySummary.GroupComparison::clusteredTest, StudyFigures::test));
    columns.add(figureOf("holm", StudySummary.GroupComparison::holm, StudyFigures::probability));
    columns.addAll(method(StudySummary.GroupComparison::method));
    columns.add(figureOf("alone", StudySummary.GroupComparison::test, StudyFigures::test));
    columns.addAll(role(planned, Planned::is));
    return Table.of(Wording.of("study.table.differences"), columns, comparisons);
  }

  static Table together(List<StudySummary.CoOmission> pairs) {
    return Table.of(
        Wording.of("study.table.pairs"),
        List.of(
            column(
                "prompt", one -> one.prompt().isEmpty() ? Wording.of("study.all") : one.prompt()),
            column("first", StudySummary.CoOmission::first),
            column("second", StudySummary.CoOmission::second),
            count("bothOpen", StudySummary.CoOmission::both),
            count("onlyFirst", StudySummary.CoOmission::onlyFirst),
            count("onlySecond", StudySummary.CoOmission::onlySecond),
            count("neither", StudySummary.CoOmission::neither),
            figureOf("phi", StudySummary.CoOmission::phi, phi -> figure(phi, 2)),
            figureOf("lift", StudySummary.CoOmission::lift, lift -> figure(lift, 2))),
        pairs);
  }

  static String name(StudySummary.Change one) {
    return one.kind().map(kind -> kind.word()).orElse(Wording.of("study.allDemands"));
  }

  static Table changes(List<StudySummary.Change> changes, Optional<Planned> planned) {
    List<Column<StudySummary.Change>> columns = new ArrayList<>();
    columns.add(column("", StudyTables::name));
    columns.add(count("openInBoth", one -> one.counts().both()));
    columns.add(count("closed", one -> one.counts().before()));
    columns.add(count("opened", one -> one.counts().after()));
    columns.add(count("openInNeither", one -> one.counts().neither()));
    columns.add(figureOf("change", StudySummary.Change::change, StudyFigures::estimate));
    columns.add(figureOf("test", StudySummary.Change::test, StudyFigures::test));
    columns.add(figureOf("holm", StudySummary.Change::holm, StudyFigures::probability));
    columns.addAll(method(StudySummary.Change::method));
    columns.addAll(role(planned, Planned::is));
    return Table.of(Wording.of("study.table.demands"), columns, changes);
  }

  static String name(StudySummary.Correction one) {
    return one.kind().map(kind -> kind.word()).orElse(Wording.of("study.allDemands"));
  }

  static Table corrections(List<StudySummary.Correction> corrections) {
    return Table.of(
        Wording.of("study.table.corrected"),
        List.of(
            column("", StudyTables::name),
            column("asCounted", one -> share(one.apparent().rate())),
            figureOf(
                "sensitivity", StudySummary.Correction::sensitivity, rate -> share(rate.rate())),
            figureOf(
                "specificity", StudySummary.Correction::specificity, rate -> share(rate.rate())),
            figureOf("corrected", StudySummary.Correction::corrected, StudyFigures::estimate),
            column("", one -> one.statement().orElse(""))),
        corrections);
  }

  static Table agreement(List<KindPair> pairs) {
    return Table.of(
        Wording.of("study.table.agreement"),
        List.of(
            column("kind", KindPair::kind),
            column("first", one -> one.pair().first()),
            column("second", one -> one.pair().second()),
            count("demands", one -> one.pair().table().total()),
            figureOf("alike", one -> one.pair().agreement(), alike -> share(alike.value())),
            figureOf("kappa", one -> one.pair().kappa(), kappa -> ratio(kappa.estimate())),
            figureOf("alpha", one -> one.pair().alpha(), StudyFigures::ratio),
            figureOf("ac1", one -> one.pair().ac1(), ac1 -> ratio(ac1.estimate())),
            figureOf("precision", one -> one.pair().missing().precision(), StudyFigures::estimate),
            figureOf("recall", one -> one.pair().missing().recall(), StudyFigures::estimate),
            figureOf("f1", one -> one.pair().missing().f1(), f1 -> figure(f1.value(), 2)),
            column(
                "method",
                one ->
                    Wording.of(
                        "study.pair.clusters",
                        "method",
                        one.pair().method().name().label(),
                        "n",
                        one.pair().method().clusters())),
            column("", one -> one.pair().method().warning().orElse(""))),
        pairs);
  }

  static Table errors(List<Agreement.GroupErrors> errors) {
    return Table.of(
        Wording.of("study.table.errors"),
        List.of(
            column("", Agreement.GroupErrors::value),
            count("coded", Agreement.GroupErrors::coded),
            figureOf("overlooked", Agreement.GroupErrors::overlooked, StudyFigures::estimate),
            figureOf("falseAlarms", Agreement.GroupErrors::falseAlarms, StudyFigures::estimate),
            figureOf("tilt", Agreement.GroupErrors::tilt, StudyFigures::points)),
        errors);
  }

  static Table basis(List<Basis> files) {
    return Table.of(
        Wording.of("study.table.files"),
        List.of(
            column("what", Basis::what),
            column("file", one -> one.file().name()),
            figureOf("sum", one -> Optional.ofNullable(one.file().sha256()), sum -> sum)),
        files);
  }

  static Table reliability(List<ReliabilityCurve.Bin> bins, Level level) {
    return Table.of(
        Wording.of("study.table.reliability"),
        List.of(
            column("confidence", bin -> to(figure(bin.low(), 1), figure(bin.high(), 1))),
            count("verdicts", bin -> bin.right().total()),
            column("meanConfidence", bin -> figure(bin.meanConfidence(), 3)),
            column("shareRight", bin -> figure(bin.right().rate(), 3)),
            column("interval", bin -> interval(bin.right().wilson(level)))),
        bins);
  }

  static Table counts(List<StudySummary.DemandCounts> demands) {
    List<Column<StudySummary.DemandCounts>> columns = new ArrayList<>();
    columns.add(column("part", StudySummary.DemandCounts::part));
    columns.add(
        column(
            "demand",
            demand -> demand.number() + " " + demand.kind().word() + " (" + demand.verb() + ")"));
    columns.addAll(verdicts(StudySummary.DemandCounts::verdicts));
    columns.add(count("look", StudySummary.DemandCounts::look));
    return Table.of(Wording.of("study.table.counts"), columns, demands);
  }
}
