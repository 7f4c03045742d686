package everypart.cli.command;

import everypart.analyzer.prompt.Prompt;
import everypart.cli.intake.InputException;
import everypart.cli.report.OutlineJson;
import everypart.cli.report.OutlineText;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Shows the parts and demands of prompts. */
@Command(
    name = "outline",
    mixinStandardHelpOptions = true,
    header = "Shows the parts of a question and what each part demands.",
    footer = {
      "",
      "Examples:",
      "  everypart outline question.txt",
      "  everypart outline questions/ --format jsonl",
      "",
      "Exit status: 0 done; 2 the call was wrong; 3 a prompt could not be read, the rest was done."
    })
final class OutlineCommand implements Callable<Integer> {
  enum Format {
    text,
    json,
    jsonl
  }

  private final Console console;

  @Option(
      names = "--format",
      description = "text (the default), json, or jsonl: a line a prompt.",
      defaultValue = "text")
  private Format format = Format.text;

  @Parameters(
      paramLabel = "PROMPT",
      description =
          "A prompt (.txt, .md, .yaml, .docx, .odt, .rtf, .pdf, .html), a folder of prompts, or -"
              + " for standard input.")
  private String prompt = "";

  OutlineCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() throws InputException {
    Workshop workshop = new Workshop(console);
    List<Prompt> prompts = List.copyOf(workshop.prompts(prompt).all());
    switch (format) {
      case jsonl -> prompts.forEach(one -> console.out().println(OutlineJson.line(one)));
      case json -> console.out().println(OutlineJson.list(prompts));
      case text -> prompts.forEach(one -> OutlineText.write(one, console.out()));
    }
    return workshop.problems().exitStatus();
  }
}
