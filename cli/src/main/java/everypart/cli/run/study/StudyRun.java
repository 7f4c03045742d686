package everypart.cli.run.study;

import everypart.analyzer.study.JudgedResponse;
import everypart.analyzer.study.StudyTally;
import everypart.cli.intake.InputException;
import everypart.cli.intake.InputProblem;
import everypart.cli.intake.NumberedRow;
import everypart.cli.intake.NumberedRows;
import everypart.cli.intake.PromptSet;
import everypart.cli.intake.ResponseRows;
import everypart.cli.report.DemandsCsv;
import everypart.cli.report.Exclusion;
import everypart.cli.report.ModelScripts;
import everypart.cli.report.OutputFile;
import everypart.cli.report.ResultJson;
import everypart.cli.report.StudyLog;
import everypart.cli.run.Console;
import everypart.cli.run.ExitStatus;
import everypart.cli.run.Judgement;
import everypart.cli.run.OrderedPipeline;
import everypart.cli.run.OutputFolder;
import everypart.cli.run.Problems;
import everypart.cli.run.Progress;
import everypart.cli.run.Workshop;
import everypart.cli.run.WrongCallException;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * One run of a study: rows are read, judged on all threads, and counted and written in their order.
 */
public final class StudyRun {
  public static final String RESULTS = "results.jsonl";
  static final String DEMANDS = "demands.csv";

  private final Workshop workshop;
  private final StudyLog.Settings settings;
  private final Optional<StudyLog.Share> share;
  private final int threads;
  private final boolean resume;
  private final StudyInputs inputs;

  /**
   * Takes what is asked for.
   *
   * @param resume whether to go on with an interrupted run
   */
  public StudyRun(
      Workshop workshop,
      StudyLog.Settings settings,
      Optional<StudyLog.Share> share,
      int threads,
      boolean resume) {
    this.workshop = workshop;
    this.settings = settings;
    this.share = share;
    this.threads = threads;
    this.resume = resume;
    this.inputs = new StudyInputs(workshop, settings, share);
  }

  /** A row, and what an interrupted run kept of it. */
  private record Task(NumberedRow row, Optional<KeptResults.KeptRow> kept) {}

  /**
   * What the worker threads hand to the writing thread.
   *
   * @param judged the response as the study counts it; nothing when it has no result
   * @param json the line of results.jsonl
   * @param table the rows of demands.csv
   * @param reason why it has no result
   * @param copied whether it was taken from an interrupted run
   */
  private record Outcome(
      NumberedRow row,
      Optional<JudgedResponse> judged,
      Optional<InputProblem> problem,
      Optional<Exclusion> reason,
      String json,
      String table,
      boolean copied) {}

  /** Returns the name of a table, with what zipping adds to it. */
  public static String named(String table, StudyLog.Settings settings) {
    return settings.gzip() ? table + ".gz" : table;
  }

  /** Looks at what a run is asked for before it begins. */
  interface Check {
    void of(StudyLog asked) throws InputException;
  }

  /** Runs the study and returns the exit status. */
  public int run(Path out) throws InputException, WrongCallException, IOException {
    return run(out, asked -> {});
  }

  /** Runs the study after a check and returns the exit status. */
  public int run(Path out, Check check) throws InputException, WrongCallException, IOException {
    if (settings.parquet()) {
      DemandsParquet.tables();
    }
    PromptSet prompts = workshop.prompts(settings.prompts());
    try (ResponseRows responses = ResponseRows.open(workshop.sources(), settings.responses());
        NumberedRows rows = new NumberedRows(responses)) {
      StudyLog asked = inputs.asked(prompts, responses.groups());
      check.of(asked);
      inputs.check(responses.groups());
      try (OutputFolder taken = OutputFolder.open(out, inputs.files(), outputs())) {
        return run(taken, rows, responses.groups(), prompts, asked);
      }
    }
  }

