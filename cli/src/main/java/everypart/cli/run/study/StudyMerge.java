package everypart.cli.run.study;

import everypart.analyzer.study.JudgedResponse;
import everypart.analyzer.study.StudyTally;
import everypart.cli.intake.InputException;
import everypart.cli.intake.InputProblem;
import everypart.cli.intake.RawRecords;
import everypart.cli.intake.ResultLines;
import everypart.cli.intake.Sources;
import everypart.cli.report.OutputFile;
import everypart.cli.report.StudyLog;
import everypart.cli.run.OutputFolder;
import everypart.cli.run.Workshop;
import everypart.cli.run.WrongCallException;
import java.io.BufferedReader;
import java.io.Closeable;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/** Puts the shares of a study together, row by row, and counts them anew. */
public final class StudyMerge {
  private final Workshop workshop;
  private final List<StudyShare> shares;

  /** Takes all shares, in their order. */
  public StudyMerge(Workshop workshop, List<StudyShare> shares) {
    this.workshop = workshop;
    this.shares = shares;
  }

  /** A share's tables, open. */
  private record Tables(StudyShare share, BufferedReader results, RawRecords demands)
      implements Closeable {
    @Override
    public void close() throws IOException {
      results.close();
      demands.close();
    }
  }

  /** Writes the whole study and returns the exit status. */
  public int run(Path out) throws InputException, WrongCallException, IOException {
    StudyLog whole = shares.get(0).whole();
    long read = shares.get(0).log().rows().read();
    List<String> tables =
        List.of(
            StudyRun.named(StudyRun.RESULTS, whole.settings()),
            StudyRun.named(StudyRun.DEMANDS, whole.settings()));
    List<String> names = StudyReports.names(tables, whole.settings(), false);
    List<String> inputs = shares.stream().map(share -> share.folder().toString()).toList();
    try (OutputFolder taken = OutputFolder.open(out, inputs, names)) {
      return run(taken, whole, read, names);
    }
  }

  private int run(OutputFolder taken, StudyLog whole, long read, List<String> names)
      throws InputException, WrongCallException, IOException {
    Path folder = taken.path();
    Path results = folder.resolve(names.get(0));
    Path demands = folder.resolve(names.get(1));
    StudyTally tally = new StudyTally(StudyInputs.design(whole.settings()));
    StudyProblems problems = problems();
    List<Tables> open = new ArrayList<>();
    long judged = 0;
    try (OutputFile lines = new OutputFile(results);
        OutputFile cells = new OutputFile(demands)) {
      for (StudyShare share : shares) {
        Tables tables =
            new Tables(share, share.results(workshop.sources()), share.demands(workshop.sources()));
        open.add(tables);
        String header = tables.demands().next().orElse("");
        if (open.size() == 1) {
          cells.writer().write(header);
        }
      }
      for (long row = 1; row <= read; row++) {
        Tables from = open.get((int) ((row - 1) % open.size()));
        if (from.share().lost().get(Math.toIntExact(row))) {
          problems.lose(row);
          continue;
        }
        copy(from, tally, lines, cells);
        judged++;
      }
      taken.replace(names);
      lines.finish();
      cells.finish();
    } finally {
      for (Tables tables : open) {
        tables.close();
      }
    }
    new StudyReports(workshop, folder)
        .write(
            whole, tally, read, judged, problems, StudyReports.checked(List.of(results, demands)));
    workshop.console().message(Sayings.of("studyMerge.sharesStudyPut", shares.size(), folder));
    return problems.exitStatus();
  }

  private static void copy(Tables from, StudyTally tally, OutputFile lines, OutputFile cells)
      throws InputException, IOException {
    String line = from.results().readLine();
    Optional<JudgedResponse> result =
        Optional.ofNullable(line).flatMap(found -> ResultLines.read(found));
    if (line == null || result.isEmpty()) {
      throw broken(from.share());
    }
    if (result.get().words() >= from.share().log().settings().leastWords()) {
      tally.add(result.get());
    }
    lines.writer().write(line);
    lines.writer().write("\n");
    for (int demand = 0; demand < result.get().demands().size(); demand++) {
      cells.writer().write(from.demands().next().orElseThrow(() -> broken(from.share())));
    }
  }

  private static InputException broken(StudyShare share) {
    return new InputException(
        InputProblem.fault(
            Sources.place(share.folder().toString()),
            Sayings.of("studyMerge.tablesShareDo"),
            Sayings.of("studyMerge.runShareAnew")));
  }

  /** Returns the problems of all shares, in the order of the rows; those of no row once. */
  private StudyProblems problems() {
    StudyProblems problems = new StudyProblems(workshop.console());
    List<StudyLog.Problem> listed = new ArrayList<>();
    long count = 0;
    long faults = 0;
    for (StudyShare share : shares) {
      count += share.log().rows().problems();
      faults += share.log().rows().faults();
      problems.reasons(share.log().rows().reasons());
      for (StudyLog.Problem problem : share.log().problems()) {
        if (problem.row() > 0 || share.index() == 1) {
          listed.add(problem);
        } else {
          count--;
          faults -= problem.fault() ? 1 : 0;
        }
      }
    }
    listed.sort(Comparator.comparing(StudyLog.Problem::row));
    listed.forEach(problems::add);
    problems.count(count, faults);
    return problems;
  }
}
