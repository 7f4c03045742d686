package everypart.cli.report;

import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.coverage.DemandCoverage;
import everypart.analyzer.coverage.PartCoverage;
import everypart.analyzer.coverage.Verdict;
import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Prompt;
import everypart.cli.intake.InputProblem;
import everypart.lexicon.DemandKind;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** The report on a class set as one self-contained HTML file for its teacher. */
public final class ScreenHtml {
  private static final Set<DemandKind> CLAIMS =
      Set.of(DemandKind.IDENTIFY, DemandKind.PREDICT, DemandKind.EVALUATE);

  private static final List<Revision.Change> REVISED =
      List.of(Revision.Change.CLOSED, Revision.Change.LOST);

  private final Map<String, List<Student>> students = new LinkedHashMap<>();
  private final Tally tally;
  private int keys;
  private long drafts;
  private final Map<Revision.Change, Long> changed = new EnumMap<>(Revision.Change.class);

  /** A response, rendered at once so that its result need not be kept. */
  private record Student(RowView row, DetailView detail) {}

  /**
   * A row of the matrix.
   *
   * @param filters the filters that let it through, between spaces
   */
  record RowView(
      String id, String key, long open, long look, String filters, List<CellView> cells) {}

  /** A cell of the matrix; {@code order} sorts open demands first. */
  record CellView(
      String demand,
      ResponseView.VerdictView verdict,
      int order,
      boolean look,
      boolean corrected) {}

  /** A response in full, as HTML. */
  record DetailView(String id, String key, String heading, boolean read, String html) {}

  /** A demand with its share open. */
  record BarView(
      String code, String words, String share, String width, String partly, String look) {}

  /** A head of a column of the matrix. */
  record HeadView(String code, String part, String kind, String words) {}

  /** A choice in the list of filters. */
  record FilterView(String key, String name) {}

  /** The question's parts with their demands at hand. */
  record PartView(String label, String wording, String demands) {}

  /** A prompt and its responses. */
  record PromptView(
      String key,
      String id,
      String name,
      String stimulus,
      boolean hasStimulus,
      List<PartView> parts,
      List<BarView> bars,
      List<HeadView> heads,
      List<FilterView> filters,
      List<RowView> rows,
      List<DetailView> details,
      String count) {}

  /** The page. */
  record Page(
      String title,
      String summary,
      String drafts,
      boolean drafted,
      List<PromptView> prompts,
      List<String> problems,
      boolean troubled,
      String troubles,
      List<Doubts.Section> doubtful,
      String caution) {}

  /** Makes a report on responses to these prompts. */
  public ScreenHtml(Collection<Prompt> prompts) {
    this.tally = new Tally(prompts);
    prompts.forEach(prompt -> students.put(prompt.id(), new ArrayList<>()));
  }

  /** Adds a result. */
  public void add(Coverage coverage) {
    add(coverage, coverage, Optional.empty(), false);
  }

  /**
   * Adds a result with a teacher's verdicts.
   *
   * @param program the program's own result
   * @param revision what became of the demands since an earlier draft
   * @param read whether the teacher has read the whole response
   */
  public void add(Coverage coverage, Coverage program, Optional<Revision> revision, boolean read) {
    tally.add(coverage);
    keys++;
    ResponseView view = ResponseView.of(coverage, program, revision, "s" + keys);
    List<String> filters = new ArrayList<>(filters(coverage));
    for (Revision.Change change : REVISED) {
      if (revision.filter(one -> one.has(change)).isPresent()) {
        filters.add(change.word());
        changed.merge(change, 1L, Long::sum);
      }
    }
    drafts += revision.isPresent() ? 1 : 0;
    List<DemandCoverage> own = demands(program);
    List<CellView> cells = new ArrayList<>();
    for (PartCoverage part : coverage.parts()) {
      int number = 1;
      for (DemandCoverage demand : part.demands()) {
        cells.add(
            new CellView(
                part.part().label() + number++ + " " + demand.demand().kind().word(),
                ResponseView.VerdictView.of(demand.verdict()),
                order(demand.verdict()),
                demand.look(),
                own.get(cells.size()).verdict() != demand.verdict()));
      }
    }
    List<Student> list = students.get(coverage.prompt().id());
    if (list == null) {
      throw new IllegalArgumentException("no such prompt: " + coverage.prompt().id());
    }
    long open = demands(coverage).stream().filter(ScreenHtml::open).count();
    list.add(
        new Student(
            new RowView(
                view.id(),
                view.key(),
                open,
                demands(coverage).stream().filter(DemandCoverage::look).count(),
                " " + String.join(" ", filters) + " ",
                cells),
            new DetailView(
                view.id(),
                view.key(),
                view.verdict().word() + "; " + view.summary().toLowerCase(Locale.ROOT),
                read,
                Templates.render("response.html", view))));
  }

