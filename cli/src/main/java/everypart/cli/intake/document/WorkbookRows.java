package everypart.cli.intake.document;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import javax.xml.stream.XMLStreamException;
import org.dhatim.fastexcel.reader.Cell;
import org.dhatim.fastexcel.reader.CellType;
import org.dhatim.fastexcel.reader.ReadableWorkbook;
import org.dhatim.fastexcel.reader.ReadingOptions;
import org.dhatim.fastexcel.reader.Row;
import org.dhatim.fastexcel.reader.SheetVisibility;
import org.jspecify.annotations.Nullable;

/**
 * The rows of the first sheet of an .xlsx workbook that is shown and has any. Numbers come as they
 * read without a format, dates as in ISO 8601.
 */
final class WorkbookRows {
  private static final Pattern DATE = Pattern.compile("[ymdhs]", Pattern.CASE_INSENSITIVE);

  private WorkbookRows() {}

  /** Opens a workbook. */
  static Sheet open(byte[] bytes, Meter meter)
      throws DocumentException, IOException, XMLStreamException {
    if (Bytes.latin(bytes, Format.COMPOUND.length()).equals(Format.COMPOUND)) {
      throw new DocumentException(
          Bytes.holds(bytes, "EncryptedPackage") ? Faults.LOCKED : Format.unread("old.xls"));
    }
    new WorkbookCheck(meter).check(bytes);
    ReadableWorkbook book =
        new ReadableWorkbook(new ByteArrayInputStream(bytes), new ReadingOptions(true, false));
    List<org.dhatim.fastexcel.reader.Sheet> sheets =
        book.getSheets().filter(sheet -> sheet.getVisibility() == SheetVisibility.VISIBLE).toList();
    List<FileRemark> remarks = new ArrayList<>();
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
              new FileRemark(
                  Sayings.of("sheet.onlySheetRead", sheets.get(i).getName()),
                  Sayings.of("sheet.saveFurtherSheets")));
        }
        return new Sheet(
            meter.limits(),
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
    return new Sheet(meter.limits(), List.<SheetRow>of().iterator(), book, remarks, true, () -> 0);
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
      return isDate(cell.getDataFormatString()) ? date(cell, number) : written(number);
    }
    String text = cell.getText();
    return text == null ? "" : text.replace("_x000D_", "").replace("\r\n", "\n");
  }

  private static String written(BigDecimal number) {
    return number.signum() == 0 ? "0" : number.stripTrailingZeros().toPlainString();
  }

  /** A number that is no day of any calendar is shown as it stands. */
  private static String date(Cell cell, BigDecimal number) {
    try {
      String date = cell.asDate().toString();
      return date.endsWith("T00:00") ? date.substring(0, date.length() - 6) : date;
    } catch (RuntimeException e) {
      return written(number);
    }
  }

  private static boolean isDate(@Nullable String format) {
    return format != null
        && !format.equals("General")
        && DATE.matcher(Sheet.withoutQuoted(format)).find();
  }
}
