package everypart.cli.run;

import everypart.cli.intake.InputProblem;
import java.io.InputStream;
import java.io.PrintWriter;

/**
 * The streams of one run: results go to {@code out}, messages to {@code err}.
 *
 * @param in standard input
 * @param out where results go
 * @param err where messages go
 * @param terminal whether {@code out} is a terminal that a person reads
 * @param plain whether the environment asks for no colours (NO_COLOR)
 * @param status the line of {@code err} that says how far a run is
 * @param stop the wish that the run end
 */
public record Console(
    InputStream in,
    PrintWriter out,
    PrintWriter err,
    boolean terminal,
    boolean plain,
    StatusLine status,
    Stop stop) {
  /** Returns where text for people goes, in which no answer can do more than be read. */
  public PrintWriter text() {
    return Shown.writer(out, !plain);
  }

  /** Writes a problem. */
  public void problem(InputProblem problem) {
    message(problem.sentence());
  }

  /** Writes a message. */
  public void message(String sentence) {
    status.above("everypart: " + Shown.of(sentence));
  }
}
