package everypart.cli.intake.document;

import java.io.IOException;
import java.io.Reader;

/**
 * Cuts the cells of a table off where they are longer than a text may be, and rows where they have
 * more cells than a table may, so that neither is ever held whole and the rows after it are read.
 *
 * <p>One character more than the bound is let through, and one cell: so whoever reads the table
 * knows a cell or a row that was cut by its being over the bound. Quotes are as in RFC 4180.
 */
final class BoundedCells extends Reader {
  private final Reader in;
  private final char between;
  private final long mostSigns;
  private final long mostCells;
  private final char[] source = new char[1 << 13];
  private int at;
  private int end;
  private long signs;
  private long cells;
  private boolean begun;
  private boolean quoted;
  private boolean mayEnd;
  private boolean owed;

  /**
   * Wraps a table.
   *
   * @param between what stands between cells
   */
  BoundedCells(Reader in, char between, Limits limits) {
    this.in = in;
    this.between = between;
    this.mostSigns = limits.of(Limit.TEXT);
    this.mostCells = limits.of(Limit.COLUMNS);
  }

  @Override
  public int read(char[] buffer, int from, int length) throws IOException {
    int kept = 0;
    while (kept < length) {
      if (at == end) {
        if (kept > 0) {
          return kept;
        }
        at = 0;
        end = Math.max(in.read(source, 0, source.length), 0);
        if (end == 0) {
          if (!owed) {
            return -1;
          }
          owed = false;
          buffer[from] = '"';
          return 1;
        }
      }
      char sign = source[at];
      if (owed && sign != '"') {
        // The quote ended the cell after all, so it belongs to what is kept.
        owed = false;
        buffer[from + kept++] = '"';
        continue;
      }
      at++;
      if (keeps(sign)) {
        buffer[from + kept++] = sign;
      }
    }
    return kept;
  }

  private boolean keeps(char sign) {
    boolean within = cells <= mostCells && signs <= mostSigns;
    if (quoted) {
      if (sign == '"' && !mayEnd) {
        mayEnd = true;
        owed = !within && cells <= mostCells;
        return within;
      }
      if (sign == '"') {
        // Two quotes stand for one.
        mayEnd = false;
        owed = false;
        signs++;
        return within;
      }
      if (!mayEnd) {
        signs++;
        return within;
      }
      quoted = false;
      mayEnd = false;
    }
    if (sign == '\n' || sign == '\r') {
      begin();
      cells = 0;
      return true;
    }
    if (sign == between) {
      begin();
      cells++;
      return cells <= mostCells;
    }
    if (!begun && sign == '"') {
      begun = true;
      quoted = true;
      return cells <= mostCells;
    }
    begun = true;
    signs++;
    return within;
  }

  private void begin() {
    signs = 0;
    begun = false;
  }

  @Override
  public void close() throws IOException {
    in.close();
  }
}
