package everypart.cli.command;

import everypart.cli.intake.InputException;
import everypart.cli.intake.NamedText;
import everypart.cli.intake.NamedTexts;
import everypart.cli.report.Trace;
import java.io.IOException;
import java.io.PrintWriter;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Shows what the analyzer sees in texts. */
@Command(
    name = "trace",
    mixinStandardHelpOptions = true,
    header = "Shows what the program sees in each text: sentences, cues and concepts.",
    footer = {
      "",
      "Examples:",
      "  everypart trace answer.txt",
      "  everypart trace answers.csv --format jsonl",
      "",
      "Exit status: 0 done; 2 the call was wrong; 3 an input could not be read, the rest was done."
    })
final class TraceCommand implements Callable<Integer> {
  enum Format {
    text,
    jsonl
  }

  private final Console console;

  @Option(
      names = "--format",
      description = "text (the default), or jsonl: a line a text.",
      defaultValue = "text")
  private Format format = Format.text;

  @Parameters(
      paramLabel = "FILE",
      description =
          "Texts: .txt with a text on each line, or .csv with the columns id and text,"
              + " or - for lines on standard input.")
  private String file = "";

  @Mixin private final LexiconOption lexicon = new LexiconOption();

  TraceCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() throws InputException, IOException {
    Workshop workshop =
        new Workshop(console, lexicon.folders(), Optional.empty(), Optional.empty());
    try (NamedTexts texts = NamedTexts.open(workshop.sources(), file, workshop.problems()::add)) {
      PrintWriter out = format == Format.text ? console.text() : console.out();
      OrderedPipeline.run(texts, text -> trace(workshop, text), out::print);
      out.flush();
    }
    return workshop.problems().exitStatus();
  }

  private String trace(Workshop workshop, NamedText text) {
    Trace trace =
        Trace.of(text.id(), workshop.analyzer().texts().read(text.text()), workshop.lexicon());
    return format == Format.jsonl ? trace.jsonLine() + "\n" : trace.lines();
  }
}
