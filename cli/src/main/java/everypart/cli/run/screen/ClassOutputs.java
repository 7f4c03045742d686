package everypart.cli.run.screen;

import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.prompt.Prompt;
import everypart.cli.intake.Corrections;
import everypart.cli.intake.InputProblem;
import everypart.cli.intake.Room;
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
  private final Room room;
  private final String mark;
  private final Writer results;
  private final ClassTables tables;
  private final ScreenHtml page;
  private final Slips slips;
  private int responses;

  /**
   * Makes them.
   *
   * @param room what is held until the files are written may take
   * @param results where the lines of {@code results.jsonl} go
   * @param bom whether tables begin with a byte order mark
   * @param revised whether there are earlier drafts
   */
  ClassOutputs(
      Path folder,
      Room room,
      Collection<Prompt> prompts,
      Writer results,
      Set<Slips.Format> slips,
      boolean bom,
      boolean revised) {
    this.folder = folder;
    this.room = room;
    this.mark = bom ? "\ufeff" : "";
    this.results = results;
    this.tables = new ClassTables(prompts, revised);
    this.page = new ScreenHtml(prompts);
    this.slips = new Slips(slips);
  }

  /**
   * Adds a result, where there is room for it; its line is on disk at once. All that takes memory
   * is done before anything is kept, so that it is added whole or not at all.
   *
   * @param coverage the result with the teacher's verdicts
   * @param program the program's own
   * @param own what the teacher wrote beside it
   * @return whether there was room
   */
  boolean add(
      Coverage coverage,
      Coverage program,
      Optional<Revision> revision,
      Map<String, String> groups,
      Corrections.Own own)
      throws IOException {
    ScreenHtml.Row row = page.row(coverage, program, revision, groups, own);
    int characters = coverage.text().length();
    if (!room.take(row.bytes() + Room.bytes(coverage.text()), characters)) {
      return false;
    }
    String line = ResultJson.line(coverage, program, revision, groups);
    slips.add(coverage, own);
    tables.add(coverage, groups, revision);
    page.add(row);
    responses++;
    results.write(line);
    results.write('\n');
    results.flush();
    return true;
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
    try (OutputFile file = new OutputFile(folder.resolve("matrix.csv"))) {
      file.writer().write(mark);
      tables.writeMatrix(file.writer());
      file.finish();
    }
    try (OutputFile file = new OutputFile(folder.resolve("demands.csv"))) {
      file.writer().write(mark);
      tables.writeDemands(file.writer());
      file.finish();
    }
    try (OutputFile file = new OutputFile(folder.resolve("index.html"))) {
      page.write(problems, Optional.empty(), file.writer());
      file.finish();
    }
    slips.write(folder);
  }
}
