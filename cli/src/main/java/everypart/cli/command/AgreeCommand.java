package everypart.cli.command;

import everypart.analyzer.study.agreement.Agreement;
import everypart.analyzer.study.agreement.CodedDemand;
import everypart.analyzer.study.statistics.Level;
import everypart.cli.intake.Codes;
import everypart.cli.intake.InputException;
import everypart.cli.intake.PromptSet;
import everypart.cli.report.AgreementJson;
import everypart.cli.report.AgreementText;
import everypart.cli.report.CodingSheet;
import everypart.cli.report.Disagreement;
import everypart.cli.report.OutputFile;
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
@Command(
    name = "agree",
    mixinStandardHelpOptions = true,
    header = "Shows how far the program's verdicts agree with people's codes.",
    description = {
      "",
      "The codes are a CSV file with the columns response_id, part, demand (its running number in"
          + " the part, from 1), code (1 addressed, 0 not, empty where left open) and, where there"
          + " are several, coder. The verdict partly counts as addressed; unchecked is left out.",
      "",
      "Precision of missing: of what the program calls missing, the share that the coder does too."
          + " Recall of missing: of what the coder calls missing, the share that the program"
          + " finds.",
      "",
      "With --sample N no agreement is computed: a sheet of N demands to code is written, drawn so"
          + " that uncertain verdicts come up more often, and beside it a file that says what they"
          + " were drawn from, so that figures can be given for the whole set. The sheet does not"
          + " show the program's verdicts, so that they sway nobody. For several coders see study"
          + " --sample."
    },
    footer = {
      "",
      "Examples:",
      "  everypart agree --codes codes.csv --results study/results.jsonl",
      "  everypart agree --sample 300 --results study/results.jsonl --responses answers.csv"
          + " --prompts questions --out to-code.xlsx",
      "  everypart agree --codes to-code.xlsx --results study/results.jsonl",
      "  everypart agree --codes coding/coder-1.xlsx,coding/coder-2.xlsx --results"
          + " study/results.jsonl --by first_language --settle settle.xlsx",
      "",
      "Exit status: 0 done; 2 the call was wrong; 3 a row could not be used, the rest was done."
    })
final class AgreeCommand implements Callable<Integer> {
  /** What alpha's bootstrap uses unless told otherwise. */
  static final int RESAMPLES = 1000;

  /** How the figures are printed. */
  enum Format {
    TEXT,
    JSON
  }

  private final Console console;

  /** What is to be done. */
  static final class Task {
    @Option(
        names = "--codes",
        required = true,
        paramLabel = "FILE",
        description =
            "People's codes: .csv, .tsv, .xlsx, or corrections saved from the report of screen"
                + " (.json); several files with commas between; - reads CSV from standard input.")
    @Nullable String codes;

    @Option(
        names = "--sample",
        required = true,
        paramLabel = "N",
        description = "Write a sheet of N demands to code.")
    @Nullable Integer sample;
  }

  @ArgGroup(multiplicity = "1")
  private Task task = new Task();

  @Option(
      names = "--results",
      required = true,
      paramLabel = "results.jsonl",
      description = "The verdicts, as screen and study write them.")
  private String results = "";

  @Option(
      names = "--responses",
      paramLabel = "FILE",
      description =
          "The responses, for their text: in the sheet, and where program and people differ.")
  private @Nullable String responses;

  @Option(
      names = "--prompts",
      paramLabel = "DIR",
      description = "The prompts, for the question's wording in the sheet.")
  private @Nullable String prompts;

  @Option(
      names = "--out",
      paramLabel = "FILE",
      description =
          "Where the sheet of --sample goes: .csv, or .xlsx for a spreadsheet. What it was drawn from is"
              + " written beside it, as NAME.design.csv.")
  private @Nullable Path out;

  @Option(
      names = "--design",
      paramLabel = "FILE",
      description =
          "What a sample was drawn from, as it was written beside the sheet; found by itself when it"
              + " still lies beside the codes.")
  private @Nullable String design;

  @Option(
      names = "--cluster",
      paramLabel = "COLUMN",
      description =
          "The column of the responses that names what answers come from together, such as the"
              + " class (default: the response itself).")
  private @Nullable String cluster;

