package everypart.cli.command;

import everypart.analyzer.judge.Reader;
import java.util.Optional;
import picocli.CommandLine.Option;

/** Whether the reader is left out. */
final class QuickOption {
  @Option(
      names = "--quick",
      description = {
        "Judge by features alone, without the reader in everypart-meaning.jar: many times faster,"
            + " and right less often."
      })
  private boolean quick;

  /** Returns whether it was asked for. */
  boolean asked() {
    return quick;
  }

  /**
   * Opens the reader, unless it was left out or its jar is not there. One that does not run here is
   * told of, and the run goes on without it.
   */
  Optional<Reader> open(Console console) {
    return open(quick, console);
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
      console.message("judging without the reader: " + e.getMessage());
      return Optional.empty();
    }
  }
}
