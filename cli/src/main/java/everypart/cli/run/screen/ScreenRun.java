package everypart.cli.run.screen;

import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.prompt.Prompt;
import everypart.cli.intake.Arrival;
import everypart.cli.intake.Arrivals;
import everypart.cli.intake.ByPseudonym;
import everypart.cli.intake.Choices;
import everypart.cli.intake.Corrections;
import everypart.cli.intake.InputException;
import everypart.cli.intake.InputProblem;
import everypart.cli.intake.LookAlikes;
import everypart.cli.intake.Place;
import everypart.cli.intake.PromptSet;
import everypart.cli.intake.Pseudonyms;
import everypart.cli.intake.Redaction;
import everypart.cli.intake.Register;
import everypart.cli.intake.Registered;
import everypart.cli.intake.Response;
import everypart.cli.intake.ResponseFiles;
import everypart.cli.intake.Room;
import everypart.cli.intake.UniqueIds;
import everypart.cli.intake.Veiled;
import everypart.cli.intake.WithinMemory;
import everypart.cli.journal.Analysis;
import everypart.cli.journal.Journal;
import everypart.cli.report.OutputFile;
import everypart.cli.report.Revision;
import everypart.cli.report.Slips;
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
import java.io.Writer;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.function.Predicate;

/**
 * One run over a class set: responses are read, judged on all cores, and written in their order.
 */
public final class ScreenRun {
  /** The class page may take this part of the memory. */
  private static final long PAGES_SHARE = 4;

  private final Workshop workshop;
  private final Asked asked;
  private final PromptSet prompts;
  private final Corrections own;
  private final Optional<Pseudonyms> pseudonyms;
  private final Redaction redaction;
  private final Optional<Register> register;

  /**
   * What a run is asked for.
   *
   * @param prompt the file or folder of the prompts
   * @param responses files, folders and zip files, or "-" for standard input
   * @param out the folder that is written to
   * @param choices how responses are found in what is given
   * @param register the list of the class
   * @param earlier the earlier drafts
   * @param corrections the teacher's own verdicts
   * @param slips in which formats feedback slips are written
   * @param keyFile the key of the pseudonyms
   * @param keep further columns that are kept beside pseudonyms
   * @param names the names to take out of responses
   * @param bom whether tables begin with a byte order mark
   * @param resume whether to go on with an interrupted run
   * @param given the options of the call with what was given to each, for a run that goes on
   */
  public record Asked(
      String prompt,
      List<String> responses,
      Path out,
      Choices choices,
      Optional<String> register,
      Optional<String> earlier,
      Optional<String> corrections,
      Set<Slips.Format> slips,
      Optional<Path> keyFile,
      Set<String> keep,
      Optional<String> names,
      boolean bom,
      boolean resume,
      Map<String, List<String>> given) {
    /** Copies the lists. */
    public Asked {
      responses = List.copyOf(responses);
      slips = Collections.unmodifiableSet(new LinkedHashSet<>(slips));
      keep = Set.copyOf(keep);
    }
  }

  /**
   * How a run ended.
   *
   * @param status its exit status, as far as inputs go
   * @param found whether something that was looked for is in a result
   */
  public record Ended(int status, boolean found) {}

  /** A judgement, and the result of the earlier draft where there is one. */
  private record Outcome(Judgement judgement, Optional<Coverage> earlier) {}

  private ScreenRun(Workshop workshop, Asked asked, PromptSet prompts)
      throws InputException, IOException {
    this.workshop = workshop;
    this.asked = asked;
    this.prompts = prompts;
    this.own =
        asked.corrections().isPresent()
            ? Corrections.read(workshop.sources(), asked.corrections().get(), prompts.all())
            : Corrections.NONE;
    this.pseudonyms =
        asked.keyFile().isPresent()
            ? Optional.of(Pseudonyms.withKey(asked.keyFile().get(), workshop.problems()::add))
            : Optional.empty();
    this.redaction =
        asked.names().isPresent()
            ? Redaction.read(workshop.sources(), asked.names().get())
            : Redaction.NONE;
    this.register =
        asked.register().isPresent()
            ? Optional.of(
                Register.read(workshop.sources(), asked.register().get(), workshop.problems()::add))
            : Optional.empty();
  }

