package everypart.cli.report;

import everypart.analyzer.coverage.Verdict;
import everypart.analyzer.study.Dimension;
import everypart.analyzer.study.StudySummary;
import everypart.analyzer.study.agreement.Agreement;
import everypart.analyzer.study.agreement.ReliabilityCurve;
import everypart.analyzer.study.statistics.Estimate;
import everypart.analyzer.study.statistics.Interval;
import everypart.analyzer.study.statistics.Method;
import everypart.analyzer.study.statistics.Proportion;
import everypart.analyzer.study.statistics.SignificanceTest;
import everypart.cli.report.plot.IntervalPlot;
import everypart.cli.report.plot.PairMap;
import everypart.cli.report.plot.ReliabilityPlot;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Stream;

/** The report of a study as one self-contained HTML file: {@code report.html}. */
public final class StudyHtml {
  /** A plot shows so many values at most; the table beside it and summary.json have them all. */
  private static final int MOST_PLOTTED = 40;

  /** A map of more things than this cannot be read. */
  private static final int MOST_MAPPED = 14;

  /** So many figures are told in sentences; the table has the rest. */
  private static final int MOST_NOTES = 6;

  private static final String DASH = "\u2013";

  private final StudyLog log;
  private final StudySummary summary;
  private final Optional<Agreement> agreement;

  private StudyHtml(StudyLog log, StudySummary summary, Optional<Agreement> agreement) {
    this.log = log;
    this.summary = summary;
    this.agreement = agreement;
  }

  /** A table as the page shows it. */
  record Table(String caption, List<String> head, List<List<String>> rows) {}

  /** A plot and what it shows. */
  record Plot(String caption, String svg) {}

  /** A section: plots first, then their figures as tables. */
  record Section(String title, List<String> note, List<Plot> plots, List<Table> tables) {
    Section(String title, String note, List<Plot> plots, List<Table> tables) {
      this(title, note.isBlank() ? List.of() : List.of(note), plots, tables);
    }
  }

  /** The page. */
  record Page(
      String title,
      String summary,
      List<Section> sections,
      List<String> notes,
      List<String> methods,
      List<String> references,
      List<String> problems,
      boolean troubled,
      List<Doubts.Section> doubtful,
      String caution,
      String judge) {}

  /**
   * Returns the page.
   *
   * @param agreement the program's verdicts beside people's codes, when there are any
   */
  public static String of(StudyLog log, StudySummary summary, Optional<Agreement> agreement) {
    return new StudyHtml(log, summary, agreement).page();
  }

  private String page() {
    MethodsText methods = MethodsText.of(log, summary);
    List<String> doubts = log.inputs().doubts();
    Flow flow = Flow.of(log);
    Page page =
        new Page(
            Wording.of("study.title"),
            Wording.of(
                "study.summary",
                "responses",
                Wording.count("words.response", summary.responses()),
                "prompts",
                Wording.count("words.prompt", summary.prompts().size()),
                "meaning",
                Words.byMeaning(summary.byMeaning()),
                "complete",
                summary.complete(),
                "leftOut",
                flow.leftOut() == 0 ? "" : Wording.of("flow.head", "n", flow.leftOut())),
            sections(),
            summary.notes(),
            methods.text(),
            methods.references(),
            log.sentences(),
            !log.problems().isEmpty(),
            doubts.isEmpty() ? List.of() : List.of(new Doubts.Section(doubts)),
            Cautions.READER,
            Cautions.judge(Set.of(log.settings().judge())));
    return Templates.page("study.html", page.title(), List.of("style.css", "study.css"), page);
  }