  private static int order(Verdict verdict) {
    return switch (verdict) {
      case MISSING -> 0;
      case PARTLY -> 1;
      case ADDRESSED -> 2;
      case UNCHECKED -> 3;
    };
  }

  private static List<DemandCoverage> demands(Coverage coverage) {
    return coverage.parts().stream().flatMap(part -> part.demands().stream()).toList();
  }

  private static boolean open(DemandCoverage demand) {
    return demand.verdict() == Verdict.MISSING || demand.verdict() == Verdict.PARTLY;
  }

  /** Returns the keys of the filters that let a response through; see {@link #filters(Prompt)}. */
  private static List<String> filters(Coverage coverage) {
    List<String> keys = new ArrayList<>();
    if (coverage.text().isBlank()) {
      keys.add("empty");
    }
    int column = 0;
    for (int i = 0; i < coverage.parts().size(); i++) {
      PartCoverage part = coverage.parts().get(i);
      if (part.verdict() == Verdict.MISSING) {
        keys.add("part" + i);
      }
      boolean claimed = false;
      for (DemandCoverage demand : part.demands()) {
        if (open(demand)) {
          keys.add("open");
          keys.add("demand" + column);
        }
        if (demand.look()) {
          keys.add("look");
        }
        if (CLAIMS.contains(demand.demand().kind())) {
          claimed = demand.verdict() == Verdict.ADDRESSED;
        }
        if (demand.demand().kind() == DemandKind.JUSTIFY && claimed && open(demand)) {
          keys.add("ground" + column);
        }
        column++;
      }
    }
    return keys.stream().distinct().toList();
  }

  private List<FilterView> filters(Prompt prompt) {
    List<FilterView> filters = new ArrayList<>();
    if (drafts > 0) {
      for (Revision.Change change : REVISED) {
        filters.add(
            new FilterView(change.word(), change.word() + " something since the earlier draft"));
      }
    }
    filters.add(new FilterView("open", "anything open"));
    filters.add(new FilterView("look", "needs a look"));
    filters.add(new FilterView("empty", "empty response"));
    int column = 0;
    for (int i = 0; i < prompt.parts().size(); i++) {
      Part part = prompt.parts().get(i);
      filters.add(new FilterView("part" + i, "part " + part.label() + " missing as a whole"));
      String claim = "";
      for (int d = 0; d < part.demands().size(); d++) {
        DemandKind kind = part.demands().get(d).kind();
        String code = part.label() + (d + 1);
        filters.add(new FilterView("demand" + column, code + " " + kind.word() + " open"));
        if (CLAIMS.contains(kind)) {
          claim = code + " " + kind.word();
        }
        if (kind == DemandKind.JUSTIFY && !claim.isEmpty()) {
          filters.add(
              new FilterView("ground" + column, claim + " addressed, " + code + " justify open"));
        }
        column++;
      }
    }
    return filters;
  }

  /**
   * Returns the page.
   *
   * @param problems what could not be read as given
   */
  public String page(List<InputProblem> problems) {
    List<PromptView> prompts = new ArrayList<>();
    for (Tally.PromptTally prompt : tally.prompts()) {
      List<Student> list = students.getOrDefault(prompt.prompt().id(), List.of());
      if (!list.isEmpty()) {
        prompts.add(view(prompt, list, prompts.size() + 1));
      }
    }
    return Templates.render(
        "screen.html",
        new Page(
            "Who has answered what",
            summary(),
            drafts(),
            drafts > 0,
            prompts,
            problems.stream().map(InputProblem::sentence).toList(),
            !problems.isEmpty(),
            Words.count(problems.size(), "message"),
            Doubts.sections(tally.prompts().stream().map(Tally.PromptTally::prompt).toList()),
            Cautions.READER));
  }

