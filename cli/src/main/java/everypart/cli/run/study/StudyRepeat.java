package everypart.cli.run.study;

import everypart.analyzer.coverage.CoverageAnalyzer;
import everypart.analyzer.meaning.SentenceMeaning;
import everypart.cli.intake.InputException;
import everypart.cli.intake.InputProblem;
import everypart.cli.intake.Sources;
import everypart.cli.intake.document.Limits;
import everypart.cli.report.StudyLog;
import everypart.cli.run.Console;
import everypart.cli.run.ExitStatus;
import everypart.cli.run.MeaningJar;
import everypart.cli.run.MissingMeaningException;
import everypart.cli.run.Workshop;
import everypart.cli.run.WrongCallException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Stream;

/** Repeats a study from its log, and says whether the same bytes came out. */
public final class StudyRepeat {
  private final Console console;
  private final Path file;
  private final StudyLog log;

  private StudyRepeat(Console console, Path file, StudyLog log) {
    this.console = console;
    this.file = file;
    this.log = log;
  }

  /**
   * Reads a log.
   *
   * @throws InputException when it is no log, or of a run that read standard input
   */
  public static StudyRepeat open(Console console, Path file) throws InputException {
    String name = file.toString();
    StudyLog log =
        StudyLog.read(new Sources(console.in(), Limits.USUAL, problem -> {}).text(name))
            .orElseThrow(
                () ->
                    wrong(
                        file,
                        Sayings.of("studyRepeat.logStudy"),
                        Sayings.of("studyRepeat.giveStudyLog")));
    StudyLog.Settings settings = log.settings();
    if (Stream.of(settings.prompts(), settings.responses(), Objects.toString(settings.codes(), ""))
        .anyMatch(Sources.STANDARD_INPUT::equals)) {
      throw wrong(
          file,
          Sayings.of("studyRepeat.studyReadStandard"),
          Sayings.of("studyRepeat.saveInputFile"));
    }
    return new StudyRepeat(console, file, log);
  }

  /** Runs the study again and returns the exit status. */
  public int run(Path out, int threads, boolean resume)
      throws InputException, WrongCallException, MissingMeaningException, IOException {
    Path own = file.toAbsolutePath().normalize().getParent();
    if (out.toAbsolutePath().normalize().equals(own)) {
      throw new WrongCallException(Sayings.of("studyRepeat.logRepeatFolder", out));
    }
    StudyLog.Settings settings = log.settings();
    Optional<SentenceMeaning> meaning = MeaningJar.meaning(settings.meaning());
    List<Path> lexicons = settings.lexicon().stream().map(Path::of).toList();
    int share = CoverageAnalyzer.readerShare(settings.judge());
    Workshop workshop =
        new Workshop(console, lexicons, meaning, MeaningJar.reader(share == 0, share, console));
    if (!workshop.analyzer().judge().equals(settings.judge())) {
      throw wrong(
          file,
          Sayings.of("studyRepeat.studyJudgedHere", settings.judge(), workshop.analyzer().judge()),
          Sayings.of("studyRepeat.putEverypartMeaning"));
    }
    int status =
        new StudyRun(workshop, settings, Optional.ofNullable(log.shard()), threads, resume)
            .run(out, this::check);
    Optional<StudyLog> again = StudyLog.read(Files.readString(out.resolve(StudyReports.LOG)));
    if (again.equals(Optional.of(log))) {
      console.message(Sayings.of("studyRepeat.allFilesSame", file));
      return status;
    }
    List<String> others =
        log.outputs().stream()
            .filter(output -> again.stream().noneMatch(now -> now.outputs().contains(output)))
            .map(StudyLog.Checked::name)
            .toList();
    console.problem(
        wrong(
                file,
                Sayings.of(
                    "studyRepeat.filesCameOut",
                    others.isEmpty()
                        ? Sayings.of("studyRepeat.logItself")
                        : String.join(", ", others)),
                Sayings.of("studyRepeat.checkLogChanged"))
            .problem());
    return ExitStatus.INPUT_LOST;
  }

  private void check(StudyLog asked) throws InputException {
    Optional<String> difference = StudyDifference.between(log, asked);
    if (difference.isPresent()) {
      throw wrong(
          file,
          Sayings.of("studyRepeat.studyCannotRepeated", difference.get()),
          Sayings.of("studyRepeat.bringBackWhat"));
    }
  }

  private static InputException wrong(Path file, String what, String mend) {
    return new InputException(InputProblem.fault(Sources.place(file.toString()), what, mend));
  }
}
