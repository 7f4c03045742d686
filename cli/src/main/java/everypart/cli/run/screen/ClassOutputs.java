package everypart.cli.run.screen;

import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.prompt.Prompt;
import everypart.cli.intake.Corrections;
import everypart.cli.intake.InputProblem;
import everypart.cli.report.ClassTables;
import everypart.cli.report.OutputFile;
import everypart.cli.report.ResultJson;
import everypart.cli.report.Revision;
import everypart.cli.report.ScreenHtml;
import everypart.cli.report.Slips;
import java.io.IOException;
import java.io.Writer;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** The files that a class set is written to. */
final class ClassOutputs {
  private final Path folder;
  private final String mark;
  private final Writer results;
  private final ClassTables tables;
  private final ScreenHtml page;
  private final Slips slips;
  private int responses;

  /**
   * Makes them.
   *
   * @param results where the lines of {@code results.jsonl} go
   * @param bom whether tables begin with a byte order mark
   * @param revised whether there are earlier drafts
   */
  ClassOutputs(
      Path folder,
      Collection<Prompt> prompts,
      Writer results,
      Set<Slips.Format> slips,
      boolean bom,
      boolean revised) {
    this.folder = folder;
    this.mark = bom ? "\ufeff" : "";
    this.results = results;
    this.tables = new ClassTables(prompts, revised);
    this.page = new ScreenHtml(prompts);
    this.slips = new Slips(slips);
  }

  /**
   * Adds a result; its line is on disk at once.
   *
   * @param coverage the result with the teacher's verdicts
   * @param program the program's own
   * @param own what the teacher wrote beside it
   */
  void add(
      Coverage coverage,
      Coverage program,
      Optional<Revision> revision,
      Map<String, String> groups,
      Corrections.Own own)
      throws IOException {
    responses++;
    results.write(ResultJson.line(coverage, program, revision, groups) + "\n");
    results.flush();
    tables.add(coverage, groups, revision);
    page.add(coverage, program, revision, groups, own);
    slips.add(coverage, own);
  }

  /** Returns the names of the files that are written. */
  List<String> names() {
    List<String> names =
        new ArrayList<>(List.of("results.jsonl", "matrix.csv", "demands.csv", "index.html"));
    names.addAll(slips.names());
    return names;
  }

  /** Returns how many results there are. */
  int responses() {
    return responses;
  }

  /**
   * Writes all but {@code results.jsonl}.
   *
   * @param problems what the page says could not be used as given
   */
  void write(List<InputProblem> problems) throws IOException {
    OutputFile.write(folder.resolve("matrix.csv"), mark + tables.matrix());
    OutputFile.write(folder.resolve("demands.csv"), mark + tables.demands());
    try (OutputFile file = new OutputFile(folder.resolve("index.html"))) {
      page.write(problems, Optional.empty(), file.writer());
      file.finish();
    }
    slips.write(folder);
  }
}