  private PromptView view(Tally.PromptTally tally, List<Student> list, int number) {
    Prompt prompt = tally.prompt();
    return new PromptView(
        "p" + number,
        prompt.id(),
        prompt.title().orElse(prompt.id()),
        prompt.stimulus(),
        !prompt.stimulus().isBlank(),
        prompt.parts().stream().map(ScreenHtml::part).toList(),
        tally.demands().stream().map(demand -> bar(demand, tally.responses())).toList(),
        tally.demands().stream()
            .map(
                demand ->
                    new HeadView(
                        code(demand),
                        demand.part().label(),
                        demand.demand().kind().word(),
                        Words.demand(demand.demand())))
            .toList(),
        filters(prompt),
        list.stream().map(Student::row).toList(),
        list.stream().map(Student::detail).toList(),
        Words.count(tally.responses(), "response"));
  }

  private static PartView part(Part part) {
    List<String> demands = new ArrayList<>();
    for (int i = 0; i < part.demands().size(); i++) {
      demands.add(part.label() + (i + 1) + " " + Words.demand(part.demands().get(i)));
    }
    return new PartView(
        part.label(),
        Words.oneLine(part.text()),
        demands.isEmpty() ? "no demand was found" : String.join("; ", demands));
  }

  private static String code(Tally.DemandTally demand) {
    return demand.part().label() + demand.number();
  }

  private static BarView bar(Tally.DemandTally demand, long responses) {
    if (demand.count(Verdict.UNCHECKED) == responses) {
      return new BarView(
          code(demand), Words.demand(demand.demand()), "cannot be read from text", "0", "", "");
    }
    long open = open(demand);
    long share = responses == 0 ? 0 : Math.round(100.0 * open / responses);
    return new BarView(
        code(demand),
        Words.demand(demand.demand()),
        open + " of " + responses + " open (" + share + " %)",
        String.valueOf(share),
        demand.count(Verdict.PARTLY) == 0
            ? ""
            : ", " + demand.count(Verdict.PARTLY) + " of these partly",
        demand.look() == 0 ? "" : ", " + demand.look() + " to look at");
  }

  private static long open(Tally.DemandTally demand) {
    return demand.count(Verdict.MISSING) + demand.count(Verdict.PARTLY);
  }

  /** Returns what became of the earlier drafts, one sentence without its stop. */
  private String drafts() {
    return "Of "
        + Words.count(drafts, "response")
        + " with an earlier draft, "
        + changed.getOrDefault(Revision.Change.CLOSED, 0L)
        + " closed something since and "
        + changed.getOrDefault(Revision.Change.LOST, 0L)
        + " lost something";
  }

  private String summary() {
    long responses = tally.responses();
    if (responses == 0) {
      return "No response could be read";
    }
    long open =
        students.values().stream()
            .flatMap(List::stream)
            .filter(student -> student.row().open() > 0)
            .count();
    boolean several = tally.prompts().stream().filter(prompt -> prompt.responses() > 0).count() > 1;
    List<String> most =
        tally.prompts().stream()
            .flatMap(
                prompt ->
                    prompt.demands().stream()
                        .filter(demand -> open(demand) > 0)
                        .map(
                            demand ->
                                Map.entry(
                                    open(demand),
                                    (several ? prompt.prompt().id() + " " : "")
                                        + code(demand)
                                        + " "
                                        + demand.demand().kind().word()
                                        + " ("
                                        + open(demand)
                                        + " of "
                                        + prompt.responses()
                                        + ")")))
            .sorted(Map.Entry.comparingByKey(Comparator.reverseOrder()))
            .limit(3)
            .map(Map.Entry::getValue)
            .toList();
    return open
        + " of "
        + Words.count(responses, "response")
        + (open == 1 ? " leaves" : " leave")
        + " something open"
        + (most.isEmpty() ? "" : "; most often " + String.join(", ", most))
        + Words.byMeaning(tally.byMeaning());
  }
}
