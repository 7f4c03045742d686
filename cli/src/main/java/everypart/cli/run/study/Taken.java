package everypart.cli.run.study;

import everypart.cli.intake.NumberedRow;
import everypart.cli.report.StudyLog;
import java.util.Iterator;
import java.util.NoSuchElementException;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** The rows of a share, out of all rows. */
final class Taken implements Iterator<NumberedRow> {
  private final Iterator<NumberedRow> rows;
  private final Optional<StudyLog.Share> share;
  private @Nullable NumberedRow next;

  Taken(Iterator<NumberedRow> rows, Optional<StudyLog.Share> share) {
    this.rows = rows;
    this.share = share;
    this.next = read();
  }

  private @Nullable NumberedRow read() {
    while (rows.hasNext()) {
      NumberedRow row = rows.next();
      if (share.isEmpty() || share.get().takes(row.number())) {
        return row;
      }
    }
    return null;
  }

  @Override
  public boolean hasNext() {
    return next != null;
  }

  @Override
  public NumberedRow next() {
    NumberedRow now = next;
    if (now == null) {
      throw new NoSuchElementException();
    }
    next = read();
    return now;
  }
}
