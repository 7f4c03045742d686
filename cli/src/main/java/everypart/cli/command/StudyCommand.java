package everypart.cli.command;

import everypart.analyzer.study.statistics.Level;
import everypart.cli.intake.InputException;
import everypart.cli.intake.Sources;
import everypart.cli.intake.document.Limits;
import everypart.cli.report.StudyLog;
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
@Command(
    name = "study",
    mixinStandardHelpOptions = true,
    header = "Judges many responses to many questions and counts which demands are left open.",
    footer = {
      "",
      "Examples:",
      "  everypart study --prompts questions/ --responses answers.csv --out study",
      "  everypart study --prompts questions/ --responses answers.csv --out study"
          + " --by cohort,school --cluster class,student --codes codes.csv",
      "  everypart study --prompts questions/ --responses answers.csv --out study"
          + " --writer student --draft round=pre,post",
      "  everypart study --prompts questions/ --responses answers.csv --out study"
          + " --sample 300 --coders 2 --overlap 0.2",
      "",
      "Gone on with after an interruption, and repeated later from its log:",
      "  everypart study --prompts questions/ --responses answers.csv --out study --resume",
      "  everypart study --from-log study/study.log.json --out again",
      "",
      "With what was fixed beforehand (docs/statistics.md shows such a file):",
      "  everypart study --prompts questions/ --responses answers.csv --out study"
          + " --plan-file plan.yaml",
      "",
      "How large a study must be, reckoned from a pilot:",
      "  everypart study --plan pilot/summary.json --width 0.1",
      "",
      "Exit status: 0 done; 2 the call was wrong; 3 an input could not be used as given, the rest"
          + " was done."
    })
final class StudyCommand implements Callable<Integer> {
  private static final Pattern SHARE = Pattern.compile("([1-9][0-9]{0,4})/([1-9][0-9]{0,4})");

  private static final Set<String> BESIDE_LOG =
      Set.of("--from-log", "--out", "--threads", "--resume");

  private static final Set<String> BESIDE_PLAN = Set.of("--plan", "--width", "--level");

  private final Console console;

  @Option(
      names = "--prompts",
      paramLabel = "DIR",
      description =
          "A folder of prompts, or one prompt: .txt, .md, .yaml, .docx, .odt,"
              + " .rtf, .pdf or .html.")
  private @Nullable String prompts;

  @Option(
      names = "--responses",
      paramLabel = "FILE",
      description = {
        "Responses with the columns response_id, prompt_id and text; further columns are kept as"
            + " groups. Also JSON lines with such fields (.jsonl); both may be zipped (.csv.gz,"
            + " .jsonl.gz). Also Parquet (.parquet), by a jar of its own. - reads standard input."
      })
  private @Nullable String responses;

  @Option(
      names = "--out",
      paramLabel = "DIR",
      description =
          "The folder for results.jsonl, demands.csv, summary.json, report.html and"
              + " study.log.json, and with --by for model.R and model.py, which fit a model to"
              + " demands.csv.")
  private @Nullable Path out;

  @Mixin private final MeaningOption meaning = new MeaningOption();
  @Mixin private final QuickOption quick = new QuickOption();

  @Option(
      names = "--reader-share",
      paramLabel = "PERCENT",
      defaultValue = "100",
      description = {
        "Ask the reader only about this share of the verdicts, those that the features are least"
            + " sure of: 40 takes less than half the time and keeps most of what the reader adds."
      })
  private int readerShare;

  @Option(
      names = "--by",
      split = ",",
      paramLabel = "COLUMN",
      description =
          "Columns whose values are compared, such as a cohort or a school; several with commas"
              + " between.")
  private List<String> by = List.of();

  @Option(
      names = "--cluster",
      split = ",",
      paramLabel = "COLUMN",
      description =
          "The column that names who or what answers come from together, such as the student or"
              + " the class; intervals and tests then allow for answers that resemble each other."
              + " Two levels with a comma between, the wider first: class,student. Without it, the"
              + " writer of drafts, else the response.")
  private List<String> cluster = List.of();

