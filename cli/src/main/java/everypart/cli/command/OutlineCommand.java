package everypart.cli.command;

import everypart.analyzer.points.PointProposer;
import everypart.analyzer.points.Proposals;
import everypart.analyzer.prompt.Prompt;
import everypart.cli.intake.InputException;
import everypart.cli.intake.InputProblem;
import everypart.cli.intake.Sources;
import everypart.cli.report.OutlineJson;
import everypart.cli.report.OutlineText;
import everypart.cli.report.OutlineYaml;
import everypart.cli.run.Console;
import everypart.cli.run.Workshop;
import everypart.cli.run.WrongCallException;
import java.io.PrintWriter;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Shows the parts and demands of prompts. */
@Command(name = "outline", mixinStandardHelpOptions = true)
final class OutlineCommand implements Callable<Integer> {
  enum Format {
    text,
    json,
    jsonl
  }

  private final Console console;

  @Option(names = "--format", defaultValue = "text")
  private Format format = Format.text;

  @Option(names = "--to-yaml")
  private boolean toYaml;

  @Option(names = "--model-answer", paramLabel = "FILE")
  private String modelAnswer = "";

  @Spec
  @SuppressWarnings("NullAway.Init") // picocli sets it
  private CommandSpec spec;

  @Parameters(paramLabel = "PROMPT", descriptionKey = "PROMPT")
  private String prompt = "";

  @Mixin private final LexiconOption lexicon = new LexiconOption();
  @Mixin private final LimitOption limit = new LimitOption();

  OutlineCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() throws InputException, WrongCallException {
    Workshop workshop =
        new Workshop(
            console, limit.limits(), lexicon.folders(), Optional.empty(), Optional.empty());
    if (prompt.equals(Sources.STANDARD_INPUT) && modelAnswer.equals(Sources.STANDARD_INPUT)) {
      throw wrong(Sayings.of("outline.onlyOnePrompt"));
    }
    boolean forAuthor = toYaml || !modelAnswer.isEmpty();
    if (!modelAnswer.isEmpty() && !toYaml && format != Format.text) {
      throw wrong(Sayings.of("outline.modelAnswerGoes"));
    }
    List<Prompt> prompts = List.copyOf(workshop.prompts(prompt).all());
    if (forAuthor && prompts.size() > 1) {
      throw wrong(Sayings.of("outline.holdsSeveralPrompts", prompt));
    }
    if (forAuthor) {
      Optional<Proposals> proposals = proposals(workshop, prompts.get(0));
      if (toYaml) {
        OutlineYaml.write(prompts.get(0), proposals, console.out());
      } else {
        PrintWriter text = console.text();
        OutlineText.write(prompts.get(0), proposals, text);
        text.flush();
      }
      return workshop.problems().exitStatus();
    }
    switch (format) {
      case jsonl -> prompts.forEach(one -> console.out().println(OutlineJson.line(one)));
      case json -> console.out().println(OutlineJson.list(prompts));
      case text -> {
        PrintWriter text = console.text();
        prompts.forEach(one -> OutlineText.write(one, text));
        text.flush();
      }
    }
    return workshop.problems().exitStatus();
  }

  private Optional<Proposals> proposals(Workshop workshop, Prompt question) throws InputException {
    if (modelAnswer.isEmpty()) {
      return Optional.empty();
    }
    String text = workshop.promptFiles().text(modelAnswer);
    if (text.isBlank()) {
      throw new InputException(
          InputProblem.fault(
              Sources.place(modelAnswer),
              Sayings.of("outline.modelAnswerEmpty"),
              Sayings.of("outline.writeIntoWhat")));
    }
    return Optional.of(
        new PointProposer(workshop.lexicon(), workshop.analyzer()).propose(question, text));
  }

  private ParameterException wrong(String sentence) {
    return new ParameterException(spec.commandLine(), sentence);
  }
}