  /**
   * Screens a class set.
   *
   * @param sought what to look for in each result
   * @throws WrongCallException when the folder cannot be written to, or the run cannot go on
   */
  public static Ended run(Workshop workshop, Asked asked, Predicate<Coverage> sought)
      throws InputException, WrongCallException, IOException {
    PromptSet prompts = workshop.prompts(asked.prompt());
    if (prompts.all().stream()
        .allMatch(one -> one.parts().stream().allMatch(part -> part.demands().isEmpty()))) {
      return new Ended(ExitStatus.INPUT_LOST, false);
    }
    return new ScreenRun(workshop, asked, prompts).run(sought);
  }

  private Ended run(Predicate<Coverage> sought) throws WrongCallException, IOException {
    List<String> inputs = new ArrayList<>(asked.responses());
    inputs.add(asked.prompt());
    asked.earlier().ifPresent(inputs::add);
    asked.register().ifPresent(inputs::add);
    try (OutputFolder folder =
        OutputFolder.open(
            asked.out(), inputs, outputs(asked.out(), Writer.nullWriter(), false).names())) {
      return screen(folder, sought);
    }
  }

  private ClassOutputs outputs(Path folder, Writer results, boolean revised) {
    return new ClassOutputs(
        folder, new Room(pages()), prompts.all(), results, asked.slips(), asked.bom(), revised);
  }

  private Ended screen(OutputFolder taken, Predicate<Coverage> sought)
      throws WrongCallException, IOException {
    Path folder = taken.path();
    Console console = workshop.console();
    Map<List<String>, String> drafts =
        asked.earlier().isPresent() ? drafts(asked.earlier().get()) : Map.of();
    UnfinishedClass unfinished =
        new UnfinishedClass(
            folder,
            UnfinishedClass.basis(asked.given(), prompts, workshop),
            workshop.analyzer()::analyze);
    boolean[] found = {false};
    try (ResponseFiles files = files(asked.responses());
        Arrivals held = new WithinMemory(files, new Room(pages()));
        Arrivals inOrder = veiled(known(held, true));
        Arrivals arrivals = pseudonyms.isPresent() ? new ByPseudonym(inOrder) : inOrder;
        Journal journal = unfinished.open(asked.resume(), console);
        OutputFile results = unfinished.file(folder.resolve("results.jsonl"))) {
      ClassOutputs outputs = outputs(folder, results.writer(), asked.earlier().isPresent());
      Progress progress =
          new Progress(
              console.status(),
              System::nanoTime,
              console.status().watched() && register.isEmpty()
                  ? files.left()
                  : OptionalLong.empty());
      OrderedPipeline.run(
          Runtime.getRuntime().availableProcessors(),
          arrivals,
          work(journal, drafts),
          outcome -> {
            console.stop().heed();
            if (outcome.judgement() instanceof Judgement.Judged judged) {
              if (added(judged, outcome.earlier(), outputs)) {
                found[0] |= sought.test(own.apply(judged.coverage()));
              }
            } else if (outcome.judgement() instanceof Judgement.Failed failed) {
              workshop.problems().add(failed.problem());
            }
            progress.step();
          },
          console.stop()::asked);
      progress.end();
      boolean stopped = console.stop().asked();
      if (outputs.responses() == 0 && !stopped && workshop.problems().exitStatus() == 0) {
        workshop.problems().add(Problems.nothingRead(String.join(", ", asked.responses())));
      }
      List<InputProblem> told = new ArrayList<>(told(workshop.problems().seen()));
      if (stopped) {
        InputProblem why = stopped(outputs.responses());
        workshop.problems().add(why);
        told.add(why);
      }
      taken.replace(outputs.names());
      results.finish();
      outputs.write(told);
      if (!stopped) {
        unfinished.end(journal);
      }
      console.message(
          outputs.responses()
              + (outputs.responses() == 1 ? " response" : " responses")
              + " read"
              + (journal.recalled() > 0
                  ? Sayings.of("screenRun.judgementsMadeBefore", journal.recalled())
                  : "")
              + "; open "
              + folder.resolve("index.html"));
    }
    return new Ended(workshop.problems().exitStatus(), found[0]);
  }

  /** Returns how many bytes may be held until the files are written. */
  private static long pages() {
    return Runtime.getRuntime().maxMemory() / PAGES_SHARE;
  }