  @Option(
      names = "--draft",
      paramLabel = "COLUMN[=FIRST,...,LAST]",
      description =
          "The column that tells drafts apart; needs --writer. The first and the last draft are"
              + " compared. Unless its values are numbers or dates, say their order, as in"
              + " --draft round=pre,post.")
  private @Nullable String draft;

  @Option(
      names = "--writer",
      paramLabel = "COLUMN",
      description = "The column that names the writer, so that drafts of one writer are compared.")
  private @Nullable String writer;

  @Option(
      names = "--codes",
      paramLabel = "FILE.csv",
      description =
          "People's codes, as agree reads them: rates are then also given corrected for the"
              + " program's errors.")
  private @Nullable String codes;

  @Option(
      names = "--sample",
      paramLabel = "N",
      description =
          "Also draw N demands for people to code: a folder coding with a sheet for each coder,"
              + " which shows no verdict, a codebook, and design.csv, which agree needs.")
  private @Nullable Integer sample;

  @Option(
      names = "--coders",
      paramLabel = "K",
      description = "How many people code the sample (default: 1).")
  private int coders = 1;

  @Option(
      names = "--overlap",
      paramLabel = "SHARE",
      description = "The share of the sample that all of them code (default: 0.2).")
  private double overlap = 0.2;

  @Option(
      names = "--leave-out-empty",
      description =
          "Leave responses without a word out of all figures. Otherwise they count as leaving every"
              + " demand open.")
  private boolean leaveOutEmpty;

  @Option(
      names = "--least-words",
      paramLabel = "N",
      description =
          "Leave responses of fewer words than N out of all figures, empty ones too (default: no"
              + " response is left out).")
  private @Nullable Integer leastWords;

  @Option(
      names = "--level",
      paramLabel = "P",
      description = "The level of intervals (default: 0.95).")
  private double level = Level.DEFAULT.value();

  @Option(
      names = "--seed",
      paramLabel = "N",
      description = "Seed of alpha's interval (default: 1).")
  private long seed = 1;

  @Option(
      names = "--threads",
      paramLabel = "N",
      description =
          "How many threads judge (default: as many as cores). The outputs are the same for any"
              + " number.")
  private int threads = Runtime.getRuntime().availableProcessors();

  @Option(
      names = "--gzip",
      description = "Write results.jsonl.gz and demands.csv.gz instead of plain files.")
  private boolean gzip;

  @Option(
      names = "--parquet",
      description =
          "Also write demands.parquet, which holds the rows of demands.csv with types. Needs"
              + " everypart-parquet.jar beside everypart.jar.")
  private boolean parquet;

  @Option(
      names = "--plan-file",
      paramLabel = "FILE.yaml",
      description = {
        "What was fixed before the study: its one primary comparison, the columns, the level and"
            + " the seed. The report marks all else as exploratory, and an option that differs is"
            + " refused."
      })
  private @Nullable String planFile;

  @Option(
      names = "--shard",
      paramLabel = "I/N",
      description =
          "Judge only the I-th of N shares of the rows; everypart merge puts the shares together.")
  private @Nullable String shard;

  @Option(
      names = "--resume",
      description =
          "Go on with a run that was interrupted, in the same folder and with the same options and"
              + " files. The outputs are the same as those of a run in one piece.")
  private boolean resume;

  @Option(
      names = "--from-log",
      paramLabel = "FILE",
      description = {
        "Repeat the study of a study.log.json, with its options and from the folder it was run in;"
            + " files that have changed since are named. Takes --out, --threads and --resume, no"
            + " other options."
      })
  private @Nullable Path log;

  @Option(
      names = "--plan",
      paramLabel = "PILOT/summary.json",
      description = {
        "Judge nothing, but tell how many responses, clusters and coded demands a study needs, from"
            + " the summary of a pilot. Takes --width and --level, no other options."
      })
  private @Nullable String plan;

