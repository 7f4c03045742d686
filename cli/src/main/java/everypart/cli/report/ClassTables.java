package everypart.cli.report;

import everypart.analyzer.assign.Assignment;
import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.coverage.DemandCoverage;
import everypart.analyzer.coverage.Verdict;
import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Prompt;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Stream;

/**
 * The tables of a class set: {@code matrix.csv} with a row a response and a column a demand, and
 * {@code demands.csv} with a row a response and demand.
 */
public final class ClassTables {
  private final List<Prompt> prompts;
  private final boolean revised;
  private final Set<String> groups = new LinkedHashSet<>();
  private final List<Row> rows = new ArrayList<>();

  /** A result, with its verdicts and the earlier ones in reading order. */
  private record Row(
      Coverage coverage,
      Map<String, String> groups,
      Optional<Revision> revision,
      List<Verdict> verdicts,
      List<Verdict> earlier) {
    static Row of(Coverage coverage, Map<String, String> groups, Optional<Revision> revision) {
      return new Row(
          withoutSentences(coverage),
          groups,
          revision,
          demands(coverage).map(DemandCoverage::verdict).toList(),
          revision.map(Revision::items).orElse(List.of()).stream()
              .map(Revision.Item::earlier)
              .toList());
    }

    /** No table shows the sentences, and they take more memory than the text. */
    private static Coverage withoutSentences(Coverage coverage) {
      return new Coverage(
          coverage.responseId(),
          coverage.prompt(),
          coverage.text(),
          coverage.verdict(),
          coverage.parts(),
          new Assignment(List.of(), List.of(), List.of()),
          coverage.judge());
    }

    private static Stream<DemandCoverage> demands(Coverage coverage) {
      return coverage.parts().stream().flatMap(part -> part.demands().stream());
    }

    String count(Predicate<DemandCoverage> which) {
      return String.valueOf(demands(coverage).filter(which).count());
    }

    String changed(Revision.Change change) {
      return revision.map(one -> String.valueOf(one.count(change))).orElse("");
    }

    /** Returns the verdict on a demand of a prompt; nothing where another prompt was answered. */
    String word(Prompt prompt, int number, List<Verdict> verdicts) {
      return prompt.id().equals(coverage.prompt().id()) && number < verdicts.size()
          ? verdicts.get(number).word()
          : "";
    }
  }

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
    rows.add(Row.of(coverage, values, revision));
  }

  /** Writes a table. */
  private interface Table {
    void write(Appendable out) throws IOException;
  }

  private static String text(Table table) {
    StringBuilder out = new StringBuilder();
    try {
      table.write(out);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return out.toString();
  }

  /** Returns {@code matrix.csv}. */
  public String matrix() {
    return text(this::writeMatrix);
  }

  /** Writes {@code matrix.csv}, a row at a time. */
  public void writeMatrix(Appendable out) throws IOException {
    List<Column<Row>> columns = columns();
    out.append(DemandsCsv.row(Column.heads(columns)));
    for (Row row : rows) {
      out.append(DemandsCsv.row(Column.cells(columns, row)));
    }
  }

  private List<Column<Row>> columns() {
    List<Column<Row>> columns = new ArrayList<>();
    columns.add(new Column<>("response_id", row -> row.coverage().responseId()));
    columns.add(new Column<>("prompt_id", row -> row.coverage().prompt().id()));
    columns.add(new Column<>("verdict", row -> row.coverage().verdict().word()));
    columns.add(
        new Column<>(
            "open",
            row ->
                row.count(
                    one -> one.verdict() == Verdict.MISSING || one.verdict() == Verdict.PARTLY)));
    columns.add(new Column<>("look", row -> row.count(DemandCoverage::look)));
    addDemands("", Row::verdicts, columns);
    groups.forEach(
        name -> columns.add(new Column<>(name, row -> row.groups().getOrDefault(name, ""))));
    if (revised) {
      columns.add(new Column<>("closed", row -> row.changed(Revision.Change.CLOSED)));
      columns.add(new Column<>("lost", row -> row.changed(Revision.Change.LOST)));
      addDemands(" earlier", Row::earlier, columns);
    }
    return columns;
  }

  /** Adds a column for each demand of each prompt, with words under the row's own prompt. */
  private void addDemands(
      String ending, Function<Row, List<Verdict>> verdicts, List<Column<Row>> columns) {
    for (Prompt prompt : prompts) {
      int at = 0;
      for (Part part : prompt.parts()) {
        for (int i = 0; i < part.demands().size(); i++) {
          String name = part.label() + (i + 1) + " " + part.demands().get(i).kind().word();
          int number = at++;
          columns.add(
              new Column<>(
                  (prompts.size() > 1 ? prompt.id() + " " + name : name) + ending,
                  row -> row.word(prompt, number, verdicts.apply(row))));
        }
      }
    }
  }

  /** Returns {@code demands.csv}. */
  public String demands() {
    return text(this::writeDemands);
  }

  /** Writes {@code demands.csv}, the rows of a result at a time. */
  public void writeDemands(Appendable out) throws IOException {
    DemandsCsv table = new DemandsCsv(List.copyOf(groups), revised);
    out.append(table.header());
    for (Row row : rows) {
      out.append(table.rows(row.coverage(), row.groups(), row.revision()));
    }
  }
}