  /** Returns the names of the files that are written. */
  private List<String> outputs() {
    List<String> tables = List.of(named(RESULTS, settings), named(DEMANDS, settings));
    return StudyReports.names(tables, settings, share.isPresent());
  }

  private int run(
      OutputFolder taken, NumberedRows rows, List<String> groups, PromptSet prompts, StudyLog asked)
      throws InputException, WrongCallException, IOException {
    Path folder = taken.path();
    Path results = folder.resolve(named(RESULTS, settings));
    Path table = folder.resolve(named(DEMANDS, settings));
    UnfinishedStudy unfinished = new UnfinishedStudy(folder, List.of(results, table), asked);
    Optional<StudyLog> done =
        resume && !unfinished.present() ? unfinished.done() : Optional.empty();
    if (done.isPresent()) {
      workshop.console().message(Sayings.of("studyRun.studyDoneNothing", folder));
      return done.get().rows().faults() > 0 ? ExitStatus.INPUT_LOST : ExitStatus.DONE;
    }
    StudyProblems problems = new StudyProblems(workshop.console());
    workshop.problems().seen().forEach(problem -> problems.told(0, problem));
    StudyTally tally = new StudyTally(StudyInputs.design(settings));
    Optional<Long> whole =
        judge(rows, prompts, groups, results, table, unfinished, taken, asked, tally, problems);
    if (whole.isEmpty()) {
      workshop.console().message(Sayings.of("studyRun.stoppedWhatJudged", unfinished.folder()));
      return ExitStatus.INPUT_LOST;
    }
    long judged = whole.get();
    if (rows.read() == 0) {
      problems.tell(0, Problems.nothingRead(settings.responses()));
    }
    List<StudyLog.Checked> tables = StudyReports.checked(List.of(results, table));
    unfinished.judged(tables);
    StudyReports reports = new StudyReports(workshop, folder);
    if (share.isPresent()) {
      reports.writeLog(asked, rows.read(), judged, problems, tables);
    } else {
      reports.write(asked, tally, rows.read(), judged, problems, tables);
    }
    unfinished.end();
    workshop
        .console()
        .message(
            Sayings.of("studyRun.judged", judged)
                + leftOut(problems.rows(rows.read(), judged).reasons())
                + (share.isPresent()
                    ? Sayings.of("studyRun.shareResultsEverypart", folder)
                    : Sayings.of(
                        "studyRun.resultsJsonlDemands",
                        folder,
                        (settings.parquet() ? Sayings.of("studyRun.parquet") : "")
                            + (ModelScripts.names(settings).isEmpty()
                                ? ""
                                : Sayings.of("studyRun.modelRModel")))));
    return problems.exitStatus();
  }

  private String leftOut(StudyLog.Reasons reasons) {
    return settings.leastWords() == 0
        ? ""
        : Sayings.of(
            "studyRun.themLeftOut",
            reasons.empty() + reasons.tooShort(),
            reasons.empty(),
            reasons.tooShort());
  }

