package everypart.cli.report;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.coverage.DemandCoverage;
import everypart.analyzer.coverage.Verdict;
import everypart.analyzer.prompt.Prompt;
import everypart.cli.intake.Checksum;
import everypart.cli.intake.Corrections;
import everypart.cli.intake.InputProblem;
import everypart.cli.intake.Room;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/**
 * The report on a class set as one self-contained HTML file for its teacher. The results stand in
 * it as data, and its script draws what is looked at, so that a large class opens quickly.
 */
public final class ScreenHtml {
  private static final List<Revision.Change> REVISED =
      List.of(Revision.Change.CLOSED, Revision.Change.NEARER, Revision.Change.LOST);

  private final Map<String, PromptRows> prompts = new LinkedHashMap<>();
  private long responses;
  private long open;
  private long drafts;
  private final Set<String> judges = new TreeSet<>();
  private final Map<Revision.Change, Long> changed = new EnumMap<>(Revision.Change.class);

  /** The results of a prompt, as text at once, so that they need not be kept otherwise. */
  private static final class PromptRows {
    final Prompt prompt;
    final Map<String, Integer> reasons = new LinkedHashMap<>();
    final List<String> rows = new ArrayList<>();

    PromptRows(Prompt prompt) {
      this.prompt = prompt;
    }

    /** Returns the number of a reason; one that is new is put among others that are. */
    int reason(String words, Map<String, Integer> fresh) {
      Integer known = reasons.get(words);
      return known == null
          ? fresh.computeIfAbsent(words, key -> reasons.size() + fresh.size())
          : known;
    }
  }

  /** A result as the page will hold it. */
  public static final class Row {
    private final PromptRows rows;
    private final Map<String, Integer> fresh = new LinkedHashMap<>();
    private final String json;
    private final String judge;
    private final boolean open;
    private final Optional<Revision> revision;

    private Row(
        PromptRows rows,
        Coverage coverage,
        Coverage program,
        Optional<Revision> revision,
        Map<String, String> groups,
        Corrections.Own own) {
      this.rows = rows;
      this.judge = program.judge();
      this.open =
          coverage.parts().stream()
              .flatMap(part -> part.demands().stream())
              .anyMatch(ScreenHtml::open);
      this.revision = revision;
      ObjectNode row =
          PageData.row(
              coverage,
              program,
              own,
              ResponseView.remarks(coverage, revision),
              words -> rows.reason(words, fresh));
      if (!groups.isEmpty()) {
        ObjectNode values = row.putObject("g");
        groups.forEach(values::put);
      }
      if (revision.isPresent()) {
        ArrayNode became = row.putArray("d");
        REVISED.stream().filter(revision.get()::has).forEach(one -> became.add(one.word()));
      }
      this.json = PageData.inPage(row.toString());
    }

    /** Returns how many bytes the page holds for it until it is written. */
    public long bytes() {
      return Room.bytes(json) + fresh.keySet().stream().mapToLong(Room::bytes).sum();
    }
  }

  /** What the page says before its script runs. */
  record Page(
      String title,
      String summary,
      String drafts,
      boolean drafted,
      List<String> problems,
      boolean troubled,
      List<Doubts.Section> doubtful,
      String caution,
      String judge) {}

  /**
   * Where the page is served from, when it is not read from a file.
   *
   * @param address the address that takes what is changed in the page, ending with a slash
   * @param name what a folder saved from it is called
   */
  public record Served(String address, String name) {}

  /** Makes a report on responses to these prompts. */
  public ScreenHtml(Collection<Prompt> prompts) {
    prompts.forEach(prompt -> this.prompts.put(prompt.id(), new PromptRows(prompt)));
  }

  /** Adds a result. */
  public void add(Coverage coverage) {
    add(coverage, coverage, Optional.empty(), Map.of(), Corrections.Own.NOTHING);
  }

  /**
   * Adds a result with a teacher's verdicts.
   *
   * @param program the program's own result
   * @param revision what became of the demands since an earlier draft
   * @param groups the further columns of the input
   * @param own what the teacher wrote beside it
   */
  public void add(
      Coverage coverage,
      Coverage program,
      Optional<Revision> revision,
      Map<String, String> groups,
      Corrections.Own own) {
    add(row(coverage, program, revision, groups, own));
  }

  /**
   * Returns what {@link #add(Row)} adds for a result; the page is as it was before.
   *
   * @param program the program's own result
   * @param revision what became of the demands since an earlier draft
   * @param groups the further columns of the input
   * @param own what the teacher wrote beside it
   */
  public Row row(
      Coverage coverage,
      Coverage program,
      Optional<Revision> revision,
      Map<String, String> groups,
      Corrections.Own own) {
    PromptRows rows = prompts.get(coverage.prompt().id());
    if (rows == null) {
      throw new IllegalArgumentException("no such prompt: " + coverage.prompt().id());
    }
    return new Row(rows, coverage, program, revision, groups, own);
  }

