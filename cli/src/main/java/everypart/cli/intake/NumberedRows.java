package everypart.cli.intake;

import java.io.Closeable;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;

/** Rows with unique ids, numbered as they come. */
public final class NumberedRows implements Iterator<NumberedRow>, Closeable {
  private final List<InputProblem> noticed = new ArrayList<>();
  private final UniqueIds rows;
  private long read;

  /** Numbers rows. */
  public NumberedRows(Arrivals rows) {
    this.rows = new UniqueIds(rows, noticed::add);
  }

  @Override
  public boolean hasNext() {
    return rows.hasNext();
  }

  @Override
  public NumberedRow next() {
    noticed.clear();
    Arrival arrival = rows.next();
    return new NumberedRow(++read, arrival, noticed);
  }

  /** Returns how many rows were read so far. */
  public long read() {
    return read;
  }

  @Override
  public void close() throws IOException {
    rows.close();
  }
}
