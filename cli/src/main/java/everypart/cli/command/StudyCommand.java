package everypart.cli.command;

import everypart.cli.intake.Arrival;
import everypart.cli.intake.Arrivals;
import everypart.cli.intake.InputException;
import everypart.cli.intake.PromptSet;
import everypart.cli.intake.ResponsesCsv;
import everypart.cli.intake.UniqueIds;
import everypart.cli.report.DemandsCsv;
import everypart.cli.report.OutputFile;
import everypart.cli.report.ResultJson;
import everypart.cli.report.StudyHtml;
import everypart.cli.report.SummaryJson;
import everypart.cli.report.Tally;
import java.io.IOException;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** Judges many responses to many prompts. */
@Command(
    name = "study",
    mixinStandardHelpOptions = true,
    header = "Judges many responses to many questions and counts which demands are left open.",
    footer = {
      "",
      "Example:",
      "  everypart study --prompts questions/ --responses answers.csv --out study",
      "",
      "Exit status: 0 done; 2 the call was wrong; 3 an input could not be used as given, the rest"
          + " was done."
    })
final class StudyCommand implements Callable<Integer> {
  private final Console console;

  @Option(
      names = "--prompts",
      required = true,
      paramLabel = "DIR",
      description = "A folder of prompts, or one prompt (.txt, .md, .yaml).")
  private String prompts = "";

  @Option(
      names = "--responses",
      required = true,
      paramLabel = "FILE.csv",
      description = {
        "Responses with the columns response_id, prompt_id and text; further columns are kept as"
            + " groups. - reads standard input."
      })
  private String responses = "";

  @Option(
      names = "--out",
      required = true,
      paramLabel = "DIR",
      description = "The folder for results.jsonl, demands.csv, summary.json and report.html.")
  private Path out = Path.of("");

  @Mixin private final MeaningOption meaning = new MeaningOption();

  StudyCommand(Console console) {
    this.console = console;
  }

  /**
   * What the worker threads hand to the writing thread.
   *
   * @param json the line of results.jsonl
   * @param rows the rows of demands.csv
   */
  private record Outcome(Judgement judgement, String json, String rows) {}

  @Override
  public Integer call()
      throws InputException, OutputException, MissingMeaningException, IOException {
    Workshop workshop = new Workshop(console, meaning.open());
    PromptSet set = workshop.prompts(prompts);
    try (ResponsesCsv rows = new ResponsesCsv(workshop.sources(), responses);
        Arrivals arrivals = new UniqueIds(rows, workshop.problems()::add)) {
      Path folder = OutputFolder.prepare(out);
      DemandsCsv table = new DemandsCsv(rows.groups());
      Tally tally = new Tally(set.all());
      try (OutputFile results = new OutputFile(folder.resolve("results.jsonl"));
          OutputFile demands = new OutputFile(folder.resolve("demands.csv"))) {
        demands.writer().write(table.header());
        OrderedPipeline.run(
            arrivals,
            arrival -> judge(arrival, set, workshop, table),
            outcome -> {
              if (outcome.judgement() instanceof Judgement.Judged judged) {
                tally.add(judged.coverage());
                results.writer().write(outcome.json());
                demands.writer().write(outcome.rows());
              } else if (outcome.judgement() instanceof Judgement.Failed failed) {
                workshop.problems().add(failed.problem());
              }
            });
        results.finish();
        demands.finish();
      }
      OutputFile.write(
          folder.resolve("summary.json"), SummaryJson.of(tally, workshop.problems().seen()));
      OutputFile.write(
          folder.resolve("report.html"), StudyHtml.of(tally, workshop.problems().seen()));
      console.message(
          tally.responses()
              + " responses judged; results.jsonl, demands.csv, summary.json and report.html are in "
              + folder);
    }
    return workshop.problems().exitStatus();
  }

  private static Outcome judge(
      Arrival arrival, PromptSet prompts, Workshop workshop, DemandsCsv table) {
    Judgement judgement = Judgement.of(arrival, prompts, workshop.analyzer());
    return judgement instanceof Judgement.Judged judged
        ? new Outcome(
            judgement,
            ResultJson.line(judged.coverage(), judged.response().groups()) + "\n",
            table.rows(judged.coverage(), judged.response().groups()))
        : new Outcome(judgement, "", "");
  }
}
