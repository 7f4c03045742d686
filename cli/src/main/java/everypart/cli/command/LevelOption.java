package everypart.cli.command;

import everypart.analyzer.study.statistics.Level;
import everypart.cli.run.OutputException;
import picocli.CommandLine.Option;

/** The level of confidence of intervals. */
final class LevelOption {
  @Option(names = "--level", paramLabel = "P")
  private double level = Level.DEFAULT.value();

  /**
   * Returns the level asked for.
   *
   * @throws OutputException when it is none
   */
  Level level() throws OutputException {
    if (!(level > 0 && level < 1)) {
      throw new OutputException(Sayings.of("levelOption.levelGiveNumber", level));
    }
    return new Level(level);
  }
}