  private List<Section> sections() {
    List<Section> sections = new ArrayList<>();
    sections.add(flow());
    planned().ifPresent(planned -> sections.add(planned(planned)));
    explore(
        sections,
        rates(
            Wording.of("study.kinds.title"),
            Wording.of(
                "study.kinds.note",
                "percent",
                Math.round(100 * summary.level().value()),
                "cluster",
                MethodsText.cluster(summary)),
            summary.rates().stream()
                .filter(rate -> List.of(Dimension.ALL, Dimension.KIND).contains(rate.dimension()))
                .toList()));
    sections.add(levels());
    explore(sections, rates(Wording.of("study.by.verb"), "", Dimension.VERB));
    for (String column : log.settings().by()) {
      explore(sections, group(column));
    }
    coOmission().ifPresent(section -> explore(sections, section));
    explore(
        sections,
        rates(Wording.of("study.by.position"), trend(Dimension.POSITION), Dimension.POSITION));
    explore(
        sections, rates(Wording.of("study.by.length"), trend(Dimension.LENGTH), Dimension.LENGTH));
    drafts().ifPresent(section -> explore(sections, section));
    corrections().ifPresent(section -> explore(sections, section));
    agreement.ifPresent(
        found -> {
          sections.add(agreement(found));
          log.settings().by().forEach(column -> sections.add(errors(found, column)));
          sections.add(reliability(found.reliability()));
        });
    explore(sections, rates(Wording.of("study.by.prompt"), "", Dimension.PROMPT));
    explore(sections, rates(Wording.of("study.by.part"), "", Dimension.PART));
    for (StudySummary.PromptCounts prompt : summary.prompts()) {
      sections.add(counts(prompt));
    }
    sections.add(basis());
    return sections;
  }

  private Optional<Planned> planned() {
    return Planned.of(log, summary);
  }

  /** Adds a section of what was not planned, and says so where there is a plan. */
  private void explore(List<Section> sections, Section section) {
    if (planned().isEmpty()) {
      sections.add(section);
      return;
    }
    List<String> notes = new ArrayList<>();
    notes.add(Wording.of("planned.exploratory"));
    notes.addAll(section.note());
    sections.add(
        new Section(
            Wording.of("planned.exploratory.title", "title", section.title()),
            notes,
            section.plots(),
            section.tables()));
  }

  /** Returns the one comparison that was planned. */
  private Section planned(Planned planned) {
    List<String> notes = new ArrayList<>();
    notes.add(
        Wording.of(
            "planned.note",
            "file",
            planned.plan().name(),
            "sum",
            Optional.ofNullable(planned.plan().sha256()).orElse(DASH),
            "what",
            planned.words()));
    List<IntervalPlot.Line> lines = new ArrayList<>();
    Optional<StudySummary.GroupComparison> groups = planned.comparison();
    Optional<StudySummary.Change> change = planned.change();
    groups.ifPresent(
        one -> {
          String name = Wording.of("study.less", "first", one.first(), "second", one.second());
          one.difference().ifPresent(difference -> lines.add(line(name, difference)));
          notes.add(
              result(name, one.difference(), one.oddsRatio(), one.clusteredTest(), one.method()));
        });
    change.ifPresent(
        one -> {
          String name = Wording.of("planned.last");
          one.change().ifPresent(difference -> lines.add(line(name, difference)));
          notes.add(result(name, one.change(), Optional.empty(), one.test(), one.method()));
        });
    notes.add(
        Wording.of(groups.isPresent() || change.isPresent() ? "planned.alone" : "planned.notMade"));
    return new Section(
        Wording.of("planned.title"),
        notes,
        lines.isEmpty() ? List.of() : List.of(differences(Wording.of("study.differences"), lines)),
        List.of());
  }

  private static String result(
      String name,
      Optional<Estimate> difference,
      Optional<Estimate> odds,
      Optional<SignificanceTest> test,
      Method method) {
    return name
        + ": "
        + difference.map(StudyHtml::points).orElse(Wording.of("study.noInterval"))
        + odds.map(ratio -> Wording.of("study.odds", "ratio", ratio(ratio))).orElse("")
        + test.map(found -> "; " + test(found)).orElse("")
        + "."
        + method.warning().map(words -> " " + words).orElse("");
  }

