package everypart.cli.intake;

import java.io.Closeable;
import java.io.IOException;
import java.io.Reader;
import java.util.Optional;

/** The records of a CSV file as they stand, quotes and line ends included. */
public final class RawRecords implements Closeable {
  private final Reader in;

  /** Reads records from a buffered reader. */
  public RawRecords(Reader in) {
    this.in = in;
  }

  /** Returns the next record; nothing at the end, or when the last record has no line end. */
  public Optional<String> next() throws IOException {
    StringBuilder record = new StringBuilder();
    boolean quoted = false;
    for (int c = in.read(); c >= 0; c = in.read()) {
      record.append((char) c);
      if (c == '"') {
        quoted = !quoted;
      } else if (c == '\n' && !quoted) {
        return Optional.of(record.toString());
      }
    }
    return Optional.empty();
  }

  @Override
  public void close() throws IOException {
    in.close();
  }
}
