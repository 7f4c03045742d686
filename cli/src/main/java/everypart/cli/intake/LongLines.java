package everypart.cli.intake;

import java.io.BufferedReader;
import java.io.Closeable;
import java.io.IOException;
import java.io.Reader;
import org.jspecify.annotations.Nullable;

/**
 * The lines of a text, none of them held beyond a bound: of a longer one the first characters are
 * given, one more than the bound, and the rest of it is passed over.
 */
final class LongLines implements Closeable {
  private final BufferedReader in;
  private final long most;

  /**
   * Takes a text.
   *
   * @param most how many characters a line may have
   */
  LongLines(Reader in, long most) {
    this.in = new BufferedReader(in);
    this.most = most;
  }

  /** Returns the next line without its end, or null after the last one. */
  @Nullable String next() throws IOException {
    int sign = in.read();
    if (sign < 0) {
      return null;
    }
    StringBuilder line = new StringBuilder();
    while (sign >= 0 && sign != '\n' && sign != '\r') {
      if (line.length() <= most) {
        line.append((char) sign);
      }
      sign = in.read();
    }
    if (sign == '\r') {
      in.mark(1);
      if (in.read() != '\n') {
        in.reset();
      }
    }
    return line.toString();
  }

  /** Tells whether a line is longer than the bound, so that its end was passed over. */
  boolean cut(String line) {
    return line.length() > most;
  }

  @Override
  public void close() throws IOException {
    in.close();
  }
}