  /** Returns a row or a head with one more cell where there is a plan. */
  private List<String> withRole(List<String> cells, String role) {
    if (planned().isEmpty()) {
      return cells;
    }
    List<String> more = new ArrayList<>(cells);
    more.add(role);
    return more;
  }

  /** Returns what became of the rows. */
  private Section flow() {
    Flow flow = Flow.of(log);
    return new Section(
        Wording.of("flow.title"),
        flow.sentences(),
        List.of(),
        List.of(
            new Table(
                Wording.of("flow.caption"),
                List.of(
                    Wording.of("flow.head.what"),
                    Wording.of("flow.head.rows"),
                    Wording.of("flow.head.means")),
                flow.table())));
  }

  /** Returns how alike answers are that come from together. */
  private Section levels() {
    List<List<String>> rows = new ArrayList<>();
    for (StudySummary.ClusterLevel level : summary.levels()) {
      rows.add(
          List.of(
              level.column(),
              String.valueOf(level.clusters()),
              level.designEffect().map(effect -> figure(effect, 2)).orElse(DASH),
              level.likeness().map(likeness -> figure(likeness, 3)).orElse(DASH)));
    }
    return new Section(
        Wording.of("study.levels.title"),
        Wording.of("study.levels.note"),
        List.of(),
        List.of(
            new Table(
                Wording.of("study.table.clusters"),
                heads("", "clusters", "designEffect", "likeness"),
                rows)));
  }

  private Section rates(String title, String note, Dimension dimension) {
    List<StudySummary.Rate> rates =
        summary.rates().stream().filter(rate -> rate.dimension() == dimension).toList();
    return rates(title, note, rates);
  }

  private Section rates(String title, String note, List<StudySummary.Rate> rates) {
    List<IntervalPlot.Line> lines = new ArrayList<>();
    List<List<String>> rows = new ArrayList<>();
    for (StudySummary.Rate rate : rates) {
      String name =
          rate.dimension() == Dimension.ALL
              ? Wording.of("study.allDemands")
              : rate.value().isEmpty() ? rate.name() : rate.value();
      rate.missing()
          .ifPresent(
              missing -> {
                Interval interval = rate.clustered().orElse(missing.wilson(summary.level()));
                lines.add(
                    new IntervalPlot.Line(
                        name,
                        missing.rate(),
                        interval.low(),
                        interval.high(),
                        Wording.of(
                            "study.bar",
                            "share",
                            share(missing.rate()),
                            "limits",
                            limits(interval),
                            "total",
                            missing.total())));
              });
      rows.add(row(name, rate));
    }
    List<Plot> plots = new ArrayList<>();
    if (!lines.isEmpty()) {
      plots.add(plot(Wording.of("study.plot.missing"), 0, 1, lines));
    }
    String cut =
        lines.size() > MOST_PLOTTED
            ? Wording.of("study.cut", "most", MOST_PLOTTED, "all", lines.size())
            : "";
    return new Section(title, join(note, cut), plots, List.of(rateTable(rows)));
  }

  /** Returns a plot with intervals, with a mark at 0. */
  private static Plot plot(String caption, double low, double high, List<IntervalPlot.Line> lines) {
    return new Plot(
        caption,
        new IntervalPlot(
                caption, low, high, 0, lines.subList(0, Math.min(MOST_PLOTTED, lines.size())))
            .svg());
  }

  /** Returns a plot of differences, with a scale as wide as they need. */
  private static Plot differences(String caption, List<IntervalPlot.Line> lines) {
    double farthest =
        lines.stream()
            .mapToDouble(line -> Math.max(Math.abs(line.low()), Math.abs(line.high())))
            .max()
            .orElse(1);
    double reach = farthest <= 0.2 ? 0.2 : farthest <= 0.4 ? 0.4 : farthest <= 0.6 ? 0.6 : 1;
    return plot(caption, -reach, reach, lines);
  }

