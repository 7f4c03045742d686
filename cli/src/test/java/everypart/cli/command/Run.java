package everypart.cli.command;

import everypart.cli.run.Console;
import everypart.cli.run.StatusLine;
import everypart.cli.run.Stop;
import java.io.ByteArrayInputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;

/**
 * One run of the program, as a person at a keyboard sees it.
 *
 * @param status the exit status
 * @param out standard output
 * @param err standard error
 */
public record Run(int status, String out, String err) {
  /** Runs a command line without standard input, as if piped. */
  public static Run of(Object... arguments) {
    return with("", false, false, arguments);
  }

  /** Runs a command line. */
  public static Run with(String input, boolean terminal, boolean plain, Object... arguments) {
    return with(input, terminal, plain, false, new Stop(), arguments);
  }

  /**
   * Runs a command line.
   *
   * @param watched whether standard error is a terminal
   * @param stop the wish that the run end
   */
  public static Run with(
      String input,
      boolean terminal,
      boolean plain,
      boolean watched,
      Stop stop,
      Object... arguments) {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    String[] words = new String[arguments.length];
    for (int i = 0; i < words.length; i++) {
      words[i] = arguments[i].toString();
    }
    PrintWriter messages = new PrintWriter(err);
    int status =
        Program.run(
            words,
            new Console(
                new ByteArrayInputStream(input.getBytes(StandardCharsets.UTF_8)),
                new PrintWriter(out),
                messages,
                terminal,
                plain,
                new StatusLine(messages, watched),
                stop));
    return new Run(status, out.toString(), err.toString());
  }
}
