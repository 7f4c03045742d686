package everypart.cli.command;

import everypart.analyzer.meaning.SentenceMeaning;
import everypart.cli.run.MeaningJar;
import everypart.cli.run.MissingMeaningException;
import java.util.Optional;
import picocli.CommandLine.Option;

/** Whether sentences are also placed by their meaning. */
final class MeaningOption {
  @Option(names = "--meaning")
  private boolean meaning;

  /** Returns whether it was asked for. */
  boolean asked() {
    return meaning;
  }

  /**
   * Opens the model when it was asked for.
   *
   * @throws MissingMeaningException when it was asked for and cannot be had
   */
  Optional<SentenceMeaning> open() throws MissingMeaningException {
    return MeaningJar.meaning(meaning);
  }
}
