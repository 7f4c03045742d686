package everypart.cli.report;

import java.io.PrintWriter;

/** Text for a terminal, in lines of bounded length. */
final class Lines {
  private static final int WIDTH = 88;

  private Lines() {}

  /** Writes a text in lines of bounded length, broken at spaces. */
  static void wrap(PrintWriter out, String first, String others, String text) {
    StringBuilder line = new StringBuilder(first);
    boolean fresh = true;
    for (String word : text.split(" ", -1)) {
      if (!fresh && line.length() + 1 + word.length() > WIDTH) {
        out.println(line);
        line = new StringBuilder(others);
        fresh = true;
      }
      line.append(fresh ? "" : " ").append(word);
      fresh = false;
    }
    out.println(line);
  }
}
