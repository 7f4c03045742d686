package everypart.cli.run.study;

import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.study.DraftOrder;
import everypart.analyzer.study.StudyDesign;
import everypart.cli.intake.Checksum;
import everypart.cli.intake.Codes;
import everypart.cli.intake.InputException;
import everypart.cli.intake.InputProblem;
import everypart.cli.intake.PromptSet;
import everypart.cli.intake.Response;
import everypart.cli.intake.ResponseRows;
import everypart.cli.intake.Sources;
import everypart.cli.report.Build;
import everypart.cli.report.DemandsCsv;
import everypart.cli.report.Doubts;
import everypart.cli.report.StudyLog;
import everypart.cli.run.Workshop;
import everypart.cli.run.WrongCallException;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * What a study rests on: its inputs are looked at before the long work, and vouched for in its log.
 */
public final class StudyInputs {
  private final Workshop workshop;
  private final StudyLog.Settings settings;
  private final Optional<StudyLog.Share> share;

  StudyInputs(Workshop workshop, StudyLog.Settings settings, Optional<StudyLog.Share> share) {
    this.workshop = workshop;
    this.settings = settings;
    this.share = share;
  }

  /** Returns the files that are read, as the caller named them. */
  List<String> files() {
    List<String> inputs = new ArrayList<>(List.of(settings.prompts(), settings.responses()));
    if (settings.codes() != null) {
      inputs.addAll(List.of(settings.codes().split(",")));
    }
    if (settings.planFile() != null) {
      inputs.add(settings.planFile());
    }
    return inputs;
  }

  /**
   * Returns the design that some settings ask for.
   *
   * @throws WrongCallException when they do not fit together
   */
  public static StudyDesign design(StudyLog.Settings settings) throws WrongCallException {
    String cluster = settings.cluster();
    try {
      return new StudyDesign(
          settings.by(),
          cluster == null ? List.of() : List.of(cluster.split(",")),
          drafts(settings));
    } catch (IllegalArgumentException e) {
      throw new WrongCallException(e.getMessage() + ".");
    }
  }

  private static Optional<StudyDesign.Drafts> drafts(StudyLog.Settings settings)
      throws WrongCallException {
    String draft = settings.draft();
    String writer = settings.writer();
    if (draft == null) {
      if (writer != null) {
        throw new WrongCallException(Sayings.of("studyInputs.writerOnlyNeeded"));
      }
      return Optional.empty();
    }
    if (writer == null) {
      throw new WrongCallException(Sayings.of("studyInputs.draftNeedsWriter"));
    }
    int at = draft.indexOf('=');
    List<String> order =
        at < 0
            ? List.of()
            : Stream.of(draft.substring(at + 1).split(",", -1)).map(String::strip).toList();
    return Optional.of(
        new StudyDesign.Drafts(at < 0 ? draft : draft.substring(0, at), order, writer));
  }

  /**
   * Looks at all that can be wrong before the first row is judged.
   *
   * @param columns the further columns of the responses
   */
  void check(List<String> columns) throws InputException, WrongCallException, IOException {
    checkColumns(columns);
    checkDrafts();
    checkCodes();
  }

  private void checkColumns(List<String> columns) throws WrongCallException {
    StudyDesign design = design(settings);
    List<String> asked = new ArrayList<>(design.by());
    asked.addAll(design.clusters());
    design.drafts().ifPresent(drafts -> asked.addAll(List.of(drafts.column(), drafts.writer())));
    if (settings.leastWords() > 0 && columns.contains(DemandsCsv.LEFT_OUT)) {
      throw new WrongCallException(
          Sayings.of("studyInputs.columnOneStudy", settings.responses(), DemandsCsv.LEFT_OUT));
    }
    for (String column : asked) {
      if (!columns.contains(column)) {
        throw new WrongCallException(
            Sayings.of(
                "studyInputs.noColumn",
                settings.responses(),
                column,
                columns.isEmpty()
                    ? Sayings.of("studyInputs.noFurtherColumns")
                    : String.join(", ", columns)));
      }
    }
  }