  @Option(
      names = "--by",
      split = ",",
      paramLabel = "COLUMN",
      description =
          "Columns of the responses: the program's errors are also given for each value, with a"
              + " warning where a difference of two groups may be the program's.")
  private List<String> by = List.of();

  @Option(
      names = "--settle",
      paramLabel = "FILE",
      description =
          "Write the demands on which coders differ as a sheet to settle them in, .csv or .xlsx.")
  private @Nullable Path settle;

  @Option(names = "--format", paramLabel = "FORMAT", description = "text or json (default: text).")
  private Format format = Format.TEXT;

  @Option(
      names = "--list",
      paramLabel = "N",
      description = "How many disagreements the text lists (default: 20); json lists all.")
  private int list = 20;

  @Option(
      names = "--level",
      paramLabel = "P",
      description = "The level of intervals (default: 0.95).")
  private double level = Level.DEFAULT.value();

  @Option(
      names = "--seed",
      paramLabel = "N",
      description = "Seed of the sample and of alpha's interval (default: 1).")
  private long seed = 1;

  @Mixin private final LexiconOption lexicon = new LexiconOption();

  AgreeCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() throws InputException, OutputException, IOException {
    Workshop workshop =
        new Workshop(console, lexicon.folders(), Optional.empty(), Optional.empty());
    Codes reader = new Codes(workshop.sources(), workshop.problems()::add);
    if (task.codes != null) {
      compare(workshop, reader, task.codes);
    } else if (task.sample != null) {
      sample(workshop, reader, task.sample);
    }
    return workshop.problems().exitStatus();
  }

  private void compare(Workshop workshop, Codes reader, String file)
      throws InputException, OutputException, IOException {
    Level asked = level(level);
    CodedSet coded = CodedSet.read(reader, file, Optional.ofNullable(design), results);
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
      throws InputException, OutputException, IOException {
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
    console.message(
        lines.size()
            + " demands on which coders differ are in "
            + sheet
            + "; fill in the column code and give it as one more file of --codes");
  }

  /**
   * Returns the level asked for.
   *
   * @throws OutputException when it is none
   */
  static Level level(double value) throws OutputException {
    if (!(value > 0 && value < 1)) {
      throw new OutputException(
          "--level " + value + ": give a number between 0 and 1, as in 0.95.");
    }
    return new Level(value);
  }

  private static void refusePresent(Path sheet) throws OutputException {
    if (Files.exists(sheet, LinkOption.NOFOLLOW_LINKS)) {
      throw new OutputException(
          sheet
              + ": this file is there already and may hold codes; give the sheet another name, or"
              + " move it.");
    }
  }

  /** Returns the texts of some responses; none when no file of responses was given. */
  private Map<String, String> texts(Workshop workshop, Set<String> wanted)
      throws InputException, IOException {
    return responses == null
        ? Map.of()
        : CodingSampler.texts(workshop, responses, wanted, workshop.problems()::add);
  }

  private void sample(Workshop workshop, Codes reader, int size)
      throws InputException, OutputException, IOException {
    if (out == null) {
      throw new OutputException(
          "--sample needs --out with the sheet's name: what was drawn is written beside it, and is"
              + " needed to read the codes.");
    }
    refusePresent(out);
    CodingSampler sampler = new CodingSampler(seed, size, 1, 0);
    Optional<PromptSet> set =
        prompts == null ? Optional.empty() : Optional.of(workshop.prompts(prompts));
    int drawn =
        sampler.write(reader, Path.of(results), out, wanted -> texts(workshop, wanted), set);
    console.message(
        drawn
            + " demands to code are in "
            + out
            + "; "
            + CodingSampler.designOf(out)
            + " says what they were drawn from (it is not for coders, and agree needs it)");
    if (responses == null || prompts == null) {
      console.message(
          "the sheet has no "
              + (responses != null
                  ? "questions; give --prompts"
                  : prompts != null
                      ? "texts; give --responses"
                      : "texts and no questions; give --responses and --prompts")
              + " to have them in it.");
    }
  }
}
