package everypart.cli.intake.document;

import java.io.Closeable;
import java.io.IOException;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.NoSuchElementException;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.concurrent.ExecutionException;
import java.util.function.LongSupplier;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.jspecify.annotations.Nullable;

/**
 * The rows of a class sheet, the header among them: .csv, .tsv or the first sheet with rows of an
 * .xlsx workbook.
 *
 * <p>Cells apart by semicolons are known by the header, as spreadsheets save them where the comma
 * is the decimal sign. A workbook's rows are filled up to the width of its header. Numbers come as
 * they read without a format, dates as in ISO 8601.
 */
public final class Sheet implements Iterator<SheetRow>, Closeable {
  private static final Set<String> TEXT = Set.of(".csv", ".tsv", ".tab");
  private static final String WORKBOOK = ".xlsx";

  private final Limits limits;
  private final Iterator<SheetRow> rows;
  private final Closeable source;
  private final List<FileRemark> remarks;
  private final boolean pad;
  private final LongSupplier line;
  private int width;
  private long count;
  private @Nullable SheetRow next;
  private @Nullable DocumentException fault;
  private long faultLine;

  Sheet(
      Limits limits,
      Iterator<SheetRow> rows,
      Closeable source,
      List<FileRemark> remarks,
      boolean pad,
      LongSupplier line) {
    this.limits = limits;
    this.rows = rows;
    this.line = line;
    this.pad = pad;
    this.source = source;
    this.remarks = List.copyOf(remarks);
    this.next = read();
    this.width = next == null ? 0 : next.cells().size();
  }

  /** Tells by its name whether a file is a class sheet. */
  static boolean reads(String name) {
    String ending = Format.ending(name);
    return TEXT.contains(ending) || ending.equals(WORKBOOK);
  }

  /**
   * Opens a file that is in memory.
   *
   * @param name what it is called; its ending says its format
   * @throws DocumentException when it cannot be read
   */
  static Sheet open(String name, byte[] bytes, Limits limits) throws DocumentException {
    if (bytes.length == 0) {
      throw new DocumentException(
          Sayings.of("documents.fileEmptyBytes"), Sayings.of("documents.checkRightFile"));
    }
    if (!reads(name)) {
      throw new DocumentException(Format.unread(name));
    }
    Sheet sheet;
    try {
      Meter meter = new Meter(limits);
      sheet =
          Watch.over(
              meter,
              () ->
                  Format.ending(name).equals(WORKBOOK)
                      ? WorkbookRows.open(bytes, meter)
                      : text(name, bytes, limits));
    } catch (ExecutionException e) {
      throw Documents.fault(e.getCause(), limits);
    }
    if (sheet.next == null) {
      throw new DocumentException(
          sheet.fault != null
              ? sheet.fault.remark()
              : new FileRemark(
                  Sayings.of("sheet.oneRowFile"), Sayings.of("sheet.giveSheetHeader")));
    }
    return sheet;
  }

  private static Sheet text(String name, byte[] bytes, Limits limits)
      throws DocumentException, IOException {
    Encodings.Decoded decoded =
        Encodings.decode(bytes)
            .orElseThrow(() -> new DocumentException(PlainTextReader.NO_TEXT_FILE));
    char between = Format.ending(name).equals(".csv") ? between(decoded.text()) : '\t';
    CSVParser parser =
        CSVParser.builder()
            .setReader(new BoundedCells(new StringReader(decoded.text()), between, limits))
            .setFormat(
                CSVFormat.RFC4180.builder().setDelimiter(between).setIgnoreEmptyLines(true).get())
            .get();
    Iterator<CSVRecord> records = parser.iterator();
    long[] line = {1};
    Iterator<SheetRow> rows =
        new Iterator<>() {
          @Override
          public boolean hasNext() {
            return records.hasNext();
          }

          @Override
          public SheetRow next() {
            SheetRow row = new SheetRow(line[0], records.next().toList());
            line[0] = parser.getCurrentLineNumber() + 1;
            return row;
          }
        };
    return new Sheet(
        limits,
        rows,
        parser,
        decoded.guessed() ? List.of(PlainTextReader.GUESSED) : List.of(),
        false,
        () -> line[0]);
  }

