package everypart.cli.report;

import static everypart.cli.report.StudyFigures.DASH;
import static everypart.cli.report.StudyFigures.limits;
import static everypart.cli.report.StudyFigures.points;
import static everypart.cli.report.StudyFigures.probability;
import static everypart.cli.report.StudyFigures.ratio;
import static everypart.cli.report.StudyFigures.share;
import static everypart.cli.report.StudyFigures.test;
import static everypart.cli.report.StudyPlots.MOST_PLOTTED;
import static everypart.cli.report.StudyPlots.differences;
import static everypart.cli.report.StudyPlots.line;
import static everypart.cli.report.StudyPlots.plot;

import everypart.analyzer.study.Dimension;
import everypart.analyzer.study.StudySummary;
import everypart.analyzer.study.agreement.Agreement;
import everypart.analyzer.study.statistics.Estimate;
import everypart.analyzer.study.statistics.Interval;
import everypart.analyzer.study.statistics.Method;
import everypart.analyzer.study.statistics.SignificanceTest;
import everypart.cli.report.StudyPage.Plot;
import everypart.cli.report.StudyPage.Section;
import everypart.cli.report.StudyPage.Table;
import everypart.cli.report.plot.IntervalPlot;
import everypart.cli.report.plot.PairMap;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** The report of a study as one self-contained HTML file: {@code report.html}. */
public final class StudyHtml {
  /** A map of more things than this cannot be read. */
  private static final int MOST_MAPPED = 14;

  private final StudyLog log;
  private final StudySummary summary;
  private final Optional<Agreement> agreement;

  private StudyHtml(StudyLog log, StudySummary summary, Optional<Agreement> agreement) {
    this.log = log;
    this.summary = summary;
    this.agreement = agreement;
  }

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
    StudyPage page =
        new StudyPage(
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
          sections.add(StudyAgreement.agreement(found));
          log.settings().by().forEach(column -> sections.add(StudyAgreement.errors(found, column)));
          sections.add(StudyAgreement.reliability(found.reliability(), summary.level()));
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
        + difference.map(StudyFigures::points).orElse(Wording.of("study.noInterval"))
        + odds.map(ratio -> Wording.of("study.odds", "ratio", ratio(ratio))).orElse("")
        + test.map(found -> "; " + test(found)).orElse("")
        + "."
        + method.warning().map(words -> " " + words).orElse("");
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
    return new Section(
        Wording.of("study.levels.title"),
        Wording.of("study.levels.note"),
        List.of(),
        List.of(StudyTables.levels(summary.levels())));
  }

  private Section rates(String title, String note, Dimension dimension) {
    List<StudySummary.Rate> rates =
        summary.rates().stream().filter(rate -> rate.dimension() == dimension).toList();
    return rates(title, note, rates);
  }

