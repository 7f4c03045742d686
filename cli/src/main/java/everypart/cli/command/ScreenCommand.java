package everypart.cli.command;

import everypart.cli.intake.Choices;
import everypart.cli.intake.InputException;
import everypart.cli.intake.NamePattern;
import everypart.cli.report.Slips;
import everypart.cli.run.Console;
import everypart.cli.run.MissingMeaningException;
import everypart.cli.run.Workshop;
import everypart.cli.run.WrongCallException;
import everypart.cli.run.screen.ScreenRun;
import java.io.IOException;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
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
      throws InputException, WrongCallException, MissingMeaningException, IOException {
    Workshop workshop =
        new Workshop(
            console, limit.limits(), lexicon.folders(), meaning.open(), quick.open(console));
    ScreenRun.Ended ended = ScreenRun.run(workshop, asked(), failOn::in);
    return failOn.exitStatus(ended.status(), ended.found());
  }

  private ScreenRun.Asked asked() {
    return new ScreenRun.Asked(
        prompt,
        responses,
        out,
        new Choices(columns, namePattern(), newest),
        Optional.ofNullable(registerFile),
        Optional.ofNullable(earlier),
        Optional.ofNullable(corrections),
        slips,
        Optional.ofNullable(keyFile),
        keep,
        Optional.ofNullable(names),
        bom,
        resume,
        given());
  }

  /** Returns the options of this call with what was given to each, in their order. */
  private Map<String, List<String>> given() {
    Map<String, List<String>> given = new LinkedHashMap<>();
    spec.commandLine()
        .getParseResult()
        .matchedOptions()
        .forEach(option -> given.put(option.longestName(), option.originalStringValues()));
    return given;
  }
}