  /** Returns the heads of a table's columns; one without words stays empty. */
  private static List<String> heads(String... names) {
    return Stream.of(names)
        .map(name -> name.isEmpty() ? "" : Wording.of("study.head." + name))
        .toList();
  }

  private static String join(String first, String second) {
    return (first + " " + second).strip();
  }

  private static Table rateTable(List<List<String>> rows) {
    return new Table(
        Wording.of("study.table.rates"),
        heads(
            "",
            "missing",
            "partly",
            "addressed",
            "unchecked",
            "omissionRate",
            "wilson",
            "clustered",
            "designEffect",
            "clusters",
            "method",
            ""),
        rows);
  }

  private List<String> row(String name, StudySummary.Rate rate) {
    List<String> cells = new ArrayList<>();
    cells.add(name);
    for (Verdict verdict :
        List.of(Verdict.MISSING, Verdict.PARTLY, Verdict.ADDRESSED, Verdict.UNCHECKED)) {
      cells.add(String.valueOf(rate.verdicts().getOrDefault(verdict, 0L)));
    }
    cells.add(rate.missing().map(missing -> share(missing.rate())).orElse(DASH));
    cells.add(rate.wilson().map(StudyHtml::interval).orElse(DASH));
    cells.add(rate.clustered().map(StudyHtml::interval).orElse(DASH));
    cells.add(rate.designEffect().map(deff -> figure(deff, 2)).orElse(DASH));
    cells.add(String.valueOf(rate.clusters()));
    cells.addAll(method(rate.method()));
    return cells;
  }

  /** Returns the method in words, and its warning. */
  private static List<String> method(Method method) {
    return List.of(
        method.name() == Method.Name.NONE
            ? DASH
            : method.name().label()
                + method
                    .degreesOfFreedom()
                    .map(df -> Wording.of("study.df", "degrees", figure(df, 1)))
                    .orElse(""),
        method.warning().orElse(""));
  }

  private Section group(String column) {
    Section rates =
        rates(
            Wording.of("study.by.group", "column", column),
            "",
            summary.rates().stream()
                .filter(rate -> rate.dimension() == Dimension.GROUP && rate.name().equals(column))
                .toList());
    List<IntervalPlot.Line> lines = new ArrayList<>();
    List<List<String>> rows = new ArrayList<>();
    List<String> notes = new ArrayList<>(rates.note());
    for (StudySummary.GroupComparison one : summary.comparisons()) {
      if (!one.column().equals(column)) {
        continue;
      }
      String name =
          one.kind().map(kind -> kind.word() + ": ").orElse("")
              + Wording.of("study.less", "first", one.first(), "second", one.second());
      if (one.kind().isEmpty()) {
        one.difference().ifPresent(difference -> lines.add(line(name, difference)));
        if (notes.size() < MOST_NOTES) {
          notes.add(sentence(name, one));
        }
      }
      List<String> cells =
          new ArrayList<>(
              List.of(
                  name,
                  share(one.rates().first().rate()),
                  share(one.rates().second().rate()),
                  one.difference().map(StudyHtml::estimate).orElse(DASH),
                  one.oddsRatio().map(StudyHtml::ratio).orElse(DASH),
                  one.clusteredTest().map(StudyHtml::test).orElse(DASH),
                  one.holm().map(StudyHtml::probability).orElse(DASH)));
      cells.addAll(method(one.method()));
      cells.add(one.test().map(StudyHtml::test).orElse(DASH));
      rows.add(withRole(cells, role(planned -> planned.is(one))));
    }
    List<Plot> plots = new ArrayList<>(rates.plots());
    if (!lines.isEmpty()) {
      plots.add(differences(Wording.of("study.differences"), lines));
    }
    List<Table> tables = new ArrayList<>(rates.tables());
    tables.add(
        new Table(
            Wording.of("study.table.differences"),
            withRole(
                heads(
                    "",
                    "first",
                    "second",
                    "difference",
                    "oddsRatio",
                    "test",
                    "holm",
                    "method",
                    "",
                    "alone"),
                Wording.of("planned.head")),
            rows));
    return new Section(rates.title(), notes, plots, tables);
  }

