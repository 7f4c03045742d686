package everypart.cli.command;

import everypart.analyzer.study.agreement.Agreement;
import everypart.analyzer.study.agreement.CodedDemand;
import everypart.analyzer.study.statistics.Level;
import everypart.cli.intake.InputException;
import everypart.cli.intake.PromptSet;
import everypart.cli.report.AgreementJson;
import everypart.cli.report.AgreementText;
import everypart.cli.report.CodingSheet;
import everypart.cli.report.Disagreement;
import everypart.cli.report.OutputFile;
import everypart.cli.run.Console;
import everypart.cli.run.Workshop;
import everypart.cli.run.WrongCallException;
import everypart.cli.run.study.CodedSet;
import everypart.cli.run.study.CodingSampler;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** Sets the program's verdicts beside people's codes. */
@Command(name = "agree", mixinStandardHelpOptions = true)
final class AgreeCommand implements Callable<Integer> {
  /** How the figures are printed. */
  enum Format {
    TEXT,
    JSON
  }

  private final Console console;

  /** What is to be done. */
  static final class Task {
    @Option(names = "--codes", required = true, paramLabel = "FILE")
    @Nullable String codes;

    @Option(names = "--sample", required = true, paramLabel = "N")
    @Nullable Integer sample;
  }

  @ArgGroup(multiplicity = "1")
  private Task task = new Task();

  @Option(names = "--results", required = true, paramLabel = "results.jsonl")
  private String results = "";

  @Option(names = "--responses", paramLabel = "FILE")
  private @Nullable String responses;

  @Option(names = "--prompts", paramLabel = "DIR")
  private @Nullable String prompts;

  @Option(names = "--out", paramLabel = "FILE")
  private @Nullable Path out;

  @Option(names = "--design", paramLabel = "FILE")
  private @Nullable String design;

  @Option(names = "--cluster", paramLabel = "COLUMN")
  private @Nullable String cluster;

  @Option(names = "--by", split = ",", paramLabel = "COLUMN")
  private List<String> by = List.of();

  @Option(names = "--settle", paramLabel = "FILE")
  private @Nullable Path settle;

  @Option(names = "--format", paramLabel = "FORMAT")
  private Format format = Format.TEXT;

  @Option(names = "--list", paramLabel = "N")
  private int list = 20;

  @Mixin private final LevelOption level = new LevelOption();

  @Option(names = "--seed", paramLabel = "N")
  private long seed = 1;

  @Mixin private final LexiconOption lexicon = new LexiconOption();

  AgreeCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() throws InputException, WrongCallException, IOException {
    Workshop workshop =
        new Workshop(console, lexicon.folders(), Optional.empty(), Optional.empty());
    if (task.codes != null) {
      compare(workshop, task.codes);
    } else if (task.sample != null) {
      sample(workshop, task.sample);
    }
    return workshop.problems().exitStatus();
  }

  private void compare(Workshop workshop, String file)
      throws InputException, WrongCallException, IOException {
    Level asked = level.level();
    CodedSet coded = CodedSet.read(workshop, file, Optional.ofNullable(design), results);
    Agreement agreement =
        coded.agreement(Optional.ofNullable(cluster), asked, seed, workshop.problems());
    for (String column : by) {
      coded.checkColumn(column);
    }
    List<CodedDemand> told = new ArrayList<>(agreement.disagreements());
    told.addAll(agreement.unsettled());
    Map<String, String> texts =
        texts(workshop, told.stream().map(CodedDemand::responseId).collect(Collectors.toSet()));
    Function<CodedDemand, Disagreement> describe =
        demand -> coded.describe(demand, Optional.ofNullable(texts.get(demand.responseId())));
    if (format == Format.JSON) {
      console.out().print(AgreementJson.of(agreement, asked, by, describe));
    } else {
      PrintWriter text = console.text();
      new AgreementText(text, asked).write(agreement, by, describe, list);
      text.flush();
    }
    if (settle != null) {
      settle(workshop, agreement, texts, coded.sample(), settle);
    }
  }

  private void settle(
      Workshop workshop, Agreement agreement, Map<String, String> texts, String sample, Path sheet)
      throws InputException, WrongCallException, IOException {
    refusePresent(sheet);
    Optional<PromptSet> set =
        prompts == null ? Optional.empty() : Optional.of(workshop.prompts(prompts));
    List<CodingSheet.Line> lines =
        CodingSampler.settling(agreement.unsettled(), texts, set, sample);
    if (sheet.toString().toLowerCase(Locale.ROOT).endsWith(".xlsx")) {
      OutputFile.write(sheet, CodingSheet.workbook(lines, CodedDemand.SETTLED));
    } else {
      OutputFile.write(sheet, CodingSheet.csv(lines, CodedDemand.SETTLED));
    }
    console.message(Sayings.of("agree.demandsWhichCoders", lines.size(), sheet));
  }

  private static void refusePresent(Path sheet) throws WrongCallException {
    if (Files.exists(sheet, LinkOption.NOFOLLOW_LINKS)) {
      throw new WrongCallException(Sayings.of("agree.fileAlreadyMay", sheet));
    }
  }

  /** Returns the texts of some responses; none when no file of responses was given. */
  private Map<String, String> texts(Workshop workshop, Set<String> wanted)
      throws InputException, IOException {
    return responses == null
        ? Map.of()
        : CodingSampler.texts(workshop, responses, wanted, workshop.problems()::add);
  }

  private void sample(Workshop workshop, int size)
      throws InputException, WrongCallException, IOException {
    if (out == null) {
      throw new WrongCallException(Sayings.of("agree.sampleNeedsOut"));
    }
    refusePresent(out);
    CodingSampler sampler = new CodingSampler(seed, size, 1, 0);
    Optional<PromptSet> set =
        prompts == null ? Optional.empty() : Optional.of(workshop.prompts(prompts));
    int drawn =
        sampler.write(workshop, Path.of(results), out, wanted -> texts(workshop, wanted), set);
    console.message(Sayings.of("agree.demandsCodeSays", drawn, out, CodingSampler.designOf(out)));
    if (responses == null || prompts == null) {
      console.message(
          Sayings.of(
              responses != null
                  ? "agree.noQuestions"
                  : prompts != null ? "agree.noTexts" : "agree.noTextsNoQuestions"));
    }
  }
}
