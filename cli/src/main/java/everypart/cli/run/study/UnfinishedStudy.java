package everypart.cli.run.study;

import everypart.cli.intake.Checksum;
import everypart.cli.report.OutputFile;
import everypart.cli.report.StudyLog;
import everypart.cli.run.Unfinished;
import everypart.cli.run.WrongCallException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import java.util.Optional;

/**
 * What a run keeps until it is done, so that another can go on from it: the folder {@code
 * unfinished} in its folder.
 *
 * <p>A note says what the run was asked for. The tables grow beside it. A run that goes on sets the
 * longer table of the two runs before it aside and copies from there; so it may itself be
 * interrupted at any time. When both tables are whole and in their places their checksums are added
 * to the note, for a run that is interrupted only later.
 */
final class UnfinishedStudy extends Unfinished<KeptResults> {
  private final Path folder;
  private final List<Path> tables;
  private final StudyLog asked;

  /**
   * Takes a folder.
   *
   * @param tables results.jsonl and demands.csv, in their final places
   * @param asked what the run is asked for
   */
  UnfinishedStudy(Path folder, List<Path> tables, StudyLog asked) {
    super(folder);
    this.folder = folder;
    this.tables = List.copyOf(tables);
    this.asked = asked;
  }

  /** Begins a table. */
  OutputFile file(Path table) throws IOException {
    return OutputFile.kept(table, growing(table));
  }

  @Override
  public boolean present() throws IOException {
    return Files.exists(note());
  }

  @Override
  protected KeptResults begin() throws IOException {
    for (Path table : tables) {
      Files.deleteIfExists(growing(table));
      Files.deleteIfExists(aside(table));
    }
    OutputFile.write(note(), asked.json());
    return KeptResults.none();
  }

  @Override
  protected void refuseOther() throws WrongCallException, IOException {
    refuseOther(
        read(note())
            .orElseThrow(
                () ->
                    new WrongCallException(Sayings.of("unfinishedStudy.noteCannotRead", note()))));
  }

  @Override
  protected KeptResults goOn() throws IOException {
    List<StudyLog.Checked> outputs = read(note()).map(StudyLog::outputs).orElse(List.of());
    boolean whole = !outputs.isEmpty() && written(outputs);
    for (Path table : tables) {
      Path unfinished = growing(table);
      if (size(unfinished) > size(aside(table))) {
        Files.move(unfinished, aside(table), StandardCopyOption.REPLACE_EXISTING);
      }
    }
    return whole
        ? KeptResults.open(tables.get(0), tables.get(1))
        : KeptResults.open(aside(tables.get(0)), aside(tables.get(1)));
  }

  @Override
  protected String nothingThere() {
    return Sayings.of("unfinishedStudy.noInterruptedRun");
  }

  @Override
  protected String leftBehind() throws WrongCallException {
    throw new WrongCallException(Sayings.of("unfinishedStudy.interruptedRunLies", folder()));
  }

  /**
   * Returns the log of the same study when it lies in the folder, done and whole.
   *
   * @throws WrongCallException when it is of another study
   */
  Optional<StudyLog> done() throws WrongCallException, IOException {
    Optional<StudyLog> log = read(folder.resolve(StudyReports.LOG));
    if (log.isPresent()) {
      refuseOther(log.get());
    }
    return log.isPresent() && written(log.get().outputs()) ? log : Optional.empty();
  }

  private void refuseOther(StudyLog before) throws WrongCallException {
    Optional<String> difference = StudyDifference.between(before, asked);
    if (difference.isPresent()) {
      throw new WrongCallException(
          Sayings.of("unfinishedStudy.studyFolderCannot", folder, difference.get()));
    }
  }

  /** Notes that the tables are whole. */
  void judged(List<StudyLog.Checked> written) throws IOException {
    OutputFile.write(note(), asked.wrote(written).json());
  }

  /** Clears away what was kept. */
  void end() throws IOException {
    for (Path table : tables) {
      Files.deleteIfExists(aside(table));
    }
    Files.deleteIfExists(note());
    removeFolder();
  }

  private boolean written(List<StudyLog.Checked> files) throws IOException {
    for (StudyLog.Checked file : files) {
      Optional<String> now = Checksum.sha256(folder.resolve(file.name()).toString());
      if (now.isEmpty() || !now.equals(Optional.ofNullable(file.sha256()))) {
        return false;
      }
    }
    return true;
  }

  private static Optional<StudyLog> read(Path file) throws IOException {
    return Files.isRegularFile(file) ? StudyLog.read(Files.readString(file)) : Optional.empty();
  }

  private static long size(Path file) throws IOException {
    try {
      return Files.size(file);
    } catch (NoSuchFileException e) {
      return -1;
    }
  }

  private Path note() {
    return folder().resolve("asked.json");
  }

  private Path aside(Path table) {
    return folder().resolve("before-" + table.getFileName());
  }
}
