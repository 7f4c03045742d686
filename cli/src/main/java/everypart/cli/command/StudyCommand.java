package everypart.cli.command;

import everypart.cli.intake.InputException;
import everypart.cli.intake.Sources;
import everypart.cli.intake.document.Limits;
import everypart.cli.report.StudyLog;
import everypart.cli.run.Console;
import everypart.cli.run.ExitStatus;
import everypart.cli.run.MissingMeaningException;
import everypart.cli.run.Workshop;
import everypart.cli.run.WrongCallException;
import everypart.cli.run.study.CodingPlan;
import everypart.cli.run.study.CodingSampler;
import everypart.cli.run.study.PlanFile;
import everypart.cli.run.study.StudyInputs;
import everypart.cli.run.study.StudyPlan;
import everypart.cli.run.study.StudyRepeat;
import everypart.cli.run.study.StudyRun;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** Judges many responses to many prompts. */
@Command(name = "study", mixinStandardHelpOptions = true)
final class StudyCommand implements Callable<Integer> {
  private static final Pattern SHARE = Pattern.compile("([1-9][0-9]{0,4})/([1-9][0-9]{0,4})");

  private static final Set<String> BESIDE_LOG =
      Set.of("--from-log", "--out", "--threads", "--resume");

  private static final Set<String> BESIDE_PLAN = Set.of("--plan", "--width", "--level");

  private final Console console;

  @Option(names = "--prompts", paramLabel = "DIR")
  private @Nullable String prompts;

  @Option(names = "--responses", paramLabel = "FILE")
  private @Nullable String responses;

  @Option(names = "--out", paramLabel = "DIR")
  private @Nullable Path out;

  @Mixin private final MeaningOption meaning = new MeaningOption();
  @Mixin private final QuickOption quick = new QuickOption();

  @Option(names = "--reader-share", paramLabel = "PERCENT", defaultValue = "100")
  private int readerShare;

  @Option(names = "--by", split = ",", paramLabel = "COLUMN")
  private List<String> by = List.of();

  @Option(names = "--cluster", split = ",", paramLabel = "COLUMN")
  private List<String> cluster = List.of();

  @Option(names = "--draft", paramLabel = "COLUMN[=FIRST,...,LAST]")
  private @Nullable String draft;

  @Option(names = "--writer", paramLabel = "COLUMN")
  private @Nullable String writer;

  @Option(names = "--codes", paramLabel = "FILE.csv")
  private @Nullable String codes;

  @Option(names = "--sample", paramLabel = "N")
  private @Nullable Integer sample;

  @Option(names = "--coders", paramLabel = "K")
  private int coders = 1;

  @Option(names = "--overlap", paramLabel = "SHARE")
  private double overlap = 0.2;

  @Option(names = "--leave-out-empty")
  private boolean leaveOutEmpty;

  @Option(names = "--least-words", paramLabel = "N")
  private @Nullable Integer leastWords;

  @Mixin private final LevelOption level = new LevelOption();

  @Option(names = "--seed", paramLabel = "N")
  private long seed = 1;

  @Option(names = "--threads", paramLabel = "N")
  private int threads = Runtime.getRuntime().availableProcessors();

  @Option(names = "--gzip")
  private boolean gzip;

  @Option(names = "--parquet")
  private boolean parquet;

  @Option(names = "--plan-file", paramLabel = "FILE.yaml")
  private @Nullable String planFile;

  @Option(names = "--shard", paramLabel = "I/N")
  private @Nullable String shard;

  @Option(names = "--resume")
  private boolean resume;

  @Option(names = "--from-log", paramLabel = "FILE")
  private @Nullable Path log;

  @Option(names = "--plan", paramLabel = "PILOT/summary.json")
  private @Nullable String plan;

  @Option(names = "--width", paramLabel = "W")
  private @Nullable Double width;

  @Spec
  @SuppressWarnings("NullAway.Init") // picocli sets it
  private CommandSpec spec;

  @Mixin private final LexiconOption lexicon = new LexiconOption();
  @Mixin private final LimitOption limit = new LimitOption();

  StudyCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call()
      throws InputException, WrongCallException, MissingMeaningException, IOException {
    if (threads < 1) {
      throw new WrongCallException(Sayings.of("study.threadsGiveNumber", threads));
    }
    if (plan != null || width != null) {
      return plan();
    }
    if (out == null) {
      throw new ParameterException(spec.commandLine(), Sayings.of("study.outNeededFolder"));
    }
    if (log != null) {
      refuseOthers(BESIDE_LOG, Sayings.of("study.logWhichTakes"));
      return StudyRepeat.open(console, log).run(out, threads, resume);
    }
    if (prompts == null || responses == null) {
      throw new ParameterException(spec.commandLine(), Sayings.of("study.promptsResponsesNeeded"));
    }
    if (resume && List.of(prompts, responses).contains(Sources.STANDARD_INPUT)) {
      throw new WrongCallException(Sayings.of("study.resumeNeedsInput"));
    }
    PlanFile asked =
        new PlanFile(
            new StudyLog.Primary("", List.of(), null),
            by,
            cluster.isEmpty() ? null : String.join(",", cluster),
            draft,
            writer,
            level.level().value(),
            seed,
            leastWords());
    PlanFile fixed = planFile == null ? asked : planned(planFile, asked);
    StudyLog.Settings settings =
        new StudyLog.Settings(
            prompts,
            responses,
            fixed.by(),
            fixed.cluster(),
            fixed.draft(),
            fixed.writer(),
            codes,
            fixed.level(),
            fixed.seed(),
            lexicon.folders().stream().map(Path::toString).toList(),
            meaning.asked(),
            gzip,
            "",
            fixed.leastWords(),
            parquet,
            planFile);
    StudyInputs.design(settings);
    Workshop workshop =
        new Workshop(
            console,
            limit.limits(),
            lexicon.folders(),
            meaning.open(),
            quick.open(readerShare, console));
    settings = settings.judgedBy(workshop.analyzer().judge());
    if (sample == null) {
      return new StudyRun(workshop, settings, share(), threads, resume).run(out);
    }
    if (share().isPresent()) {
      throw new WrongCallException(Sayings.of("study.sampleDrawsWhole"));
    }
    CodingSampler sampler = new CodingSampler(fixed.seed(), sample, coders, overlap);
    CodingSampler.refusePresent(out.resolve(CodingSampler.FOLDER));
    int status = new StudyRun(workshop, settings, Optional.empty(), threads, resume).run(out);
    sampler.writeAll(
        workshop,
        out.resolve(StudyRun.named(StudyRun.RESULTS, settings)),
        out.resolve(CodingSampler.FOLDER),
        responses,
        prompts);
    return status;
  }

  /** Returns what a plan file fixed, unless an option that was given differs from it. */
  private PlanFile planned(String file, PlanFile asked) throws InputException, WrongCallException {
    PlanFile fixed = PlanFile.read(new Sources(console.in(), Limits.USUAL, console::problem), file);
    Set<String> given =
        spec.commandLine().getParseResult().matchedOptions().stream()
            .map(OptionSpec::longestName)
            .collect(Collectors.toSet());
    Optional<String> difference = fixed.difference(asked, given);
    if (difference.isPresent()) {
      throw new WrongCallException(Sayings.of("study.differsFromPlan", difference.get(), file));
    }
    return fixed;
  }

  /** Returns how few words a response may have to count. */
  private int leastWords() throws WrongCallException {
    if (leastWords != null && leastWords < 1) {
      throw new WrongCallException(Sayings.of("study.leastWordsGive", leastWords));
    }
    return Math.max(leaveOutEmpty ? 1 : 0, leastWords == null ? 0 : leastWords);
  }

  /** Tells how large a study must be. */
  private int plan() throws InputException, WrongCallException {
    if (plan == null || width == null) {
      throw new ParameterException(spec.commandLine(), Sayings.of("study.planWidthNeed"));
    }
    refuseOthers(BESIDE_PLAN, Sayings.of("study.planWhichJudges"));
    double wanted = width;
    if (!(wanted > 0 && wanted < 1)) {
      throw new WrongCallException(Sayings.of("study.widthGiveNumber", wanted));
    }
    Sources sources = new Sources(console.in(), Limits.USUAL, console::problem);
    StudyPlan found = new StudyPlan(StudyPlan.read(sources, plan), wanted, level.level());
    PrintWriter text = console.text();
    found.lines().forEach(text::println);
    CodingPlan.read(sources, plan, level.level())
        .ifPresent(coding -> coding.lines(wanted).forEach(text::println));
    text.flush();
    return ExitStatus.DONE;
  }

  private void refuseOthers(Set<String> allowed, String why) {
    for (OptionSpec option : spec.commandLine().getParseResult().matchedOptions()) {
      if (!allowed.contains(option.longestName())) {
        throw new ParameterException(
            spec.commandLine(), Sayings.of("study.cannotGiven", option.longestName(), why));
      }
    }
  }

  private Optional<StudyLog.Share> share() throws WrongCallException {
    if (shard == null) {
      return Optional.empty();
    }
    Matcher numbers = SHARE.matcher(shard);
    if (numbers.matches()) {
      int index = Integer.parseInt(numbers.group(1));
      int of = Integer.parseInt(numbers.group(2));
      if (index <= of) {
        return Optional.of(new StudyLog.Share(index, of));
      }
    }
    throw new WrongCallException(Sayings.of("study.shardGiveShare", shard));
  }
}
