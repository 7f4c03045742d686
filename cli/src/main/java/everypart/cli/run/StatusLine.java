package everypart.cli.run;

import java.io.PrintWriter;

/** The last line of a terminal, written over as a run goes on; nothing where nobody watches. */
public final class StatusLine {
  private static final String CLEAR = "\r\u001b[K";

  private final PrintWriter err;
  private final boolean watched;
  private String shown = "";

  /**
   * Makes a status line.
   *
   * @param watched whether {@code err} is a terminal
   */
  public StatusLine(PrintWriter err, boolean watched) {
    this.err = err;
    this.watched = watched;
  }

  /** Tells whether anybody sees it. */
  public boolean watched() {
    return watched;
  }

  /** Shows words in the place of those shown before; none to take the line away. */
  void show(String words) {
    if (watched && !words.equals(shown)) {
      err.print(CLEAR + words);
      err.flush();
      shown = words;
    }
  }

  /** Writes a line that stays, above the status line. */
  void above(String line) {
    String words = shown;
    show("");
    err.println(line);
    err.flush();
    show(words);
  }
}