  private String role(Predicate<Planned> is) {
    return planned().map(planned -> Planned.role(is.test(planned))).orElse("");
  }

  private static String sentence(String name, StudySummary.GroupComparison one) {
    return name
        + ": "
        + one.difference().map(StudyHtml::points).orElse(Wording.of("study.noInterval"))
        + one.oddsRatio().map(odds -> Wording.of("study.odds", "ratio", ratio(odds))).orElse("")
        + one.clusteredTest().map(test -> "; " + test(test)).orElse("")
        + one.holm().map(p -> Wording.of("study.holm", "p", probability(p))).orElse("")
        + "."
        + one.method().warning().map(words -> " " + words).orElse("");
  }

  private static String points(Estimate estimate) {
    return Wording.of(
        "study.points",
        "value",
        figure(100 * estimate.value(), 1),
        "limits",
        limits(estimate.interval()));
  }

  private static String to(String low, String high) {
    return Wording.of("study.to", "low", low, "high", high);
  }

  private static String limits(Interval interval) {
    return to(figure(100 * interval.low(), 1), figure(100 * interval.high(), 1));
  }

  private static IntervalPlot.Line line(String name, Estimate estimate) {
    return new IntervalPlot.Line(
        name,
        estimate.value(),
        estimate.interval().low(),
        estimate.interval().high(),
        points(estimate));
  }

  private Optional<Section> coOmission() {
    if (summary.coOmissions().isEmpty()) {
      return Optional.empty();
    }
    List<Plot> plots = new ArrayList<>();
    List<List<String>> rows = new ArrayList<>();
    Map<String, Map<List<String>, Double>> byPrompt = new HashMap<>();
    Set<String> order = new LinkedHashSet<>();
    Map<String, Set<String>> names = new HashMap<>();
    for (StudySummary.CoOmission one : summary.coOmissions()) {
      order.add(one.prompt());
      Set<String> own = names.computeIfAbsent(one.prompt(), prompt -> new LinkedHashSet<>());
      own.add(one.first());
      own.add(one.second());
      Map<List<String>, Double> values =
          byPrompt.computeIfAbsent(one.prompt(), prompt -> new HashMap<>());
      one.phi().ifPresent(phi -> values.put(List.of(one.first(), one.second()), phi));
      rows.add(
          List.of(
              one.prompt().isEmpty() ? Wording.of("study.all") : one.prompt(),
              one.first(),
              one.second(),
              String.valueOf(one.both()),
              String.valueOf(one.onlyFirst()),
              String.valueOf(one.onlySecond()),
              String.valueOf(one.neither()),
              one.phi().map(phi -> figure(phi, 2)).orElse(DASH),
              one.lift().map(lift -> figure(lift, 2)).orElse(DASH)));
    }
    for (String prompt : order) {
      List<String> own = List.copyOf(names.getOrDefault(prompt, Set.of()));
      if (own.size() > 1 && own.size() <= MOST_MAPPED && plots.size() < MOST_PLOTTED) {
        String caption = prompt.isEmpty() ? Wording.of("study.together.kinds") : log.title(prompt);
        plots.add(
            new Plot(
                caption,
                new PairMap(
                        Wording.of("study.together.map", "what", caption),
                        own,
                        byPrompt.getOrDefault(prompt, Map.of()))
                    .svg()));
      }
    }
    return Optional.of(
        new Section(
            Wording.of("study.together.title"),
            Wording.of("study.together.note"),
            plots,
            List.of(
                new Table(
                    Wording.of("study.table.pairs"),
                    heads(
                        "prompt",
                        "first",
                        "second",
                        "bothOpen",
                        "onlyFirst",
                        "onlySecond",
                        "neither",
                        "phi",
                        "lift"),
                    rows))));
  }

