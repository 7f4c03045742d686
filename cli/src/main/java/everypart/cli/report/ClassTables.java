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
import java.util.Set;

/**
 * The tables of a class set: {@code matrix.csv} with a row a response and a column a demand, and
 * {@code demands.csv} with a row a response and demand.
 */
public final class ClassTables {
  private final List<Prompt> prompts;
  private final Set<String> groups = new LinkedHashSet<>();
  private final List<Row> rows = new ArrayList<>();

  private record Row(Coverage coverage, Map<String, String> groups) {}

  /** Makes tables of responses to these prompts. */
  public ClassTables(Collection<Prompt> prompts) {
    this.prompts = List.copyOf(prompts);
  }

  /** Adds a result. */
  public void add(Coverage coverage, Map<String, String> values) {
    groups.addAll(values.keySet());
    rows.add(new Row(coverage, values));
  }

  /** Returns {@code matrix.csv}. */
  public String matrix() {
    List<String> header =
        new ArrayList<>(List.of("response_id", "prompt_id", "verdict", "open", "look"));
    for (Prompt prompt : prompts) {
      for (Part part : prompt.parts()) {
        for (int i = 0; i < part.demands().size(); i++) {
          String name = part.label() + (i + 1) + " " + part.demands().get(i).kind().word();
          header.add(prompts.size() > 1 ? prompt.id() + " " + name : name);
        }
      }
    }
    header.addAll(groups);
    StringBuilder out = new StringBuilder(DemandsCsv.row(header));
    for (Row row : rows) {
      out.append(DemandsCsv.row(cells(row)));
    }
    return out.toString();
  }

  /** Returns {@code demands.csv}. */
  public String demands() {
    DemandsCsv table = new DemandsCsv(List.copyOf(groups));
    StringBuilder out = new StringBuilder(table.header());
    rows.forEach(row -> out.append(table.rows(row.coverage(), row.groups())));
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
    for (Prompt prompt : prompts) {
      if (prompt.id().equals(row.coverage().prompt().id())) {
        demands.forEach(one -> cells.add(one.verdict().word()));
      } else {
        prompt.parts().forEach(part -> part.demands().forEach(one -> cells.add("")));
      }
    }
    groups.forEach(name -> cells.add(row.groups().getOrDefault(name, "")));
    return cells;
  }
}
