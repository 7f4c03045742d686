package everypart.cli.command;

import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.judge.Reader;
import everypart.analyzer.meaning.SentenceMeaning;
import everypart.analyzer.prompt.Prompt;
import everypart.cli.intake.InputException;
import everypart.cli.intake.InputProblem;
import everypart.cli.intake.OneResponse;
import everypart.cli.intake.PromptSet;
import everypart.cli.intake.Response;
import everypart.cli.intake.Sources;
import everypart.cli.report.CheckHtml;
import everypart.cli.report.CheckText;
import everypart.cli.report.ResultJson;
import everypart.cli.report.Revision;
import everypart.cli.run.Console;
import everypart.cli.run.ExitStatus;
import everypart.cli.run.MissingMeaningException;
import everypart.cli.run.Workshop;
import everypart.cli.run.WrongCallException;
import everypart.lexicon.Lexicon;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Checks one response, for its writer. */
@Command(name = "check", mixinStandardHelpOptions = true)
final class CheckCommand implements Callable<Integer> {
  enum Format {
    text,
    json,
    html
  }

  private final Console console;

  @Spec
  @SuppressWarnings("NullAway.Init") // picocli sets it
  private CommandSpec spec;

  @Mixin private final ColourOption colour = new ColourOption();
  @Mixin private final FailOnOption failOn = new FailOnOption();
  @Mixin private final MeaningOption meaning = new MeaningOption();
  @Mixin private final QuickOption quick = new QuickOption();

  @Option(names = "--format", defaultValue = "text")
  private Format format = Format.text;

  @Option(names = "--earlier", paramLabel = "DRAFT")
  private @Nullable String earlier;

  @Option(names = "--watch")
  private boolean watch;

  @Parameters(index = "0", paramLabel = "PROMPT", descriptionKey = "PROMPT")
  private String prompt = "";

  @Parameters(index = "1", paramLabel = "RESPONSE", descriptionKey = "RESPONSE")
  private String response = "";

  @Mixin private final LexiconOption lexicon = new LexiconOption();
  @Mixin private final LimitOption limit = new LimitOption();

  CheckCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call()
      throws InputException, WrongCallException, MissingMeaningException, InterruptedException {
    if (watch && response.equals(Sources.STANDARD_INPUT)) {
      throw new ParameterException(spec.commandLine(), Sayings.of("check.watchNeedsFile"));
    }
    if (prompt.equals(Sources.STANDARD_INPUT) && response.equals(Sources.STANDARD_INPUT)) {
      throw new ParameterException(spec.commandLine(), Sayings.of("check.onlyOnePrompt"));
    }
    Workshop workshop = workshop();
    PromptSet prompts = workshop.prompts(prompt);
    if (prompts.all().size() > 1) {
      throw new ParameterException(
          spec.commandLine(), Sayings.of("check.holdsSeveralPrompts", prompt));
    }
    Prompt question = prompts.first();
    if (question.parts().stream().allMatch(part -> part.demands().isEmpty())) {
      return ExitStatus.INPUT_LOST;
    }
    if (!watch) {
      return checked(workshop, question);
    }
    Watched file = new Watched(Path.of(response));
    int status;
    do {
      try {
        status = checked(workshop, question);
      } catch (InputException halfSaved) {
        console.problem(halfSaved.problem());
        status = ExitStatus.INPUT_LOST;
      }
      console.out().flush();
    } while (file.awaitChange(console.stop()));
    return status;
  }

  /** Opens the reader while the lexicon is loaded: each takes about as long as the other. */
  private Workshop workshop()
      throws WrongCallException, MissingMeaningException, InterruptedException {
    FutureTask<Lexicon> loading = new FutureTask<>(() -> Lexicon.load(lexicon.folders()));
    Thread loader = new Thread(loading, "lexicon");
    loader.setDaemon(true);
    loader.start();
    Optional<SentenceMeaning> model = meaning.open();
    Optional<Reader> reader = quick.open(console);
    return new Workshop(console, limit.limits(), done(loading), model, reader);
  }

  private static Lexicon done(FutureTask<Lexicon> loading) throws InterruptedException {
    try {
      return loading.get();
    } catch (ExecutionException e) {
      throw e.getCause() instanceof RuntimeException cause
          ? cause
          : new IllegalStateException(e.getCause());
    }
  }

  private int checked(Workshop workshop, Prompt question) throws InputException {
    Response answer =
        OneResponse.read(workshop.sources(), question, response, workshop.problems()::add);
    String text = answer.text();
    if (text.isBlank()) {
      workshop
          .problems()
          .add(
              InputProblem.note(
                  Sources.place(response),
                  Sayings.of("check.responseEmpty"),
                  Sayings.of("check.checkRightFile")));
    }
    Coverage coverage = workshop.analyzer().analyze(question, answer.id(), text);
    Optional<Revision> revision = Optional.empty();
    if (earlier != null) {
      Response draft =
          OneResponse.read(workshop.sources(), question, earlier, workshop.problems()::add);
      revision =
          Optional.of(
              new Revision(
                  workshop.analyzer().analyze(question, draft.id(), draft.text()), coverage));
    }
    switch (format) {
      case text -> {
        PrintWriter lines = console.text();
        new CheckText(colour.choose(console)).write(coverage, revision, lines);
        lines.flush();
      }
      case json -> console.out().println(ResultJson.pretty(coverage, revision));
      case html -> console.out().print(CheckHtml.of(coverage, revision));
    }
    return failOn.exitStatus(workshop.problems().exitStatus(), coverage);
  }
}