  private String trend(Dimension dimension) {
    return summary.trends().stream()
        .filter(effect -> effect.dimension() == dimension)
        .map(
            effect ->
                effect
                    .test()
                    .map(
                        test ->
                            Wording.of(
                                    "study.trend",
                                    "test",
                                    test(test),
                                    "slope",
                                    effect
                                        .slope()
                                        .map(
                                            slope ->
                                                Wording.of(
                                                    "study.trend.step", "points", points(slope)))
                                        .orElse(""))
                                + effect.method().warning().map(words -> " " + words).orElse(""))
                    .orElse(""))
        .findFirst()
        .orElse("");
  }

  private Optional<Section> drafts() {
    if (summary.drafts().isEmpty()) {
      return Optional.empty();
    }
    StudySummary.Drafts drafts = summary.drafts().get();
    List<IntervalPlot.Line> lines = new ArrayList<>();
    List<List<String>> rows = new ArrayList<>();
    for (StudySummary.Change one : drafts.changes()) {
      String name = one.kind().map(kind -> kind.word()).orElse(Wording.of("study.allDemands"));
      one.change().ifPresent(change -> lines.add(line(name, change)));
      List<String> cells =
          new ArrayList<>(
              List.of(
                  name,
                  String.valueOf(one.counts().both()),
                  String.valueOf(one.counts().before()),
                  String.valueOf(one.counts().after()),
                  String.valueOf(one.counts().neither()),
                  one.change().map(StudyHtml::estimate).orElse(DASH),
                  one.test().map(StudyHtml::test).orElse(DASH),
                  one.holm().map(StudyHtml::probability).orElse(DASH)));
      cells.addAll(method(one.method()));
      rows.add(withRole(cells, role(planned -> planned.is(one))));
    }
    List<Plot> plots =
        lines.isEmpty() ? List.of() : List.of(differences(Wording.of("study.drafts.plot"), lines));
    return Optional.of(
        new Section(
            Wording.of("study.drafts.title"),
            Wording.of(
                    "study.drafts.note",
                    "answers",
                    Wording.count("words.answer", drafts.answers()),
                    "order",
                    String.join(", ", drafts.order()))
                + (drafts.twice() > 0
                    ? Wording.of(
                        "study.drafts.twice",
                        "answers",
                        Wording.count("words.answer", drafts.twice()))
                    : "")
                + (drafts.unplaced() > 0
                    ? Wording.of(
                        "study.drafts.unplaced",
                        "responses",
                        Wording.count("words.response", drafts.unplaced()))
                    : ""),
            plots,
            List.of(
                new Table(
                    Wording.of("study.table.demands"),
                    withRole(
                        heads(
                            "",
                            "openInBoth",
                            "closed",
                            "opened",
                            "openInNeither",
                            "change",
                            "test",
                            "holm",
                            "method",
                            ""),
                        Wording.of("planned.head")),
                    rows))));
  }

  private Optional<Section> corrections() {
    if (summary.corrections().isEmpty()) {
      return Optional.empty();
    }
    List<IntervalPlot.Line> lines = new ArrayList<>();
    List<List<String>> rows = new ArrayList<>();
    for (StudySummary.Correction one : summary.corrections()) {
      String name = one.kind().map(kind -> kind.word()).orElse(Wording.of("study.allDemands"));
      one.corrected()
          .ifPresent(
              found ->
                  lines.add(
                      new IntervalPlot.Line(
                          name,
                          found.value(),
                          found.interval().low(),
                          found.interval().high(),
                          share(found.value())
                              + " ("
                              + limits(found.interval())
                              + ")"
                              + one.statement().map(why -> " (!)").orElse(""))));
      rows.add(
          List.of(
              name,
              share(one.apparent().rate()),
              one.sensitivity().map(rate -> share(rate.rate())).orElse(DASH),
              one.specificity().map(rate -> share(rate.rate())).orElse(DASH),
              one.corrected().map(StudyHtml::estimate).orElse(DASH),
              one.statement().orElse("")));
    }
    List<Plot> plots =
        lines.isEmpty()
            ? List.of()
            : List.of(plot(Wording.of("study.corrected.plot"), 0, 1, lines));
    return Optional.of(
        new Section(
            Wording.of("study.corrected.title"),
            Wording.of("study.corrected.note"),
            plots,
            List.of(
                new Table(
                    Wording.of("study.table.corrected"),
                    heads("", "asCounted", "sensitivity", "specificity", "corrected", ""),
                    rows))));
  }

