package everypart.cli.command;

import everypart.analyzer.judge.Reader;
import everypart.cli.run.Console;
import everypart.cli.run.MeaningJar;
import everypart.cli.run.WrongCallException;
import java.util.Optional;
import picocli.CommandLine.Option;

/** Whether the reader is left out. */
final class QuickOption {
  @Option(names = "--quick")
  private boolean quick;

  /** Returns whether it was asked for. */
  boolean asked() {
    return quick;
  }

  /**
   * Opens the reader for one response at a time, unless it was left out or its jar is not there.
   * One that does not run here is told of, and the run goes on without it.
   */
  Optional<Reader> open(Console console) {
    return MeaningJar.reader(quick, console).map(Reader::oneAtATime);
  }

  /**
   * Opens the reader for a share of the verdicts, in per cent, unless it was left out or its jar is
   * not there.
   *
   * @throws WrongCallException when the share is none
   */
  Optional<Reader> open(int share, Console console) throws WrongCallException {
    if (share < 1 || share > 100) {
      throw new WrongCallException(Sayings.of("quickOption.readerShareTakes"));
    }
    return MeaningJar.reader(quick, share, console);
  }
}
