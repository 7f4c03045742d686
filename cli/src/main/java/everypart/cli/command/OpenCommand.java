package everypart.cli.command;

import everypart.analyzer.coverage.CoverageAnalyzer;
import everypart.analyzer.judge.Reader;
import everypart.cli.open.LocalServer;
import everypart.cli.open.Openings;
import everypart.cli.open.RememberingReader;
import everypart.cli.run.Console;
import everypart.cli.run.ExitStatus;
import everypart.cli.run.MissingMeaningException;
import everypart.cli.run.Workshop;
import java.io.IOException;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** Opens the local page in the browser. */
@Command(name = "open", mixinStandardHelpOptions = true)
final class OpenCommand implements Callable<Integer> {
  private final Console console;

  @Mixin private final MeaningOption meaning = new MeaningOption();
  @Mixin private final QuickOption quick = new QuickOption();
  @Mixin private final LexiconOption lexicon = new LexiconOption();

  @Option(names = "--no-browser")
  private boolean noBrowser;

  OpenCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() throws MissingMeaningException, IOException, InterruptedException {
    Optional<Reader> reader = quick.open(console).map(RememberingReader::new);
    Workshop workshop = new Workshop(console, lexicon.folders(), meaning.open(), reader);
    CoverageAnalyzer analyzer = workshop.analyzer();
    try (LocalServer server =
        new LocalServer(
            analyzer,
            reader.isPresent() ? new CoverageAnalyzer(workshop.lexicon()) : analyzer,
            fault -> fault.printStackTrace(console.err()))) {
      console.stop().whenAsked(server::end);
      console.out().println(Openings.ready(server.address()));
      console.out().flush();
      if (!noBrowser) {
        console.message(
            Openings.browser(server.address())
                ? Openings.inBrowser()
                : Openings.none(server.address()));
      }
      if (server.awaitLastPage()) {
        console.message(Openings.stopped());
      }
    }
    return ExitStatus.DONE;
  }
}