  /** Adds a result; one for which there is no room, or no memory, costs a sentence. */
  private boolean added(Judgement.Judged judged, Optional<Coverage> earlier, ClassOutputs outputs)
      throws IOException {
    Coverage coverage = own.apply(judged.coverage());
    try {
      boolean room =
          outputs.add(
              coverage,
              judged.coverage(),
              earlier.map(draft -> new Revision(draft, coverage)),
              judged.response().groups(),
              own.of(judged.coverage()));
      if (!room) {
        workshop.problems().add(Room.tooLarge(judged.response().place()));
      }
      return room;
    } catch (OutOfMemoryError e) {
      workshop.problems().add(Judgement.tooLong(judged.response()));
      return false;
    }
  }

  private OrderedPipeline.Work<Arrival, Outcome> work(
      Analysis analysis, Map<List<String>, String> drafts) {
    return new OrderedPipeline.Work<>() {
      @Override
      public Outcome of(Arrival arrival) {
        Judgement judgement = Judgement.of(arrival, prompts, analysis);
        return new Outcome(
            judgement,
            judgement instanceof Judgement.Judged judged
                ? Optional.ofNullable(drafts.get(key(judged.response())))
                    .map(
                        text ->
                            analysis.analyze(
                                judged.coverage().prompt(), judged.response().id(), text))
                : Optional.empty());
      }

      @Override
      public long bytes(Arrival arrival) {
        String draft =
            arrival instanceof Response response ? drafts.getOrDefault(key(response), "") : "";
        return Judgement.bytes(arrival) + Judgement.bytes(draft);
      }

      @Override
      public Outcome withoutMemory(Arrival arrival, OutOfMemoryError error) {
        return new Outcome(Judgement.withoutMemory(arrival), Optional.empty());
      }
    };
  }

  private ResponseFiles files(List<String> inputs) {
    return new ResponseFiles(
        workshop.sources(), prompts.all(), asked.choices(), inputs, workshop.problems()::add);
  }

  /** Returns responses under the names of the register, where there is one. */
  private Arrivals known(Arrivals files, boolean everyone) {
    List<String> ids = prompts.all().stream().map(Prompt::id).toList();
    return register
        .<Arrivals>map(list -> new Registered(files, list, ids, everyone, workshop.problems()::add))
        .orElseGet(() -> new LookAlikes(files, workshop.problems()::add));
  }

  private Arrivals veiled(Arrivals files) {
    Set<String> kept = new HashSet<>(asked.keep());
    kept.add(Registered.HANDED_IN);
    return new Veiled(new UniqueIds(files, workshop.problems()::add), pseudonyms, redaction, kept);
  }

  private static List<String> key(Response response) {
    return List.of(response.id(), response.promptId().orElse(""));
  }

  /** Returns the texts of the earlier drafts, by id and prompt. */
  private Map<List<String>, String> drafts(String earlier) throws IOException {
    Map<List<String>, String> texts = new HashMap<>();
    try (ResponseFiles files = files(List.of(earlier));
        Arrivals held = new WithinMemory(files, new Room(pages()));
        Arrivals arrivals = veiled(known(held, false))) {
      while (arrivals.hasNext()) {
        Arrival arrival = arrivals.next();
        if (arrival instanceof Response response) {
          texts.put(key(response), response.text());
        } else if (arrival instanceof InputProblem problem) {
          workshop.problems().add(problem);
        }
      }
    }
    return texts;
  }

  /** Messages name files, and files are often named after students. */
  private List<InputProblem> told(List<InputProblem> problems) {
    return asked.keyFile().isEmpty() || problems.isEmpty()
        ? problems
        : List.of(
            InputProblem.note(
                Place.file("messages"),
                Sayings.of("screenRun.writtenConsoleOnly", problems.size()),
                Sayings.of("screenRun.runAgainSee")));
  }

  private static InputProblem stopped(int responses) {
    return InputProblem.fault(
        Place.file(Sayings.of("screenRun.run")),
        Sayings.of(
            responses == 1 ? "screenRun.stoppedAfter.one" : "screenRun.stoppedAfter", responses),
        Sayings.of("screenRun.sameCallResume"));
  }
}
