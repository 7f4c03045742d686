package everypart.cli.command;

import everypart.cli.intake.InputException;
import everypart.cli.run.Console;
import everypart.cli.run.ExitStatus;
import everypart.cli.run.MissingMeaningException;
import everypart.cli.run.WrongCallException;
import everypart.lexicon.LexiconException;
import java.io.IOException;
import java.nio.file.InvalidPathException;
import java.util.ArrayList;
import java.util.List;
import picocli.CommandLine;
import picocli.CommandLine.Help.Ansi;

/** The program: a command line goes in, an exit status comes out. */
public final class Program {
  private Program() {}

  /** What developers add to any call, to see where something unforeseen happened. */
  private static final String TRACE = "--trace";

  /** Runs a command line and returns the exit status. */
  public static int run(String[] arguments, Console console) {
    List<String> words = new ArrayList<>(List.of(arguments));
    boolean traced = words.remove(TRACE);
    int status;
    try {
      CommandLine line =
          commandLine(console, words.isEmpty() ? "" : words.get(0))
              .setExecutionExceptionHandler((failure, of, in) -> failed(console, failure, traced));
      if (!words.isEmpty()
          && !words.get(0).startsWith("-")
          && !line.getSubcommands().containsKey(words.get(0))) {
        // Help that is asked for behind an unknown command is no answer to it.
        words.removeIf(word -> word.startsWith("-"));
      }
      status = line.execute(words.toArray(String[]::new));
    } catch (RuntimeException | StackOverflowError | OutOfMemoryError e) {
      status = unforeseen(console, e, traced);
    }
    boolean lost = console.out().checkError();
    if (lost && status != ExitStatus.UNFORESEEN) {
      console.message(Sayings.of("program.resultsCouldWritten"));
      status = ExitStatus.NOT_WRITTEN;
    }
    console.err().flush();
    return status;
  }

  private static int unforeseen(Console console, Throwable failure, boolean traced) {
    if (traced) {
      failure.printStackTrace(console.err());
    }
    if (failure instanceof OutOfMemoryError) {
      console.message(Sayings.of("program.memoryEnoughGive"));
    } else {
      StackTraceElement[] trace = failure.getStackTrace();
      console.message(
          Sayings.of(
              "program.foreseenPleaseReport",
              failure.getClass().getSimpleName(),
              trace.length == 0 ? "" : " in " + trace[0],
              TRACE));
    }
    return ExitStatus.UNFORESEEN;
  }

  static CommandLine commandLine(Console console) {
    return commandLine(console, "");
  }

  /** Makes the command line, of one command alone where it is among those that start often. */
  private static CommandLine commandLine(Console console, String command) {
    CommandLine line = new CommandLine(new EverypartCommand());
    switch (command) {
      case "check" -> line.addSubcommand(new CheckCommand(console));
      case "outline" -> line.addSubcommand(new OutlineCommand(console));
      default -> addAll(line, console);
    }
    return finished(line, console);
  }

  private static void addAll(CommandLine line, Console console) {
    line.addSubcommand(new OpenCommand(console))
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
                .addSubcommand(new LexiconCommand.Show(console))
                .addSubcommand(new SuggestCommand(console)))
        .addSubcommand(new CompletionCommand(console));
  }

  private static CommandLine finished(CommandLine line, Console console) {
    line.getSubcommands()
        .values()
        .forEach(sub -> sub.getCommandSpec().versionProvider(new EverypartCommand.Version()));
    return line.setResourceBundle(Sayings.bundle())
        .setOut(console.out())
        .setErr(console.err())
        .setColorScheme(
            CommandLine.Help.defaultColorScheme(
                console.terminal() && !console.plain() ? Ansi.ON : Ansi.OFF))
        .setCaseInsensitiveEnumValuesAllowed(true)
        .setParameterExceptionHandler((wrong, given) -> wrongCall(console, wrong))
        .setExecutionExceptionHandler(
            (failure, command, parsed) -> failed(console, failure, false));
  }

  private static int wrongCall(Console console, CommandLine.ParameterException wrong) {
    CommandLine command = wrong.getCommandLine();
    console.message(String.valueOf(wrong.getMessage()));
    CommandLine.UnmatchedArgumentException.printSuggestions(wrong, console.err());
    console.err().println("See: " + command.getCommandSpec().qualifiedName() + " --help");
    return ExitStatus.WRONG_CALL;
  }

  private static int failed(Console console, Exception failure, boolean traced) {
    if (failure instanceof InputException input) {
      console.problem(input.problem());
      return ExitStatus.INPUT_LOST;
    }
    if (failure instanceof LexiconException) {
      console.message(failure.getMessage() + ".");
      return ExitStatus.INPUT_LOST;
    }
    if (failure instanceof WrongCallException || failure instanceof MissingMeaningException) {
      console.message(String.valueOf(failure.getMessage()));
      return ExitStatus.WRONG_CALL;
    }
    if (failure instanceof IOException) {
      console.message(
          Sayings.of("program.writingStoppedFree", String.valueOf(failure.getMessage())));
      return ExitStatus.NOT_WRITTEN;
    }
    if (failure instanceof InvalidPathException path) {
      console.message(Sayings.of("program.nameCannotUsed", path.getInput(), path.getReason()));
      return ExitStatus.WRONG_CALL;
    }
    return unforeseen(console, failure, traced);
  }
}