  private Section agreement(Agreement found) {
    List<String> notes = new ArrayList<>();
    List<List<String>> rows = new ArrayList<>();
    for (Agreement.Section section : found.sections()) {
      for (Agreement.Pair pair : section.pairs()) {
        rows.add(
            row(section.kind().map(kind -> kind.word()).orElse(Wording.of("study.all")), pair));
        if (section.kind().isEmpty() && notes.size() < MOST_NOTES) {
          notes.add(sentence(pair));
        }
      }
    }
    return new Section(
        Wording.of("study.agreement.title"),
        notes,
        List.of(),
        List.of(
            new Table(
                Wording.of("study.table.agreement"),
                heads(
                    "kind",
                    "first",
                    "second",
                    "demands",
                    "alike",
                    "kappa",
                    "alpha",
                    "ac1",
                    "precision",
                    "recall",
                    "f1",
                    "method",
                    ""),
                rows)));
  }

  /** Returns the program's errors in the groups of a column. */
  private static Section errors(Agreement agreement, String column) {
    List<String> notes = new ArrayList<>();
    List<List<String>> rows = new ArrayList<>();
    for (Agreement.GroupErrors one : agreement.errorsBy(column)) {
      rows.add(
          List.of(
              one.value(),
              String.valueOf(one.coded()),
              one.overlooked().map(StudyHtml::estimate).orElse(DASH),
              one.falseAlarms().map(StudyHtml::estimate).orElse(DASH),
              one.tilt().map(StudyHtml::points).orElse(DASH)));
    }
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
        List.of(
            new Table(
                Wording.of("study.table.errors"),
                heads("", "coded", "overlooked", "falseAlarms", "tilt"),
                rows)));
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

  private static List<String> row(String kind, Agreement.Pair pair) {
    return List.of(
        kind,
        pair.first(),
        pair.second(),
        String.valueOf(pair.table().total()),
        pair.agreement().map(alike -> share(alike.value())).orElse(DASH),
        pair.kappa().map(kappa -> ratio(kappa.estimate())).orElse(DASH),
        pair.alpha().map(StudyHtml::ratio).orElse(DASH),
        pair.ac1().map(ac1 -> ratio(ac1.estimate())).orElse(DASH),
        pair.missing().precision().map(StudyHtml::estimate).orElse(DASH),
        pair.missing().recall().map(StudyHtml::estimate).orElse(DASH),
        pair.missing().f1().map(f1 -> figure(f1.value(), 2)).orElse(DASH),
        Wording.of(
            "study.pair.clusters",
            "method",
            pair.method().name().label(),
            "n",
            pair.method().clusters()),
        pair.method().warning().orElse(""));
  }