  /** Judges all rows and returns how many have a result; nothing when the run was stopped. */
  private Optional<Long> judge(
      NumberedRows rows,
      PromptSet prompts,
      List<String> groups,
      Path results,
      Path table,
      UnfinishedStudy unfinished,
      OutputFolder taken,
      StudyLog asked,
      StudyTally tally,
      StudyProblems problems)
      throws InputException, WrongCallException, IOException {
    DemandsCsv demands = DemandsCsv.ofStudy(groups, settings.leastWords() > 0);
    long[] judged = {0};
    long[] copied = {0};
    Console console = workshop.console();
    KeptResults earlier = unfinished.open(resume, console);
    Progress progress = new Progress(console.status(), System::nanoTime, OptionalLong.empty());
    console.stop().heed();
    try (OutputFile lines = unfinished.file(results);
        OutputFile cells = unfinished.file(table)) {
      cells.writer().write(demands.header());
      try (KeptResults kept = earlier) {
        OrderedPipeline.run(
            threads,
            tasks(new Taken(rows, share), kept),
            new OrderedPipeline.Work<Task, Outcome>() {
              @Override
              public Outcome of(Task task) {
                return judge(task, prompts, demands);
              }

              @Override
              public long bytes(Task task) {
                return Judgement.bytes(task.row().arrival());
              }

              @Override
              public Outcome withoutMemory(Task task, OutOfMemoryError error) {
                return failed(task.row(), Judgement.withoutMemory(task.row().arrival()));
              }
            },
            outcome -> {
              long number = outcome.row().number();
              outcome.row().noticed().forEach(problem -> problems.tell(number, problem));
              outcome.problem().ifPresent(problem -> problems.tell(number, problem));
              if (outcome.judged().isPresent()) {
                count(outcome.judged().get(), tally, problems);
                lines.writer().write(outcome.json());
                cells.writer().write(outcome.table());
                judged[0]++;
                copied[0] += outcome.copied() ? 1 : 0;
              } else {
                problems.lose(number);
                outcome.reason().ifPresent(reason -> problems.reason(reason, 1));
              }
              progress.step();
            },
            console.stop()::asked);
      }
      progress.end();
      if (console.stop().asked()) {
        return Optional.empty();
      }
      inputs.refuseChanged(asked);
      taken.replace(outputs());
      lines.finish();
      cells.finish();
      if (copied[0] > 0) {
        console.message(Sayings.of("studyRun.resultsTakenOver", copied[0]));
      }
      return Optional.of(judged[0]);
    } catch (IllegalArgumentException e) {
      throw new WrongCallException(StudyInputs.mend(e));
    }
  }

  /** Counts a response, unless it has fewer words than the study asks for. */
  private void count(JudgedResponse response, StudyTally tally, StudyProblems problems) {
    Exclusion.of(response.words(), settings.leastWords())
        .ifPresent(reason -> problems.reason(reason, 1));
    if (response.words() >= settings.leastWords()) {
      tally.add(response);
    }
  }

  private static Iterator<Task> tasks(Iterator<NumberedRow> rows, KeptResults kept) {
    return new Iterator<>() {
      @Override
      public boolean hasNext() {
        return rows.hasNext();
      }

      @Override
      public Task next() {
        NumberedRow row = rows.next();
        return new Task(row, kept.of(row));
      }
    };
  }

  private Outcome judge(Task task, PromptSet prompts, DemandsCsv table) {
    NumberedRow row = task.row();
    Optional<JudgedResponse> kept = task.kept().flatMap(KeptResults.KeptRow::result);
    if (kept.isPresent()) {
      KeptResults.KeptRow whole = task.kept().get();
      return new Outcome(
          row,
          kept,
          Optional.empty(),
          Optional.empty(),
          whole.line() + "\n",
          String.join("", whole.records()),
          true);
    }
    Judgement judgement = Judgement.of(row.arrival(), prompts, workshop.analyzer()::analyze);
    if (judgement instanceof Judgement.Judged judged) {
      Map<String, String> groups = judged.response().groups();
      JudgedResponse response = JudgedResponse.of(judged.coverage(), groups);
      Optional<Exclusion> leftOut = Exclusion.leftOut(response.words(), settings.leastWords());
      return new Outcome(
          row,
          Optional.of(response),
          Optional.empty(),
          Optional.empty(),
          ResultJson.line(judged.coverage(), groups, leftOut) + "\n",
          table.rowsOf(judged.coverage(), groups, leftOut),
          false);
    }
    return failed(row, judgement);
  }

  private static Outcome failed(NumberedRow row, Judgement judgement) {
    return new Outcome(
        row,
        Optional.empty(),
        Optional.of(((Judgement.Failed) judgement).problem()),
        Optional.of(((Judgement.Failed) judgement).reason()),
        "",
        "",
        false);
  }
}
