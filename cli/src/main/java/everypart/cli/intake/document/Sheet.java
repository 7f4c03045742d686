package everypart.cli.intake.document;

import java.io.ByteArrayInputStream;
import java.io.Closeable;
import java.io.IOException;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.NoSuchElementException;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.function.LongSupplier;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.dhatim.fastexcel.reader.Cell;
import org.dhatim.fastexcel.reader.CellType;
import org.dhatim.fastexcel.reader.ReadableWorkbook;
import org.dhatim.fastexcel.reader.ReadingOptions;
import org.dhatim.fastexcel.reader.Row;
import org.dhatim.fastexcel.reader.SheetVisibility;
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
  private static final Pattern QUOTED = Pattern.compile("\"[^\"]*\"|\\[[^\\]]*\\]|\\\\.");
  private static final Pattern DATE = Pattern.compile("[ymdhs]", Pattern.CASE_INSENSITIVE);

  private final Iterator<SheetRow> rows;
  private final Closeable source;
  private final List<Remark> remarks;
  private final boolean pad;
  private final LongSupplier line;
  private int width;
  private @Nullable SheetRow next;
  private @Nullable DocumentException fault;
  private long faultLine;

  private Sheet(
      Iterator<SheetRow> rows,
      Closeable source,
      List<Remark> remarks,
      boolean pad,
      LongSupplier line) {
    this.rows = rows;
    this.line = line;
    this.pad = pad;
    this.source = source;
    this.remarks = List.copyOf(remarks);
    this.next = read();
    this.width = next == null ? 0 : next.cells().size();
  }

  /** Tells by its name whether a file is a class sheet. */
  public static boolean reads(String name) {
    String ending = Format.ending(name);
    return TEXT.contains(ending) || ending.equals(WORKBOOK);
  }

  /**
   * Opens a file.
   *
   * @throws DocumentException when it cannot be read
   */
  public static Sheet open(Path file) throws DocumentException {
    return open(String.valueOf(file.getFileName()), Documents.bytes(file, Limits.USUAL));
  }

  /**
   * Opens a file that is in memory.
   *
   * @param name what it is called; its ending says its format
   * @throws DocumentException when it cannot be read
   */
  public static Sheet open(String name, byte[] bytes) throws DocumentException {
    if (bytes.length == 0) {
      throw new DocumentException(
          "the file is empty (0 bytes)", "check that the right file was saved and sent whole");
    }
    if (!reads(name)) {
      throw new DocumentException(Format.unread(name));
    }
    Sheet sheet;
    try {
      sheet = Format.ending(name).equals(WORKBOOK) ? workbook(bytes) : text(name, bytes);
    } catch (Packed.TooMuch e) {
      throw new DocumentException(Faults.TOO_MUCH_PACKED);
    } catch (IOException | RuntimeException e) {
      throw new DocumentException(Faults.DAMAGED);
    }
    if (sheet.next == null) {
      throw new DocumentException(
          sheet.fault != null
              ? sheet.fault.remark()
              : new Remark("there is not one row in this file", "give a sheet with a header"));
    }
    return sheet;
  }

  private static Sheet text(String name, byte[] bytes) throws DocumentException, IOException {
    Encodings.Decoded decoded =
        Encodings.decode(bytes)
            .orElseThrow(() -> new DocumentException(PlainTextReader.NO_TEXT_FILE));
    char between = Format.ending(name).equals(".csv") ? between(decoded.text()) : '\t';
    CSVParser parser =
        CSVParser.builder()
            .setReader(new StringReader(decoded.text()))
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
        rows,
        parser,
        decoded.guessed() ? List.of(PlainTextReader.GUESSED) : List.of(),
        false,
        () -> line[0]);
  }

  /** Tells what stands between cells: what the header has most of, outside quotes. */
  private static char between(String text) {
    int end = text.indexOf('\n');
    String header = QUOTED.matcher(end < 0 ? text : text.substring(0, end)).replaceAll("");
    char best = ',';
    for (char sign : new char[] {',', ';', '\t'}) {
      if (count(header, sign) > count(header, best)) {
        best = sign;
      }
    }
    return best;
  }

  private static long count(String text, char sign) {
    return text.chars().filter(c -> c == sign).count();
  }

  private static Sheet workbook(byte[] bytes) throws DocumentException, IOException {
    if (Bytes.latin(bytes, Format.COMPOUND.length()).equals(Format.COMPOUND)) {
      throw new DocumentException(
          Bytes.holds(bytes, "EncryptedPackage") ? Faults.LOCKED : Format.unread("old.xls"));
    }
    try (Packed parts = Packed.open(bytes, Limits.USUAL)) {
      parts.checkAll();
    }
    ReadableWorkbook book =
        new ReadableWorkbook(new ByteArrayInputStream(bytes), new ReadingOptions(true, false));
    List<org.dhatim.fastexcel.reader.Sheet> sheets =
        book.getSheets().filter(sheet -> sheet.getVisibility() == SheetVisibility.VISIBLE).toList();
    List<Remark> remarks = new ArrayList<>();
    for (int i = 0; i < sheets.size(); i++) {
      Stream<Row> stream = sheets.get(i).openStream();
      Iterator<SheetRow> rows =
          stream
              .filter(row -> row.stream().anyMatch(cell -> !text(cell).isBlank()))
              .map(row -> new SheetRow(row.getRowNum(), cells(row)))
              .iterator();
      if (rows.hasNext()) {
        if (i + 1 < sheets.size()) {
          remarks.add(
              new Remark(
                  "only the sheet \"" + sheets.get(i).getName() + "\" was read",
                  "save further sheets as files of their own if they hold responses"));
        }
        return new Sheet(
            rows,
            () -> {
              stream.close();
              book.close();
            },
            remarks,
            true,
            () -> 0);
      }
      stream.close();
    }
    return new Sheet(List.<SheetRow>of().iterator(), book, remarks, true, () -> 0);
  }

  private static List<String> cells(Row row) {
    List<String> cells = new ArrayList<>();
    for (int i = 0; i < row.getCellCount(); i++) {
      cells.add(text(row.getOptionalCell(i).orElse(null)));
    }
    while (!cells.isEmpty() && cells.get(cells.size() - 1).isEmpty()) {
      cells.remove(cells.size() - 1);
    }
    return cells;
  }

  private static String text(@Nullable Cell cell) {
    if (cell == null || cell.getType() == CellType.EMPTY) {
      return "";
    }
    if (cell.getType() == CellType.NUMBER) {
      BigDecimal number = cell.asNumber();
      return isDate(cell.getDataFormatString())
          ? cell.asDate().toString().replaceFirst("T00:00$", "")
          : number.signum() == 0 ? "0" : number.stripTrailingZeros().toPlainString();
    }
    String text = cell.getText();
    return text == null ? "" : text.replace("_x000D_", "").replace("\r\n", "\n");
  }

  private static boolean isDate(@Nullable String format) {
    return format != null
        && !format.equals("General")
        && DATE.matcher(QUOTED.matcher(format).replaceAll("")).find();
  }

  /** Returns what a person should know of how the sheet was read. */
  public List<Remark> remarks() {
    return remarks;
  }

  /**
   * Returns why the rows end before the file does; empty when all could be read. Known only once
   * the last row was taken.
   */
  public Optional<Remark> fault() {
    return fault == null ? Optional.empty() : Optional.of(fault.remark());
  }

  /** Returns the line of the fault, counted from 1; empty when there is none to name. */
  public OptionalLong faultLine() {
    return faultLine < 1 ? OptionalLong.empty() : OptionalLong.of(faultLine);
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
      if (!pad || row.cells().size() >= width) {
        return row;
      }
      List<String> cells = new ArrayList<>(row.cells());
      while (cells.size() < width) {
        cells.add("");
      }
      return new SheetRow(row.number(), cells);
    } catch (UncheckedIOException | IllegalStateException e) {
      faultLine = line.getAsLong();
      fault =
          new DocumentException(
              "a quote is wrong in the row that begins here, so the rest of the file was not read",
              "close the quote, and double the quotes inside a cell");
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