  private Section rates(String title, String note, List<StudySummary.Rate> rates) {
    List<IntervalPlot.Line> lines = new ArrayList<>();
    for (StudySummary.Rate rate : rates) {
      rate.missing()
          .ifPresent(
              missing -> {
                Interval interval = rate.clustered().orElse(missing.wilson(summary.level()));
                lines.add(
                    new IntervalPlot.Line(
                        StudyTables.name(rate),
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
    }
    List<Plot> plots = new ArrayList<>();
    if (!lines.isEmpty()) {
      plots.add(plot(Wording.of("study.plot.missing"), 0, 1, lines));
    }
    String cut =
        lines.size() > MOST_PLOTTED
            ? Wording.of("study.cut", "most", MOST_PLOTTED, "all", lines.size())
            : "";
    return new Section(title, join(note, cut), plots, List.of(StudyTables.rates(rates)));
  }

  private static String join(String first, String second) {
    return (first + " " + second).strip();
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
    List<StudySummary.GroupComparison> compared =
        summary.comparisons().stream().filter(one -> one.column().equals(column)).toList();
    List<String> notes = new ArrayList<>(rates.note());
    for (StudySummary.GroupComparison one : compared) {
      if (one.kind().isEmpty()) {
        String name = StudyTables.name(one);
        one.difference().ifPresent(difference -> lines.add(line(name, difference)));
        if (notes.size() < StudyAgreement.MOST_NOTES) {
          notes.add(sentence(name, one));
        }
      }
    }
    List<Plot> plots = new ArrayList<>(rates.plots());
    if (!lines.isEmpty()) {
      plots.add(differences(Wording.of("study.differences"), lines));
    }
    List<Table> tables = new ArrayList<>(rates.tables());
    tables.add(StudyTables.comparisons(compared, planned()));
    return new Section(rates.title(), notes, plots, tables);
  }

  private static String sentence(String name, StudySummary.GroupComparison one) {
    return name
        + ": "
        + one.difference().map(StudyFigures::points).orElse(Wording.of("study.noInterval"))
        + one.oddsRatio().map(odds -> Wording.of("study.odds", "ratio", ratio(odds))).orElse("")
        + one.clusteredTest().map(test -> "; " + test(test)).orElse("")
        + one.holm().map(p -> Wording.of("study.holm", "p", probability(p))).orElse("")
        + "."
        + one.method().warning().map(words -> " " + words).orElse("");
  }

  private Optional<Section> coOmission() {
    if (summary.coOmissions().isEmpty()) {
      return Optional.empty();
    }
    List<Plot> plots = new ArrayList<>();
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
            List.of(StudyTables.together(summary.coOmissions()))));
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
    for (StudySummary.Change one : drafts.changes()) {
      one.change().ifPresent(change -> lines.add(line(StudyTables.name(one), change)));
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
            List.of(StudyTables.changes(drafts.changes(), planned()))));
  }

  private Optional<Section> corrections() {
    if (summary.corrections().isEmpty()) {
      return Optional.empty();
    }
    List<IntervalPlot.Line> lines = new ArrayList<>();
    for (StudySummary.Correction one : summary.corrections()) {
      one.corrected()
          .ifPresent(
              found ->
                  lines.add(
                      new IntervalPlot.Line(
                          StudyTables.name(one),
                          found.value(),
                          found.interval().low(),
                          found.interval().high(),
                          share(found.value())
                              + " ("
                              + limits(found.interval())
                              + ")"
                              + one.statement().map(why -> " (!)").orElse(""))));
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
            List.of(StudyTables.corrections(summary.corrections()))));
  }

  /** Returns the files that the study rests on, with their checksums. */
  private Section basis() {
    List<StudyTables.Basis> files = new ArrayList<>();
    StudyLog.Inputs inputs = log.inputs();
    files.add(basis("responses", inputs.responses()));
    for (StudyLog.PromptFile prompt : inputs.prompts()) {
      files.add(basis("prompt", new StudyLog.Checked(prompt.file(), prompt.sha256())));
    }
    StudyLog.Checked codes = inputs.codes();
    if (codes != null) {
      files.add(basis("codes", codes));
    }
    inputs.lexicon().forEach(lexicon -> files.add(basis("lexicon", lexicon)));
    StudyLog.Plan plan = inputs.plan();
    if (plan != null) {
      files.add(basis("plan", new StudyLog.Checked(plan.name(), plan.sha256())));
    }
    return new Section(
        Wording.of("study.basis.title"),
        Wording.of(
            "study.basis.note",
            "program",
            log.program(),
            "files",
            Wording.count("words.file", files.size())),
        List.of(),
        List.of(StudyTables.basis(files)));
  }

  private static StudyTables.Basis basis(String what, StudyLog.Checked file) {
    return new StudyTables.Basis(Wording.of("study.file." + what), file);
  }

  private Section counts(StudySummary.PromptCounts prompt) {
    return new Section(
        Wording.of("study.prompt.title", "title", log.title(prompt.promptId())),
        Wording.of(
            "study.prompt.note", "responses", Wording.count("words.response", prompt.responses())),
        List.of(),
        List.of(StudyTables.counts(prompt.demands())));
  }
}
