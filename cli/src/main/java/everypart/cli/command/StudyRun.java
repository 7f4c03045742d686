package everypart.cli.command;

import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.study.JudgedResponse;
import everypart.analyzer.study.StudyDesign;
import everypart.analyzer.study.StudyTally;
import everypart.cli.intake.Checksum;
import everypart.cli.intake.InputException;
import everypart.cli.intake.InputProblem;
import everypart.cli.intake.NumberedRow;
import everypart.cli.intake.NumberedRows;
import everypart.cli.intake.PromptSet;
import everypart.cli.intake.ResponseRows;
import everypart.cli.report.DemandsCsv;
import everypart.cli.report.Doubts;
import everypart.cli.report.OutputFile;
import everypart.cli.report.ResultJson;
import everypart.cli.report.StudyLog;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * One run of a study: rows are read, judged on all threads, and counted and written in their order.
 */
final class StudyRun {
  static final String RESULTS = "results.jsonl";
  static final String DEMANDS = "demands.csv";

  private final Workshop workshop;
  private final StudyLog.Settings settings;
  private final Optional<StudyLog.Share> share;
  private final int threads;

  StudyRun(
      Workshop workshop, StudyLog.Settings settings, Optional<StudyLog.Share> share, int threads) {
    this.workshop = workshop;
    this.settings = settings;
    this.share = share;
    this.threads = threads;
  }

  /**
   * What the worker threads hand to the writing thread.
   *
   * @param judged the response as the study counts it; nothing when it has no result
   * @param json the line of results.jsonl
   * @param table the rows of demands.csv
   */
  private record Outcome(
      NumberedRow row,
      Optional<JudgedResponse> judged,
      Optional<InputProblem> problem,
      String json,
      String table) {}

  /** Returns the name of a table, with what zipping adds to it. */
  static String named(String table, StudyLog.Settings settings) {
    return settings.gzip() ? table + ".gz" : table;
  }

  /** Runs the study and returns the exit status. */
  int run(Path out) throws InputException, OutputException, IOException {
    PromptSet prompts = workshop.prompts(settings.prompts());
    try (ResponseRows responses = ResponseRows.open(workshop.sources(), settings.responses());
        NumberedRows rows = new NumberedRows(responses)) {
      checkColumns(responses.groups());
      StudyLog asked = asked(prompts, responses.groups());
      Path folder = OutputFolder.prepare(out);
      StudyProblems problems = new StudyProblems(workshop.console());
      workshop.problems().seen().forEach(problem -> problems.told(0, problem));
      StudyTally tally = new StudyTally(design(settings));
      Path results = folder.resolve(named(RESULTS, settings));
      Path table = folder.resolve(named(DEMANDS, settings));
      long judged = judge(rows, prompts, responses.groups(), results, table, tally, problems);
      StudyReports reports = new StudyReports(workshop, folder);
      List<Path> tables = List.of(results, table);
      if (share.isPresent()) {
        reports.writeLog(asked, rows.read(), judged, problems, tables);
      } else {
        reports.write(asked, tally, rows.read(), problems, tables);
      }
      workshop
          .console()
          .message(
              judged
                  + " responses judged; "
                  + (share.isPresent()
                      ? "this share of the results is in " + folder + ", for everypart merge"
                      : "results.jsonl, demands.csv, summary.json and report.html are in "
                          + folder));
      return problems.exitStatus();
    }
  }

  private long judge(
      NumberedRows rows,
      PromptSet prompts,
      List<String> groups,
      Path results,
      Path table,
      StudyTally tally,
      StudyProblems problems)
      throws OutputException, IOException {
    DemandsCsv demands = new DemandsCsv(groups);
    long[] judged = {0};
    try (OutputFile lines = new OutputFile(results);
        OutputFile cells = new OutputFile(table)) {
      cells.writer().write(demands.header());
      OrderedPipeline.run(
          threads,
          new Taken(rows, share),
          row -> judge(row, prompts, demands),
          outcome -> {
            long number = outcome.row().number();
            outcome.row().noticed().forEach(problem -> problems.tell(number, problem));
            outcome.problem().ifPresent(problem -> problems.tell(number, problem));
            if (outcome.judged().isPresent()) {
              tally.add(outcome.judged().get());
              lines.writer().write(outcome.json());
              cells.writer().write(outcome.table());
              judged[0]++;
            } else {
              problems.lose(number);
            }
          });
      lines.finish();
      cells.finish();
      return judged[0];
    } catch (IllegalArgumentException e) {
      throw new OutputException(e.getMessage() + ".");
    }
  }

  private Outcome judge(NumberedRow row, PromptSet prompts, DemandsCsv table) {
    Judgement judgement = Judgement.of(row.arrival(), prompts, workshop.analyzer()::analyze);
    if (judgement instanceof Judgement.Judged judged) {
      return new Outcome(
          row,
          Optional.of(JudgedResponse.of(judged.coverage(), judged.response().groups())),
          Optional.empty(),
          ResultJson.line(judged.coverage(), judged.response().groups()) + "\n",
          table.rows(judged.coverage(), judged.response().groups()));
    }
    return new Outcome(
        row, Optional.empty(), Optional.of(((Judgement.Failed) judgement).problem()), "", "");
  }

  /**
   * Returns the design that some settings ask for.
   *
   * @throws OutputException when drafts are to be told apart but not their writers
   */
  static StudyDesign design(StudyLog.Settings settings) throws OutputException {
    try {
      return new StudyDesign(
          settings.by(),
          Optional.ofNullable(settings.cluster()),
          Optional.ofNullable(settings.draft()));
    } catch (IllegalArgumentException e) {
      throw new OutputException(
          "--draft needs --cluster with the column that names the writer ("
              + e.getMessage()
              + ").");
    }
  }

  private void checkColumns(List<String> columns) throws OutputException {
    List<String> asked =
        Stream.concat(
                settings.by().stream(),
                Stream.of(
                        Optional.ofNullable(settings.cluster()),
                        Optional.ofNullable(settings.draft()))
                    .flatMap(Optional::stream))
            .toList();
    for (String column : asked) {
      if (!columns.contains(column)) {
        throw new OutputException(
            settings.responses()
                + ": there is no column \""
                + column
                + "\"; it has "
                + (columns.isEmpty() ? "no further columns" : String.join(", ", columns))
                + ".");
      }
    }
  }

  private StudyLog asked(PromptSet prompts, List<String> groups) throws IOException {
    List<StudyLog.PromptFile> files = new ArrayList<>();
    for (Prompt prompt : prompts.all()) {
      String file = prompts.file(prompt);
      files.add(
          new StudyLog.PromptFile(
              prompt.id(),
              prompt.title().orElse(prompt.id()),
              file,
              Checksum.sha256(file).orElse(null)));
    }
    String codes = settings.codes();
    StudyLog.Inputs inputs =
        new StudyLog.Inputs(
            checked(settings.responses()),
            groups,
            files,
            Doubts.of(prompts.all()),
            codes == null ? null : checked(codes),
            workshop.lexicon().sources().stream()
                .map(source -> new StudyLog.Checked(source.name(), source.sha256()))
                .toList());
    return new StudyLog(
        EverypartCommand.Version.name(),
        settings,
        inputs,
        share.orElse(null),
        new StudyLog.Rows(0, 0, List.of(), 0, 0),
        List.of(),
        List.of());
  }

  private static StudyLog.Checked checked(String name) throws IOException {
    return new StudyLog.Checked(name, Checksum.sha256(name).orElse(null));
  }
}
