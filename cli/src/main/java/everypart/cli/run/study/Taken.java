package everypart.cli.run.study;

import everypart.cli.intake.Ahead;
import everypart.cli.intake.NumberedRow;
import everypart.cli.report.StudyLog;
import java.util.Iterator;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** The rows of a share, out of all rows. */
final class Taken extends Ahead<NumberedRow> {
  private final Iterator<NumberedRow> rows;
  private final Optional<StudyLog.Share> share;

  Taken(Iterator<NumberedRow> rows, Optional<StudyLog.Share> share) {
    this.rows = rows;
    this.share = share;
    begin();
  }

  @Override
  protected @Nullable NumberedRow read() {
    while (rows.hasNext()) {
      NumberedRow row = rows.next();
      if (share.isEmpty() || share.get().takes(row.number())) {
        return row;
      }
    }
    return null;
  }
}
