package everypart.cli.command;

import everypart.analyzer.judge.Reader;
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
    return open(quick, console).map(Reader::oneAtATime);
  }

  /**
   * Opens the reader for a share of the verdicts, in per cent, unless it was left out or its jar is
   * not there.
   *
   * @throws OutputException when the share is none
   */
  Optional<Reader> open(int share, Console console) throws OutputException {
    if (share < 1 || share > 100) {
      throw new OutputException(Sayings.of("quickOption.readerShareTakes"));
    }
    return open(quick, share, console);
  }

  /** Opens the reader for a share of the verdicts, in per cent, unless it is left out. */
  static Optional<Reader> open(boolean quick, int share, Console console) {
    return open(quick, console)
        .map(reader -> share < 100 ? Reader.ofLeastSure(reader, share / 100.0) : reader);
  }

  /** Opens the reader, unless it is left out or its jar is not there. */
  static Optional<Reader> open(boolean quick, Console console) {
    MeaningJar jar = MeaningJar.besideProgram();
    if (quick || !jar.isThere()) {
      return Optional.empty();
    }
    try {
      return Optional.of(jar.reader());
    } catch (MissingMeaningException e) {
      console.message(
          Sayings.of("quickOption.judgingWithoutReader", String.valueOf(e.getMessage())));
      return Optional.empty();
    }
  }
}
