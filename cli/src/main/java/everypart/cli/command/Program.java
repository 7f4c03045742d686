package everypart.cli.command;

import everypart.cli.intake.InputException;
import everypart.lexicon.LexiconException;
import java.io.IOException;
import picocli.CommandLine;
import picocli.CommandLine.Help.Ansi;

/** The program: a command line goes in, an exit status comes out. */
public final class Program {
  private Program() {}

  /** Runs a command line and returns the exit status. */
  public static int run(String[] arguments, Console console) {
    CommandLine line = commandLine(console);
    int status = line.execute(arguments);
    console.out().flush();
    console.err().flush();
    return status;
  }

  static CommandLine commandLine(Console console) {
    CommandLine line =
        new CommandLine(new EverypartCommand())
            .addSubcommand(new CheckCommand(console))
            .addSubcommand(new ScreenCommand(console))
            .addSubcommand(new OutlineCommand(console))
            .addSubcommand(new StudyCommand(console))
            .addSubcommand(new MergeCommand(console))
            .addSubcommand(new AgreeCommand(console))
            .addSubcommand(new TraceCommand(console))
            .addSubcommand(
                new CommandLine(new LexiconCommand())
                    .addSubcommand(new LexiconCommand.Check(console))
                    .addSubcommand(new LexiconCommand.Search(console))
                    .addSubcommand(new LexiconCommand.Show(console)))
            .addSubcommand(new CompletionCommand(console));
    line.getSubcommands()
        .values()
        .forEach(sub -> sub.getCommandSpec().versionProvider(new EverypartCommand.Version()));
    return line.setOut(console.out())
        .setErr(console.err())
        .setColorScheme(
            CommandLine.Help.defaultColorScheme(
                console.terminal() && !console.plain() ? Ansi.ON : Ansi.OFF))
        .setCaseInsensitiveEnumValuesAllowed(true)
        .setParameterExceptionHandler((wrong, given) -> wrongCall(console, wrong))
        .setExecutionExceptionHandler((failure, command, parsed) -> failed(console, failure));
  }

  private static int wrongCall(Console console, CommandLine.ParameterException wrong) {
    CommandLine command = wrong.getCommandLine();
    console.message(String.valueOf(wrong.getMessage()));
    CommandLine.UnmatchedArgumentException.printSuggestions(wrong, console.err());
    console.err().println("See: " + command.getCommandSpec().qualifiedName() + " --help");
    return ExitStatus.WRONG_CALL;
  }

  private static int failed(Console console, Exception failure) throws Exception {
    if (failure instanceof InputException input) {
      console.problem(input.problem());
      return ExitStatus.INPUT_LOST;
    }
    if (failure instanceof LexiconException) {
      console.message(failure.getMessage() + ".");
      return ExitStatus.INPUT_LOST;
    }
    if (failure instanceof OutputException || failure instanceof MissingMeaningException) {
      console.message(String.valueOf(failure.getMessage()));
      return ExitStatus.WRONG_CALL;
    }
    if (failure instanceof IOException) {
      console.message(
          "writing stopped (" + failure.getMessage() + "); free some space, then run again.");
      return ExitStatus.INPUT_LOST;
    }
    throw failure;
  }
}
