package everypart.cli.report;

import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.coverage.DemandCoverage;
import everypart.analyzer.coverage.Verdict;
import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Prompt;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * The tables of a class set: {@code matrix.csv} with a row a response and a column a demand, and
 * {@code demands.csv} with a row a response and demand.
 */
public final class ClassTables {
  private static final List<String> REVISED = List.of("closed", "lost");

  private final List<Prompt> prompts;
  private final boolean revised;
  private final Set<String> groups = new LinkedHashSet<>();
  private final List<Row> rows = new ArrayList<>();

  private record Row(Coverage coverage, Map<String, String> groups, Optional<Revision> revision) {}

  /**
   * Makes tables of responses to these prompts.
   *
   * @param revised whether the last columns say what earlier drafts had
   */
  public ClassTables(Collection<Prompt> prompts, boolean revised) {
    this.prompts = List.copyOf(prompts);
    this.revised = revised;
  }

  /**
   * Adds a result.
   *
   * @param revision what became of the demands since an earlier draft, where there is one
   */
  public void add(Coverage coverage, Map<String, String> values, Optional<Revision> revision) {
    groups.addAll(values.keySet());
    rows.add(new Row(coverage, values, revision));
  }

  /** Returns {@code matrix.csv}. */
  public String matrix() {
    List<String> header =
        new ArrayList<>(List.of("response_id", "prompt_id", "verdict", "open", "look"));
    List<String> names = names();
    header.addAll(names);
    header.addAll(groups);
    if (revised) {
      header.addAll(REVISED);
      names.forEach(name -> header.add(name + " earlier"));
    }
    StringBuilder out = new StringBuilder(DemandsCsv.row(header));
    for (Row row : rows) {
      out.append(DemandsCsv.row(cells(row)));
    }
    return out.toString();
  }

  private List<String> names() {
    List<String> names = new ArrayList<>();
    for (Prompt prompt : prompts) {
      for (Part part : prompt.parts()) {
        for (int i = 0; i < part.demands().size(); i++) {
          String name = part.label() + (i + 1) + " " + part.demands().get(i).kind().word();
          names.add(prompts.size() > 1 ? prompt.id() + " " + name : name);
        }
      }
    }
    return names;
  }

  /** Returns {@code demands.csv}. */
  public String demands() {
    DemandsCsv table = new DemandsCsv(List.copyOf(groups), revised);
    StringBuilder out = new StringBuilder(table.header());
    rows.forEach(row -> out.append(table.rows(row.coverage(), row.groups(), row.revision())));
    return out.toString();
  }

  private List<String> cells(Row row) {
    List<DemandCoverage> demands =
        row.coverage().parts().stream().flatMap(part -> part.demands().stream()).toList();
    List<String> cells = new ArrayList<>();
    cells.add(row.coverage().responseId());
    cells.add(row.coverage().prompt().id());
    cells.add(row.coverage().verdict().word());
    cells.add(
        String.valueOf(
            demands.stream()
                .filter(one -> one.verdict() == Verdict.MISSING || one.verdict() == Verdict.PARTLY)
                .count()));
    cells.add(String.valueOf(demands.stream().filter(DemandCoverage::look).count()));
    verdicts(row, demands.stream().map(DemandCoverage::verdict).toList(), cells);
    groups.forEach(name -> cells.add(row.groups().getOrDefault(name, "")));
    if (revised) {
      for (Revision.Change change : List.of(Revision.Change.CLOSED, Revision.Change.LOST)) {
        cells.add(row.revision().map(one -> String.valueOf(one.count(change))).orElse(""));
      }
      verdicts(
          row,
          row.revision().map(Revision::items).orElse(List.of()).stream()
              .map(Revision.Item::earlier)
              .toList(),
          cells);
    }
    return cells;
  }

  /** Adds a cell for each demand of each prompt, with words under the row's own prompt. */
  private void verdicts(Row row, List<Verdict> verdicts, List<String> cells) {
    for (Prompt prompt : prompts) {
      boolean own = prompt.id().equals(row.coverage().prompt().id());
      int number = 0;
      for (Part part : prompt.parts()) {
        for (int i = 0; i < part.demands().size(); i++) {
          cells.add(own && number < verdicts.size() ? verdicts.get(number).word() : "");
          number++;
        }
      }
    }
  }
}
