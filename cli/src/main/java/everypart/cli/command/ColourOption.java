package everypart.cli.command;

import everypart.cli.report.Colours;
import everypart.cli.run.Console;
import picocli.CommandLine.Option;

/** The option that says whether a terminal gets colours. */
final class ColourOption {
  enum When {
    auto,
    always,
    never
  }

  @Option(
      names = {"--color", "--colour"},
      paramLabel = "WHEN",
      defaultValue = "auto")
  private When when = When.auto;

  Colours choose(Console console) {
    boolean on =
        switch (when) {
          case always -> true;
          case never -> false;
          case auto -> console.terminal() && !console.plain();
        };
    return on ? Colours.ON : Colours.OFF;
  }
}
