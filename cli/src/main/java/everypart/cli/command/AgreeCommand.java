package everypart.cli.command;

import everypart.analyzer.prompt.Part;
import everypart.analyzer.study.agreement.Agreement;
import everypart.analyzer.study.agreement.CodedDemand;
import everypart.analyzer.study.agreement.CodingSample;
import everypart.analyzer.study.statistics.Level;
import everypart.cli.intake.Arrival;
import everypart.cli.intake.Arrivals;
import everypart.cli.intake.Codes;
import everypart.cli.intake.Codes.Coded;
import everypart.cli.intake.Codes.Item;
import everypart.cli.intake.Codes.Judged;
import everypart.cli.intake.InputException;
import everypart.cli.intake.InputProblem;
import everypart.cli.intake.PromptSet;
import everypart.cli.intake.Response;
import everypart.cli.intake.ResponseRows;
import everypart.cli.intake.Sources;
import everypart.cli.intake.UniqueIds;
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
import java.util.HashMap;
import java.util.HashSet;
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
          + " that uncertain verdicts come up more often; its column weight says how many demands"
          + " each stands for, and is heeded when the filled sheet is read as --codes. The sheet"
          + " does not show the program's verdicts, so that they sway nobody."
    },
    footer = {
      "",
      "Examples:",
      "  everypart agree --codes codes.csv --results study/results.jsonl",
      "  everypart agree --sample 300 --results study/results.jsonl --responses answers.csv"
          + " --prompts questions --out to-code.xlsx",
      "  everypart agree --codes to-code.xlsx --results study/results.jsonl",
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
                + " (.json); - reads CSV from standard input.")
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
          "Where the sheet goes: .csv, or .xlsx for a spreadsheet; without it, as CSV to standard"
              + " output.")
  private @Nullable Path out;

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
    Workshop workshop = new Workshop(console, lexicon.folders(), Optional.empty());
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
    Coded coded = reader.codes(file);
    Map<Item, Judged> judged = reader.results(results, coded::has);
    Agreement agreement = agreement(coded, judged, asked, seed, file, workshop.problems());
    Map<String, String> texts =
        texts(
            workshop,
            agreement.disagreements().stream()
                .map(CodedDemand::responseId)
                .collect(Collectors.toSet()));
    Function<CodedDemand, Disagreement> describe =
        demand -> describe(demand, judged, Optional.ofNullable(texts.get(demand.responseId())));
    if (format == Format.JSON) {
      console.out().print(AgreementJson.of(agreement, asked, describe));
    } else {
      PrintWriter text = console.text();
      new AgreementText(text, asked).write(agreement, describe, list);
      text.flush();
    }
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

  /** Sets codes beside verdicts; codes without a verdict are told of. */
  static Agreement agreement(
      Coded coded,
      Map<Item, Judged> judged,
      Level level,
      long seed,
      String file,
      Problems problems) {
    List<CodedDemand> demands = new ArrayList<>();
    judged.forEach((item, verdict) -> demands.add(coded.with(item, verdict)));
    coded
        .coders()
        .forEach(
            (coder, items) -> {
              List<Item> unknown =
                  items.keySet().stream().filter(item -> !judged.containsKey(item)).toList();
              if (!unknown.isEmpty()) {
                Item first = unknown.get(0);
                problems.add(
                    InputProblem.fault(
                        Sources.place(file),
                        unknown.size()
                            + " of "
                            + coder
                            + "'s codes are for a demand without a verdict, the first for response"
                            + " \""
                            + first.responseId()
                            + "\", part "
                            + first.part()
                            + ", demand "
                            + first.demand(),
                        "check the ids and numbers, or judge those responses too"));
              }
            });
    return new Agreement(demands, level, RESAMPLES, seed);
  }

  private static Disagreement describe(
      CodedDemand demand, Map<Item, Judged> judged, Optional<String> text) {
    Judged verdict = judged.get(new Item(demand.responseId(), demand.part(), demand.demand()));
    return new Disagreement(
        demand.codes().entrySet().stream()
            .map(code -> code.getKey() + " " + (code.getValue() ? "1" : "0"))
            .collect(Collectors.joining(", ")),
        verdict == null ? List.of() : verdict.quotes(),
        verdict == null ? List.of() : verdict.why(),
        text);
  }

  /** Returns the texts of some responses; none when no file of responses was given. */
  private Map<String, String> texts(Workshop workshop, Set<String> wanted)
      throws InputException, IOException {
    Map<String, String> texts = new HashMap<>();
    if (responses != null && !wanted.isEmpty()) {
      // Ids taken twice get the names that study gave them, which told of it.
      try (Arrivals rows =
          new UniqueIds(ResponseRows.open(workshop.sources(), responses), problem -> {})) {
        while (rows.hasNext()) {
          Arrival arrival = rows.next();
          if (arrival instanceof Response response && wanted.contains(response.id())) {
            texts.putIfAbsent(response.id(), response.text());
          } else if (arrival instanceof InputProblem problem) {
            workshop.problems().add(problem);
          }
        }
      }
    }
    return texts;
  }

  private record Candidate(String promptId, Item item, Judged judged) {}

  private void sample(Workshop workshop, Codes reader, int size)
      throws InputException, OutputException, IOException {
    if (size < 1) {
      throw new OutputException("--sample " + size + ": give a number of demands, at least 1.");
    }
    CodingSample<Candidate> sample = new CodingSample<>(size, seed);
    reader.forEachResult(
        results,
        (promptId, verdicts) ->
            verdicts.forEach(
                (item, judged) ->
                    sample.offer(
                        item.toString(),
                        judged.kind(),
                        judged.verdict(),
                        judged.look(),
                        new Candidate(promptId, item, judged))));
    List<CodingSample.Drawn<Candidate>> drawn = sample.draw();
    Set<String> wanted = new HashSet<>();
    drawn.forEach(one -> wanted.add(one.item().item().responseId()));
    Map<String, String> texts = texts(workshop, wanted);
    Map<String, Question> questions = questions(workshop);
    List<CodingSheet.Line> lines = new ArrayList<>();
    for (CodingSample.Drawn<Candidate> one : drawn) {
      Item item = one.item().item();
      Question question =
          questions.getOrDefault(one.item().promptId() + "\n" + item.part(), Question.UNKNOWN);
      lines.add(
          new CodingSheet.Line(
              item.responseId(),
              one.item().promptId(),
              item.part(),
              item.demand(),
              one.item().judged().kind(),
              question.asks(item.demand()),
              question.wording(),
              texts.getOrDefault(item.responseId(), ""),
              one.weight()));
    }
    write(lines);
  }

  private void write(List<CodingSheet.Line> lines) throws OutputException, IOException {
    if (out == null) {
      console.out().print(CodingSheet.csv(lines));
      return;
    }
    if (Files.exists(out, LinkOption.NOFOLLOW_LINKS)) {
      throw new OutputException(
          out
              + ": this file is there already and may hold codes; give --out another name, or move"
              + " it.");
    }
    if (out.toString().toLowerCase(Locale.ROOT).endsWith(".xlsx")) {
      OutputFile.write(out, CodingSheet.workbook(lines));
    } else {
      OutputFile.write(out, CodingSheet.csv(lines));
    }
    console.message(lines.size() + " demands to code are in " + out);
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

  /** What a part asks for, in its own words and demand by demand. */
  private record Question(String wording, List<String> demands) {
    static final Question UNKNOWN = new Question("", List.of());

    String asks(int demand) {
      return demand <= demands.size() ? demands.get(demand - 1) : "";
    }
  }

  private Map<String, Question> questions(Workshop workshop) throws InputException {
    Map<String, Question> questions = new HashMap<>();
    if (prompts != null) {
      PromptSet set = workshop.prompts(prompts);
      for (var prompt : set.all()) {
        for (Part part : prompt.parts()) {
          questions.put(
              prompt.id() + "\n" + part.label(),
              new Question(part.text(), part.demands().stream().map(CodingSheet::asks).toList()));
        }
      }
    }
    return questions;
  }
}
