package everypart.cli.run.study;

import everypart.analyzer.study.StudySummary;
import everypart.analyzer.study.StudyTally;
import everypart.analyzer.study.agreement.Agreement;
import everypart.analyzer.study.statistics.Level;
import everypart.cli.intake.Checksum;
import everypart.cli.intake.InputException;
import everypart.cli.report.ModelScripts;
import everypart.cli.report.OutputFile;
import everypart.cli.report.StudyHtml;
import everypart.cli.report.StudyLog;
import everypart.cli.report.SummaryJson;
import everypart.cli.run.Workshop;
import everypart.cli.run.WrongCallException;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Writes what stands at the end of a study: the summary, the report, and the log. */
final class StudyReports {
  static final String LOG = "study.log.json";

  private static final String SUMMARY = "summary.json";
  private static final String REPORT = "report.html";

  private final Workshop workshop;
  private final Path folder;

  StudyReports(Workshop workshop, Path folder) {
    this.workshop = workshop;
    this.folder = folder;
  }

  /** Returns the names of the files that a study writes, or a share of one. */
  static List<String> names(List<String> tables, StudyLog.Settings settings, boolean share) {
    List<String> names = new ArrayList<>(tables);
    names.add(LOG);
    if (!share) {
      names.addAll(List.of(SUMMARY, REPORT));
      names.addAll(ModelScripts.names(settings));
      if (settings.parquet()) {
        names.add(DemandsParquet.NAME);
      }
    }
    return names;
  }

  /**
   * Writes the files.
   *
   * @param asked the log without rows, problems and outputs
   * @param tables the tables that were written already, results.jsonl and demands.csv
   */
  void write(
      StudyLog asked,
      StudyTally tally,
      long read,
      long judged,
      StudyProblems problems,
      List<StudyLog.Checked> tables)
      throws InputException, WrongCallException, IOException {
    Level level = new Level(asked.settings().level());
    int before = workshop.problems().seen().size();
    Optional<Agreement> agreement = agreement(asked, level, folder.resolve(tables.get(0).name()));
    workshop
        .problems()
        .seen()
        .subList(before, workshop.problems().seen().size())
        .forEach(problem -> problems.told(0, problem));
    StudySummary summary = StudySummary.of(tally, level, agreement);
    summary
        .drafts()
        .ifPresent(
            drafts ->
                workshop
                    .console()
                    .message(
                        Sayings.of(
                            "studyReports.draftsTakenOrder", String.join(", ", drafts.order()))));
    StudyLog log = log(asked, problems, read, judged, List.of());
    Path figures = folder.resolve(SUMMARY);
    Path report = folder.resolve(REPORT);
    OutputFile.write(figures, SummaryJson.of(log, summary, agreement));
    OutputFile.write(report, StudyHtml.of(log, summary, agreement));
    List<StudyLog.Checked> all = new ArrayList<>(tables);
    all.addAll(checked(List.of(figures, report)));
    for (var script :
        ModelScripts.of(log, StudyInputs.design(asked.settings()), tables.get(1).name())
            .entrySet()) {
      Path file = folder.resolve(script.getKey());
      OutputFile.write(file, script.getValue());
      all.addAll(checked(List.of(file)));
    }
    if (asked.settings().parquet()) {
      Path typed = folder.resolve(DemandsParquet.NAME);
      new DemandsParquet(
              workshop.sources(), asked.inputs().groups(), asked.settings().leastWords() > 0)
          .write(folder.resolve(tables.get(0).name()), folder.resolve(tables.get(1).name()), typed);
      all.addAll(checked(List.of(typed)));
    }
    writeLog(log(asked, problems, read, judged, all));
  }

  /** Writes the log alone, as a shard does. */
  void writeLog(
      StudyLog asked, long read, long judged, StudyProblems problems, List<StudyLog.Checked> tables)
      throws IOException {
    writeLog(log(asked, problems, read, judged, tables));
  }

  private void writeLog(StudyLog log) throws IOException {
    OutputFile.write(folder.resolve(LOG), log.json());
  }

  private static StudyLog log(
      StudyLog asked,
      StudyProblems problems,
      long read,
      long judged,
      List<StudyLog.Checked> outputs) {
    return new StudyLog(
        asked.program(),
        asked.settings(),
        asked.inputs(),
        asked.shard(),
        problems.rows(read, judged),
        problems.listed(),
        outputs);
  }

  /** Returns files with their checksums. */
  static List<StudyLog.Checked> checked(List<Path> files) throws IOException {
    List<StudyLog.Checked> checked = new ArrayList<>();
    for (Path file : files) {
      checked.add(
          new StudyLog.Checked(
              file.getFileName().toString(), Checksum.sha256(file.toString()).orElse(null)));
    }
    return checked;
  }

  private Optional<Agreement> agreement(StudyLog asked, Level level, Path results)
      throws InputException, WrongCallException {
    String file = asked.settings().codes();
    if (file == null) {
      return Optional.empty();
    }
    Optional<String> cluster = StudyInputs.design(asked.settings()).clusters().stream().findFirst();
    return Optional.of(
        CodedSet.read(workshop, file, Optional.empty(), results.toString())
            .agreement(cluster, level, asked.settings().seed(), workshop.problems()));
  }
}
