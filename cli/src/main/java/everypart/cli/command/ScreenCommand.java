package everypart.cli.command;

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
import everypart.cli.intake.NamePattern;
import everypart.cli.intake.Place;
import everypart.cli.intake.PromptSet;
import everypart.cli.intake.Pseudonyms;
import everypart.cli.intake.Redaction;
import everypart.cli.intake.Register;
import everypart.cli.intake.Registered;
import everypart.cli.intake.Response;
import everypart.cli.intake.ResponseFiles;
import everypart.cli.intake.Sources;
import everypart.cli.intake.UniqueIds;
import everypart.cli.intake.Veiled;
import everypart.cli.intake.WithinMemory;
import everypart.cli.journal.Analysis;
import everypart.cli.report.OutputFile;
import everypart.cli.report.Revision;
import everypart.cli.report.Slips;
import java.io.IOException;
import java.io.Writer;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.function.BiFunction;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Screens a class set, for its teacher. */
@Command(name = "screen", mixinStandardHelpOptions = true)
final class ScreenCommand implements Callable<Integer> {
  /** The class page may take this part of the memory. */
  private static final long PAGES_SHARE = 4;

  private final Console console;

  @Spec
  @SuppressWarnings("NullAway.Init") // picocli sets it
  private CommandSpec spec;

  @Mixin private final FailOnOption failOn = new FailOnOption();
  @Mixin private final MeaningOption meaning = new MeaningOption();
  @Mixin private final QuickOption quick = new QuickOption();

  @Option(names = "--out", required = true, paramLabel = "DIR")
  private Path out = Path.of("");

  @Option(names = "--columns", paramLabel = "WHAT=COLUMN", split = ",")
  private Map<String, String> columns = new LinkedHashMap<>();

  @Option(names = "--id-from", paramLabel = "PATTERN")
  private @Nullable String idFrom;

  @Option(names = "--register", paramLabel = "NAMES.csv")
  private @Nullable String registerFile;

  @Option(names = "--newest")
  private boolean newest;

  @Option(names = "--earlier", paramLabel = "DIR")
  private @Nullable String earlier;

  @Option(names = "--corrections", paramLabel = "FILE.json")
  private @Nullable String corrections;

  @Option(names = "--slips", paramLabel = "FORMAT", split = ",")
  private Set<Slips.Format> slips = EnumSet.noneOf(Slips.Format.class);

  @Option(names = "--pseudonyms", paramLabel = "KEYFILE")
  private @Nullable Path keyFile;

  @Option(names = "--keep", paramLabel = "COLUMN", split = ",")
  private Set<String> keep = Set.of();

  @Option(names = "--redact", paramLabel = "NAMES.txt")
  private @Nullable String names;

  @Option(names = "--bom")
  private boolean bom;

  @Option(names = "--resume")
  private boolean resume;

  @Parameters(index = "0", paramLabel = "PROMPT", descriptionKey = "PROMPT")
  private String prompt = "";

  @Parameters(
      index = "1..*",
      arity = "1..*",
      paramLabel = "RESPONSES",
      descriptionKey = "RESPONSES")
  private List<String> responses = List.of();

  @Mixin private final LexiconOption lexicon = new LexiconOption();
  @Mixin private final LimitOption limit = new LimitOption();

  ScreenCommand(Console console) {
    this.console = console;
  }

  /** A judgement, and the result of the earlier draft where there is one. */
  private record Outcome(Judgement judgement, Optional<Coverage> earlier) {}

  private static Outcome outcome(
      Arrival arrival, PromptSet prompts, Analysis analysis, Map<List<String>, String> drafts) {
    Judgement judgement = Judgement.of(arrival, prompts, analysis);
    return new Outcome(
        judgement,
        judgement instanceof Judgement.Judged judged
            ? Optional.ofNullable(drafts.get(key(judged.response())))
                .map(
                    text ->
                        analysis.analyze(judged.coverage().prompt(), judged.response().id(), text))
            : Optional.empty());
  }

  private static List<String> key(Response response) {
    return List.of(response.id(), response.promptId().orElse(""));
  }