  /** Returns the files that the study rests on, with their checksums. */
  private Section basis() {
    List<List<String>> rows = new ArrayList<>();
    StudyLog.Inputs inputs = log.inputs();
    rows.add(file(Wording.of("study.file.responses"), inputs.responses()));
    for (StudyLog.PromptFile prompt : inputs.prompts()) {
      rows.add(
          file(
              Wording.of("study.file.prompt"),
              new StudyLog.Checked(prompt.file(), prompt.sha256())));
    }
    StudyLog.Checked codes = inputs.codes();
    if (codes != null) {
      rows.add(file(Wording.of("study.file.codes"), codes));
    }
    inputs.lexicon().forEach(lexicon -> rows.add(file(Wording.of("study.file.lexicon"), lexicon)));
    StudyLog.Plan plan = inputs.plan();
    if (plan != null) {
      rows.add(
          file(Wording.of("study.file.plan"), new StudyLog.Checked(plan.name(), plan.sha256())));
    }
    return new Section(
        Wording.of("study.basis.title"),
        Wording.of(
            "study.basis.note",
            "program",
            log.program(),
            "files",
            Wording.count("words.file", rows.size())),
        List.of(),
        List.of(new Table(Wording.of("study.table.files"), heads("what", "file", "sum"), rows)));
  }

  private static List<String> file(String what, StudyLog.Checked file) {
    return List.of(what, file.name(), Optional.ofNullable(file.sha256()).orElse(DASH));
  }

  private Section reliability(ReliabilityCurve curve) {
    List<ReliabilityPlot.Point> points = new ArrayList<>();
    List<List<String>> rows = new ArrayList<>();
    for (ReliabilityCurve.Bin bin : curve.bins()) {
      Proportion right = bin.right();
      Interval interval = right.wilson(summary.level());
      points.add(
          new ReliabilityPlot.Point(
              bin.meanConfidence(), right.rate(), interval.low(), interval.high()));
      rows.add(
          List.of(
              to(figure(bin.low(), 1), figure(bin.high(), 1)),
              String.valueOf(right.total()),
              figure(bin.meanConfidence(), 3),
              figure(right.rate(), 3),
              interval(interval)));
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
        List.of(
            new Table(
                Wording.of("study.table.reliability"),
                heads("confidence", "verdicts", "meanConfidence", "shareRight", "interval"),
                rows)));
  }

  private Section counts(StudySummary.PromptCounts prompt) {
    List<List<String>> rows = prompt.demands().stream().map(StudyHtml::counts).toList();
    return new Section(
        Wording.of("study.prompt.title", "title", log.title(prompt.promptId())),
        Wording.of(
            "study.prompt.note", "responses", Wording.count("words.response", prompt.responses())),
        List.of(),
        List.of(
            new Table(
                Wording.of("study.table.counts"),
                heads("part", "demand", "missing", "partly", "addressed", "unchecked", "look"),
                rows)));
  }

  private static List<String> counts(StudySummary.DemandCounts demand) {
    List<String> cells = new ArrayList<>();
    cells.add(demand.part());
    cells.add(demand.number() + " " + demand.kind().word() + " (" + demand.verb() + ")");
    for (Verdict verdict :
        List.of(Verdict.MISSING, Verdict.PARTLY, Verdict.ADDRESSED, Verdict.UNCHECKED)) {
      cells.add(String.valueOf(demand.verdicts().getOrDefault(verdict, 0L)));
    }
    cells.add(String.valueOf(demand.look()));
    return cells;
  }

  private static String figure(double value, int digits) {
    return String.format(Locale.ROOT, "%." + digits + "f", value);
  }

  private static String share(double rate) {
    return figure(100 * rate, 1) + " %";
  }

  private static String interval(Interval interval) {
    return to(figure(100 * interval.low(), 1), share(interval.high()));
  }

  private static String estimate(Estimate estimate) {
    return share(estimate.value()) + " (" + interval(estimate.interval()) + ")";
  }

  private static String ratio(Estimate estimate) {
    return figure(estimate.value(), 2)
        + " ("
        + to(figure(estimate.interval().low(), 2), figure(estimate.interval().high(), 2))
        + ")";
  }

  private static String probability(double p) {
    return p < 0.0001 ? "< 0.0001" : figure(p, 4);
  }

  private static String degrees(double degrees) {
    return degrees == Math.rint(degrees) ? figure(degrees, 0) : figure(degrees, 1);
  }

  private static String test(SignificanceTest test) {
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
}
