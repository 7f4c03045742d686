package everypart.cli;

import everypart.cli.command.Program;
import everypart.cli.run.Console;
import everypart.cli.run.StatusLine;
import everypart.cli.run.Stop;
import java.io.BufferedWriter;
import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.PrintStream;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.util.List;

/** Starts the program: wires the standard streams and exits. */
public final class Main {
  private Main() {}

  /** Runs the command line. */
  public static void main(String[] args) {
    PrintWriter err = writer(System.err);
    // System.out keeps to itself that a disk is full or a reader gone.
    PrintWriter out = writer(new FileOutputStream(FileDescriptor.out));
    if (!List.of(args).contains("--trace")) {
      // Some libraries write there on their own when a file is broken; the program has said it.
      System.setErr(
          new PrintStream(OutputStream.nullOutputStream(), false, StandardCharsets.UTF_8));
    }
    Stop stop = new Stop();
    Console console =
        new Console(
            System.in,
            out,
            err,
            isTerminal(),
            !System.getenv().getOrDefault("NO_COLOR", "").isEmpty(),
            new StatusLine(err, Boolean.getBoolean("everypart.watched")),
            stop);
    // Ctrl-C begins a shutdown, and the run goes on beside it until it has put away what it has.
    Runtime.getRuntime().addShutdownHook(new Thread(stop::ask, "stop"));
    int status = Program.run(args, console);
    stop.over();
    System.exit(status);
  }

  /**
   * The launcher knows whether output goes to a terminal and says so. Without it Java knows only up
   * to version 21, where there is no console unless both ends are terminals.
   */
  @SuppressWarnings("SystemConsoleNull")
  private static boolean isTerminal() {
    String told = System.getProperty("everypart.terminal");
    return told == null
        ? Runtime.version().feature() < 22 && System.console() != null
        : Boolean.parseBoolean(told);
  }

  private static PrintWriter writer(OutputStream stream) {
    return new PrintWriter(
        new BufferedWriter(new OutputStreamWriter(stream, StandardCharsets.UTF_8), 1 << 16),
        false) {
      @Override
      public void println() {
        write('\n');
      }
    };
  }
}
