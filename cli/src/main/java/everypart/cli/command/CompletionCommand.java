package everypart.cli.command;

import everypart.cli.run.Console;
import everypart.cli.run.ExitStatus;
import java.util.concurrent.Callable;
import picocli.AutoComplete;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** Writes a completion script. */
@Command(name = "completion", mixinStandardHelpOptions = true)
final class CompletionCommand implements Callable<Integer> {
  private final Console console;

  @Spec
  @SuppressWarnings("NullAway.Init") // picocli sets it
  private CommandSpec spec;

  CompletionCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() {
    console.out().print(AutoComplete.bash("everypart", spec.root().commandLine()));
    return ExitStatus.DONE;
  }
}
