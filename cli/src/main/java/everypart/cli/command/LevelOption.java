package everypart.cli.command;

import everypart.analyzer.study.statistics.Level;
import everypart.cli.run.WrongCallException;
import picocli.CommandLine.Option;

/** The level of confidence of intervals. */
final class LevelOption {
  @Option(names = "--level", paramLabel = "P")
  private double level = Level.DEFAULT.value();

  /**
   * Returns the level asked for.
   *
   * @throws WrongCallException when it is none
   */
  Level level() throws WrongCallException {
    if (!(level > 0 && level < 1)) {
      throw new WrongCallException(Sayings.of("levelOption.levelGiveNumber", level));
    }
    return new Level(level);
  }
}
