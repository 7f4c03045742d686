package everypart.cli.command;

import everypart.cli.intake.InputException;
import everypart.cli.intake.NamedText;
import everypart.cli.intake.NamedTexts;
import everypart.cli.report.Trace;
import everypart.cli.run.Console;
import everypart.cli.run.OrderedPipeline;
import everypart.cli.run.Workshop;
import java.io.IOException;
import java.io.PrintWriter;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Shows what the analyzer sees in texts. */
@Command(name = "trace", mixinStandardHelpOptions = true)
final class TraceCommand implements Callable<Integer> {
  enum Format {
    text,
    jsonl
  }

  private final Console console;

  @Option(names = "--format", defaultValue = "text")
  private Format format = Format.text;

  @Parameters(paramLabel = "FILE", descriptionKey = "FILE")
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