  /** Tells what stands between cells: what the header has most of, outside quotes. */
  private static char between(String text) {
    int end = text.indexOf('\n');
    String header = withoutQuoted(end < 0 ? text : text.substring(0, end));
    char best = ',';
    for (char sign : new char[] {',', ';', '\t'}) {
      if (count(header, sign) > count(header, best)) {
        best = sign;
      }
    }
    return best;
  }

  /**
   * Returns a text without what stands in quotes or in square brackets, and without signs after a
   * backslash. A bracket or quote that is never closed is looked for once only.
   */
  static String withoutQuoted(String text) {
    StringBuilder out = new StringBuilder();
    boolean bracketsEnd = true;
    boolean quotesEnd = true;
    for (int i = 0; i < text.length(); i++) {
      char sign = text.charAt(i);
      int close = -1;
      if (sign == '"' && quotesEnd) {
        close = text.indexOf('"', i + 1);
        quotesEnd = close >= 0;
      } else if (sign == '[' && bracketsEnd) {
        close = text.indexOf(']', i + 1);
        bracketsEnd = close >= 0;
      } else if (sign == '\\' && i + 1 < text.length()) {
        close = i + 1;
      }
      if (close < 0) {
        out.append(sign);
      } else {
        i = close;
      }
    }
    return out.toString();
  }

  private static long count(String text, char sign) {
    return text.chars().filter(c -> c == sign).count();
  }

  /** Returns what a person should know of how the sheet was read. */
  public List<FileRemark> remarks() {
    return remarks;
  }

  /**
   * Returns why the rows end before the file does; empty when all could be read. Known only once
   * the last row was taken.
   */
  public Optional<FileRemark> fault() {
    return fault == null ? Optional.empty() : Optional.of(fault.remark());
  }

  /** Returns the line of the fault, counted from 1; empty when there is none to name. */
  public OptionalLong faultLine() {
    return faultLine < 1 ? OptionalLong.empty() : OptionalLong.of(faultLine);
  }

  /** Returns why a row cannot be used: what it holds is more than a row may; empty when it can. */
  public Optional<FileRemark> fault(SheetRow row) {
    if (row.cells().size() > limits.of(Limit.COLUMNS)) {
      return Optional.of(limits.exceeded(Limit.COLUMNS));
    }
    return row.cells().stream().anyMatch(cell -> cell.length() > limits.of(Limit.TEXT))
        ? Optional.of(limits.exceeded(Limit.TEXT))
        : Optional.empty();
  }

  @Override
  public boolean hasNext() {
    return next != null;
  }

  @Override
  public SheetRow next() {
    SheetRow now = next;
    if (now == null) {
      throw new NoSuchElementException();
    }
    next = read();
    return now;
  }

  private @Nullable SheetRow read() {
    try {
      if (!rows.hasNext()) {
        return null;
      }
      SheetRow row = rows.next();
      if (++count > limits.of(Limit.ROWS)) {
        throw new Meter.Over(limits.exceeded(Limit.ROWS));
      }
      if (!pad || row.cells().size() >= width) {
        return row;
      }
      List<String> cells = new ArrayList<>(row.cells());
      while (cells.size() < width) {
        cells.add("");
      }
      return new SheetRow(row.number(), cells);
    } catch (Meter.Over e) {
      fault = new DocumentException(e.remark());
    } catch (OutOfMemoryError e) {
      fault = new DocumentException(Faults.NO_MEMORY);
    } catch (UncheckedIOException | IllegalStateException e) {
      faultLine = line.getAsLong();
      fault =
          new DocumentException(
              Sayings.of("sheet.quoteWrongRow"), Sayings.of("sheet.closeQuoteDouble"));
    } catch (RuntimeException e) {
      fault = new DocumentException(Faults.DAMAGED);
    }
    return null;
  }

  @Override
  public void close() throws IOException {
    source.close();
  }
}