  /** Returns the texts of the earlier drafts, by id and prompt. */
  private Map<List<String>, String> drafts(
      Function<List<String>, Arrivals> intake, Workshop workshop) throws IOException {
    Map<List<String>, String> texts = new HashMap<>();
    try (Arrivals arrivals = intake.apply(List.of(String.valueOf(earlier)))) {
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
    return keyFile == null || problems.isEmpty()
        ? problems
        : List.of(
            InputProblem.note(
                Place.file("messages"),
                Sayings.of("screen.writtenConsoleOnly", problems.size()),
                Sayings.of("screen.runAgainSee")));
  }

  private Optional<NamePattern> namePattern() {
    try {
      return Optional.ofNullable(idFrom).map(NamePattern::of);
    } catch (IllegalArgumentException e) {
      throw new ParameterException(
          spec.commandLine(), "--id-from " + idFrom + ": " + e.getMessage(), e);
    }
  }

  @Override
  public Integer call()
      throws InputException, OutputException, MissingMeaningException, IOException {
    Workshop workshop =
        new Workshop(
            console, limit.limits(), lexicon.folders(), meaning.open(), quick.open(console));
    PromptSet prompts = workshop.prompts(prompt);
    if (prompts.all().stream()
        .allMatch(one -> one.parts().stream().allMatch(part -> part.demands().isEmpty()))) {
      return ExitStatus.INPUT_LOST;
    }
    Corrections own =
        corrections == null
            ? Corrections.NONE
            : Corrections.read(workshop.sources(), corrections, prompts.all());
    Optional<Pseudonyms> pseudonyms =
        keyFile == null
            ? Optional.empty()
            : Optional.of(Pseudonyms.withKey(keyFile, workshop.problems()::add));
    Redaction redaction =
        names == null ? Redaction.NONE : Redaction.read(workshop.sources(), names);
    Optional<Register> register =
        registerFile == null
            ? Optional.empty()
            : Optional.of(
                Register.read(workshop.sources(), registerFile, workshop.problems()::add));
    Choices choices = new Choices(columns, namePattern(), newest);
    List<String> inputs = new ArrayList<>(responses);
    inputs.add(prompt);
    if (earlier != null) {
      inputs.add(earlier);
    }
    if (registerFile != null) {
      inputs.add(registerFile);
    }
    try (OutputFolder folder =
        OutputFolder.open(
            out,
            inputs,
            new ClassOutputs(out, prompts.all(), Writer.nullWriter(), slips, bom, false).names())) {
      return screen(workshop, prompts, own, pseudonyms, redaction, register, choices, folder);
    }
  }

  private int screen(
      Workshop workshop,
      PromptSet prompts,
      Corrections own,
      Optional<Pseudonyms> pseudonyms,
      Redaction redaction,
      Optional<Register> register,
      Choices choices,
      OutputFolder taken)
      throws OutputException, IOException {
    Path folder = taken.path();
    Set<String> kept = new HashSet<>(keep);
    kept.add(Registered.HANDED_IN);
    Function<Arrivals, Arrivals> veiled =
        files ->
            new Veiled(new UniqueIds(files, workshop.problems()::add), pseudonyms, redaction, kept);
    List<String> ids = prompts.all().stream().map(Prompt::id).toList();
    BiFunction<Arrivals, Boolean, Arrivals> known =
        (files, everyone) ->
            register
                .<Arrivals>map(
                    list -> new Registered(files, list, ids, everyone, workshop.problems()::add))
                .orElseGet(() -> new LookAlikes(files, workshop.problems()::add));
    Function<List<String>, ResponseFiles> intake =
        inputs ->
            new ResponseFiles(
                workshop.sources(), prompts.all(), choices, inputs, workshop.problems()::add);
    Map<List<String>, String> drafts =
        earlier == null
            ? Map.of()
            : drafts(intake.andThen(files -> veiled.apply(known.apply(files, false))), workshop);
    Map<String, String> basis =
        Unfinished.basis(spec.commandLine().getParseResult(), prompts, workshop);
    boolean[] found = {false};
    try (ResponseFiles files = intake.apply(responses);
        Arrivals held = new WithinMemory(files, Runtime.getRuntime().maxMemory() / PAGES_SHARE);
        Arrivals inOrder = veiled.apply(known.apply(held, true));
        Arrivals arrivals = pseudonyms.isPresent() ? new ByPseudonym(inOrder) : inOrder;
        Unfinished unfinished =
            Unfinished.open(folder, resume, basis, workshop.analyzer()::analyze, console);
        OutputFile results = unfinished.file(folder.resolve("results.jsonl"))) {
      ClassOutputs outputs =
          new ClassOutputs(folder, prompts.all(), results.writer(), slips, bom, earlier != null);
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
          new OrderedPipeline.Work<Arrival, Outcome>() {
            @Override
            public Outcome of(Arrival arrival) {
              return outcome(arrival, prompts, unfinished.journal(), drafts);
            }

            @Override
            public long size(Arrival arrival) {
              return Judgement.size(arrival);
            }

            @Override
            public Outcome withoutMemory(Arrival arrival, OutOfMemoryError error) {
              return new Outcome(Judgement.withoutMemory(arrival), Optional.empty());
            }
          },
          outcome -> {
            console.stop().heed();
            if (outcome.judgement() instanceof Judgement.Judged judged) {
              Coverage coverage = own.apply(judged.coverage());
              found[0] |= failOn.in(coverage);
              outputs.add(
                  coverage,
                  judged.coverage(),
                  outcome.earlier().map(draft -> new Revision(draft, coverage)),
                  judged.response().groups(),
                  own.of(judged.coverage()));
            } else if (outcome.judgement() instanceof Judgement.Failed failed) {
              workshop.problems().add(failed.problem());
            }
            progress.step();
          },
          console.stop()::asked);
      progress.end();
      boolean stopped = console.stop().asked();
      if (outputs.responses() == 0 && !stopped && workshop.problems().exitStatus() == 0) {
        workshop.problems().add(nothingRead(String.join(", ", responses)));
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
        unfinished.finish();
      }
      console.message(
          outputs.responses()
              + (outputs.responses() == 1 ? " response" : " responses")
              + " read"
              + (unfinished.journal().recalled() > 0
                  ? Sayings.of("screen.judgementsMadeBefore", unfinished.journal().recalled())
                  : "")
              + "; open "
              + folder.resolve("index.html"));
    }
    return failOn.exitStatus(workshop.problems().exitStatus(), found[0]);
  }

  /** Returns the problem that there was not one response. */
  static InputProblem nothingRead(String name) {
    return InputProblem.fault(
        Sources.place(name), Sayings.of("screen.oneResponse"), Sayings.of("screen.checkRightFile"));
  }

  private static InputProblem stopped(int responses) {
    return InputProblem.fault(
        Place.file(Sayings.of("screen.run")),
        Sayings.of(responses == 1 ? "screen.stoppedAfter.one" : "screen.stoppedAfter", responses),
        Sayings.of("screen.sameCallResume"));
  }
}