  @Option(
      names = "--width",
      paramLabel = "W",
      description =
          "For --plan: how wide the interval around the rate of missing demands, or around kappa,"
              + " may be from end to end, as in 0.1 for 10 points.")
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
      throws InputException, OutputException, MissingMeaningException, IOException {
    if (threads < 1) {
      throw new OutputException("--threads " + threads + ": give a number of threads, at least 1.");
    }
    if (plan != null || width != null) {
      return plan();
    }
    if (out == null) {
      throw new ParameterException(
          spec.commandLine(), "--out is needed: the folder for what the study writes");
    }
    if (log != null) {
      refuseOthers(BESIDE_LOG, "--from-log, which takes it from the log");
      return StudyRepeat.open(console, log).run(out, threads, resume);
    }
    if (prompts == null || responses == null) {
      throw new ParameterException(
          spec.commandLine(), "--prompts and --responses are needed, or --from-log instead");
    }
    if (resume && List.of(prompts, responses).contains(Sources.STANDARD_INPUT)) {
      throw new OutputException(
          "--resume needs input that can be read again: save standard input as a file.");
    }
    PlanFile asked =
        new PlanFile(
            new StudyLog.Primary("", List.of(), null),
            by,
            cluster.isEmpty() ? null : String.join(",", cluster),
            draft,
            writer,
            AgreeCommand.level(level).value(),
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
    StudyRun.design(settings);
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
      throw new OutputException("--sample draws from the whole set: give it to agree after merge.");
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
  private PlanFile planned(String file, PlanFile asked) throws InputException, OutputException {
    PlanFile fixed = PlanFile.read(new Sources(console.in(), Limits.USUAL, console::problem), file);
    Set<String> given =
        spec.commandLine().getParseResult().matchedOptions().stream()
            .map(OptionSpec::longestName)
            .collect(Collectors.toSet());
    Optional<String> difference = fixed.difference(asked, given);
    if (difference.isPresent()) {
      throw new OutputException(
          "this call has "
              + difference.get()
              + " ("
              + file
              + "); leave the option out, or run without --plan-file.");
    }
    return fixed;
  }

  /** Returns how few words a response may have to count. */
  private int leastWords() throws OutputException {
    if (leastWords != null && leastWords < 1) {
      throw new OutputException(
          "--least-words " + leastWords + ": give a number of words, at least 1.");
    }
    return Math.max(leaveOutEmpty ? 1 : 0, leastWords == null ? 0 : leastWords);
  }

  /** Tells how large a study must be. */
  private int plan() throws InputException, OutputException {
    if (plan == null || width == null) {
      throw new ParameterException(spec.commandLine(), "--plan and --width need each other");
    }
    refuseOthers(BESIDE_PLAN, "--plan, which judges nothing");
    if (!(width > 0 && width < 1)) {
      throw new OutputException(
          "--width " + width + ": give a number between 0 and 1, as in 0.1 for 10 points.");
    }
    Sources sources = new Sources(console.in(), Limits.USUAL, console::problem);
    StudyPlan found =
        new StudyPlan(StudyPlan.read(sources, plan), width, AgreeCommand.level(level));
    PrintWriter text = console.text();
    found.lines().forEach(text::println);
    CodingPlan.read(sources, plan, AgreeCommand.level(level))
        .ifPresent(coding -> coding.lines(width).forEach(text::println));
    text.flush();
    return ExitStatus.DONE;
  }

  private void refuseOthers(Set<String> allowed, String why) {
    for (OptionSpec option : spec.commandLine().getParseResult().matchedOptions()) {
      if (!allowed.contains(option.longestName())) {
        throw new ParameterException(
            spec.commandLine(), option.longestName() + " cannot be given with " + why);
      }
    }
  }

  private Optional<StudyLog.Share> share() throws OutputException {
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
    throw new OutputException(
        "--shard " + shard + ": give the share and how many there are, as in 2/8.");
  }
}
