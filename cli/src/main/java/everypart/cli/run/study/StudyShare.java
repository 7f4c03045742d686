package everypart.cli.run.study;

import everypart.cli.intake.Checksum;
import everypart.cli.intake.InputException;
import everypart.cli.intake.InputProblem;
import everypart.cli.intake.RawRecords;
import everypart.cli.intake.Sources;
import everypart.cli.report.StudyLog;
import java.io.BufferedReader;
import java.io.IOException;
import java.nio.file.Path;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;

/**
 * One share of a study, as {@code study --shard} wrote it.
 *
 * @param folder where its files are
 * @param log its log
 * @param lost the rows without a result
 */
public record StudyShare(Path folder, StudyLog log, BitSet lost) {
  /**
   * Opens a share and checks that its tables are whole.
   *
   * @throws InputException when it is no share, or its files are not as they were written
   */
  public static StudyShare open(Sources sources, Path folder) throws InputException, IOException {
    String name = folder.resolve(StudyReports.LOG).toString();
    StudyLog log =
        StudyLog.read(sources.text(name))
            .filter(found -> found.shard() != null)
            .orElseThrow(
                () ->
                    wrong(
                        name,
                        Sayings.of("studyShare.logShare"),
                        Sayings.of("studyShare.giveFolderStudy")));
    for (StudyLog.Checked output : log.outputs()) {
      String file = folder.resolve(output.name()).toString();
      if (!Checksum.sha256(file).equals(Optional.ofNullable(output.sha256()))) {
        throw wrong(
            file, Sayings.of("studyShare.fileLogSays"), Sayings.of("studyMerge.runShareAnew"));
      }
    }
    BitSet lost = new BitSet();
    for (List<Long> run : log.rows().lost()) {
      lost.set(Math.toIntExact(run.get(0)), Math.toIntExact(run.get(1) + 1));
    }
    return new StudyShare(folder, log, lost);
  }

  private static InputException wrong(String file, String what, String mend) {
    return new InputException(InputProblem.fault(Sources.place(file), what, mend));
  }

  private StudyLog.Share share() {
    StudyLog.Share share = log.shard();
    if (share == null) {
      throw new IllegalStateException("checked when the share was opened");
    }
    return share;
  }

  public int index() {
    return share().index();
  }

  public int shares() {
    return share().of();
  }

  /** Returns what the whole study was asked for. */
  public StudyLog whole() {
    return log.whole();
  }

  BufferedReader results(Sources sources) throws InputException {
    return new BufferedReader(sources.reader(file(StudyRun.RESULTS)));
  }

  RawRecords demands(Sources sources) throws InputException {
    return new RawRecords(new BufferedReader(sources.reader(file(StudyRun.DEMANDS))));
  }

  private String file(String name) {
    return folder.resolve(StudyRun.named(name, log.settings())).toString();
  }
}