  /** Looks at all drafts before the long work, so that one without a place is told of at once. */
  private void checkDrafts() throws InputException, WrongCallException, IOException {
    Optional<StudyDesign.Drafts> drafts = design(settings).drafts();
    if (drafts.isEmpty() || settings.responses().equals(Sources.STANDARD_INPUT)) {
      return;
    }
    DraftOrder order = new DraftOrder(drafts.get());
    try (ResponseRows rows =
        ResponseRows.open(
            new Sources(workshop.console().in(), workshop.sources().limits(), told -> {}),
            settings.responses())) {
      while (rows.hasNext()) {
        if (rows.next() instanceof Response response) {
          String draft = response.groups().getOrDefault(drafts.get().column(), "").strip();
          if (!draft.isEmpty()) {
            order.place(draft);
          }
        }
      }
    } catch (DraftOrder.UnknownPlaceException e) {
      throw new WrongCallException(mend(e));
    }
  }

  static String mend(IllegalArgumentException e) {
    return e.getMessage()
        + (e instanceof DraftOrder.UnknownPlaceException
            ? Sayings.of("studyInputs.giveAllValues")
            : ".");
  }

  /** Reads the codes once before the long work, so that a fault in them is told of at once. */
  private void checkCodes() throws InputException {
    String codes = settings.codes();
    if (codes != null && !codes.equals(Sources.STANDARD_INPUT)) {
      new Codes(workshop.sources(), problem -> {}).codes(codes);
    }
  }

  /** Returns the log of a run that is still to be done. */
  StudyLog asked(PromptSet prompts, List<String> groups) throws InputException, IOException {
    List<StudyLog.PromptFile> files = new ArrayList<>();
    for (Prompt prompt : prompts.all()) {
      String file = prompts.file(prompt);
      files.add(
          new StudyLog.PromptFile(
              prompt.id(), prompt.title().orElse(prompt.id()), file, checked(file).sha256()));
    }
    String codes = settings.codes();
    String planFile = settings.planFile();
    StudyLog.Plan plan =
        planFile == null
            ? null
            : new StudyLog.Plan(
                planFile,
                checked(planFile).sha256(),
                PlanFile.read(workshop.sources(), planFile).primary());
    StudyLog.Inputs inputs =
        new StudyLog.Inputs(
            new StudyLog.Checked(
                settings.responses(), Checksum.sha256(settings.responses()).orElse(null)),
            groups,
            files,
            Doubts.of(prompts.all()),
            codes == null ? null : checked(codes),
            workshop.lexicon().sources().stream()
                .map(source -> new StudyLog.Checked(source.name(), source.sha256()))
                .toList(),
            plan);
    return new StudyLog(
        Build.name(),
        settings,
        inputs,
        share.orElse(null),
        StudyLog.Rows.NONE,
        List.of(),
        List.of());
  }

  /**
   * Refuses responses whose bytes are not those that the log is going to vouch for: what was judged
   * is what was read last.
   */
  void refuseChanged(StudyLog asked) throws InputException {
    StudyLog.Checked before = asked.inputs().responses();
    Optional<String> read = workshop.sources().checksum(before.name());
    if (before.sha256() != null && !read.equals(Optional.of(before.sha256()))) {
      throw new InputException(
          InputProblem.fault(
              Sources.place(before.name()),
              Sayings.of("studyInputs.fileChangedWhile"),
              Sayings.of("studyInputs.letNobodyWrite")));
    }
  }

  /** Returns a file with the checksum of its bytes as they were read, or as they are now. */
  private StudyLog.Checked checked(String name) throws IOException {
    Optional<String> read = workshop.sources().checksum(name);
    return new StudyLog.Checked(
        name, read.isPresent() ? read.get() : Checksum.sha256(name).orElse(null));
  }
}