  /** Adds a result that was made ready after the last one was added. */
  public void add(Row row) {
    row.rows.rows.add(row.json);
    row.rows.reasons.putAll(row.fresh);
    responses++;
    judges.add(row.judge);
    open += row.open ? 1 : 0;
    if (row.revision.isPresent()) {
      drafts++;
      REVISED.stream()
          .filter(row.revision.get()::has)
          .forEach(one -> changed.merge(one, 1L, Long::sum));
    }
  }

  private static boolean open(DemandCoverage demand) {
    return demand.verdict() == Verdict.MISSING || demand.verdict() == Verdict.PARTLY;
  }

  /**
   * Returns the page.
   *
   * @param problems what could not be read as given
   */
  public String page(List<InputProblem> problems) {
    return page(problems, Optional.empty());
  }

  /**
   * Returns the page.
   *
   * @param problems what could not be read as given
   * @param served where it is served from; empty for a page that is read from a file
   */
  public String page(List<InputProblem> problems, Optional<Served> served) {
    StringBuilder page = new StringBuilder();
    try {
      write(problems, served, page);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return page.toString();
  }

  /**
   * Writes the page, a result at a time, so that a large class is never held twice.
   *
   * @param problems what could not be read as given
   * @param served where it is served from; empty for a page that is read from a file
   */
  public void write(List<InputProblem> problems, Optional<Served> served, Appendable out)
      throws IOException {
    List<PromptRows> answered =
        prompts.values().stream().filter(prompt -> !prompt.rows.isEmpty()).toList();
    String title =
        answered.size() == 1
            ? answered.get(0).prompt.title().orElse(answered.get(0).prompt.id())
            : Wording.count("page.title", answered.size());
    String page =
        Templates.page(
            "screen.html",
            title,
            List.of("style.css", "screen.css"),
            new Page(
                title,
                summary(),
                drafts(),
                drafts > 0,
                problems.stream().map(InputProblem::sentence).toList(),
                !problems.isEmpty(),
                Doubts.sections(prompts.values().stream().map(one -> one.prompt).toList()),
                Cautions.READER,
                Cautions.judge(judges)),
            "",
            List.of("page-tools.js", "screen.js"),
            served.isPresent() ? "'self'" : "'none'");
    Templates.write(page, data -> data(answered, problems, served, data), out);
  }

  private static void data(
      List<PromptRows> answered,
      List<InputProblem> problems,
      Optional<Served> served,
      Appendable out)
      throws IOException {
    ObjectNode head = JsonNodeFactory.instance.objectNode();
    head.put("format", "everypart-class");
    head.put("version", 1);
    Checksum.OfText sum = new Checksum.OfText();
    rows(answered, sum);
    head.put("key", sum.hexadecimal().substring(0, 16));
    served.ifPresent(
        one -> {
          head.put("served", one.address());
          head.put("name", one.name());
        });
    if (!problems.isEmpty()) {
      head.set("problems", PageData.problems(problems));
    }
    String json = PageData.inPage(head.toString());
    out.append(json, 0, json.length() - 1).append(",\"prompts\":[\n");
    rows(answered, out);
    out.append("]}");
  }

  private static void rows(List<PromptRows> answered, Appendable out) throws IOException {
    String before = "";
    for (PromptRows prompt : answered) {
      ObjectNode head = PageData.prompt(prompt.prompt);
      ArrayNode reasons = head.putArray("reasons");
      prompt.reasons.keySet().forEach(reasons::add);
      String json = PageData.inPage(head.toString());
      out.append(before).append(json, 0, json.length() - 1).append(",\"rows\":[\n");
      String between = "";
      for (String row : prompt.rows) {
        out.append(between).append(row);
        between = ",\n";
      }
      out.append("]}");
      before = ",\n";
    }
  }

  /** Returns what became of the earlier drafts. */
  private String drafts() {
    return Wording.of(
        "page.drafts." + (drafts == 1 ? "one" : "other"),
        "n",
        drafts,
        "closed",
        changed.getOrDefault(Revision.Change.CLOSED, 0L),
        "lost",
        changed.getOrDefault(Revision.Change.LOST, 0L));
  }

  private String summary() {
    if (responses == 0) {
      return Wording.of("headline.none");
    }
    return open == 0
        ? Wording.of("headline.allCovered")
        : Wording.of("headline." + (open == 1 ? "one" : "other"), "n", open, "total", responses);
  }
}
