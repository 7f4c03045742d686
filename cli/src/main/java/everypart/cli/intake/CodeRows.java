package everypart.cli.intake;

import everypart.cli.intake.document.DocumentException;
import everypart.cli.intake.document.Documents;
import everypart.cli.intake.document.Limits;
import everypart.cli.intake.document.Sheet;
import everypart.cli.intake.document.SheetRow;
import java.io.Closeable;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * The rows of people's codes: CSV as the program writes it, or as spreadsheets save a sheet that
 * was filled in (.xlsx, .tsv, or cells apart by semicolons).
 */
final class CodeRows implements Closeable {
  private final List<String> header;
  private final Place file;
  private final Closeable source;
  private final Reader rows;

  private interface Reader {
    CsvRows.@Nullable Row next();
  }

  private CodeRows(List<String> header, Place file, Closeable source, Reader rows) {
    this.header = header;
    this.file = file;
    this.source = source;
    this.rows = rows;
  }

  /**
   * Opens a file.
   *
   * @param name a file, or "-" for standard input, which is CSV
   * @param notes is told how the file was read, where that was guessed
   * @throws InputException when it cannot be read
   */
  static CodeRows open(Sources sources, String name, Consumer<InputProblem> notes)
      throws InputException {
    if (!name.equals(Sources.STANDARD_INPUT)
        && Documents.isSheet(name)
        && Files.isRegularFile(Path.of(name))) {
      return sheet(name, sources.limits(), notes);
    }
    CsvRows rows = new CsvRows(name, sources);
    return new CodeRows(rows.header(), rows.file(), rows::close, rows::next);
  }

  private static CodeRows sheet(String name, Limits limits, Consumer<InputProblem> notes)
      throws InputException {
    Place file = Sources.place(name);
    Sheet sheet;
    try {
      sheet = new Documents(limits).sheet(Path.of(name));
    } catch (DocumentException e) {
      throw new InputException(InputProblem.fault(file, e.remark().what(), e.remark().mend()));
    }
    sheet
        .remarks()
        .forEach(remark -> notes.accept(InputProblem.note(file, remark.what(), remark.mend())));
    List<String> header = sheet.next().cells().stream().map(String::strip).toList();
    boolean[] faultTold = {false};
    return new CodeRows(
        header,
        file,
        sheet,
        () -> {
          if (sheet.hasNext()) {
            return row(sheet.next(), header.size(), file);
          }
          if (sheet.fault().isEmpty() || faultTold[0]) {
            return null;
          }
          faultTold[0] = true;
          Place place =
              sheet.faultLine().isPresent() ? file.atLine(sheet.faultLine().getAsLong()) : file;
          return new CsvRows.Row(List.of(), place, Optional.empty())
              .bad(sheet.fault().get().what(), sheet.fault().get().mend());
        });
  }

  private static CsvRows.Row row(SheetRow row, int width, Place file) {
    CsvRows.Row read = new CsvRows.Row(row.cells(), file.atLine(row.number()), Optional.empty());
    boolean surplus = row.cells().stream().skip(width).anyMatch(cell -> !cell.isBlank());
    return row.cells().size() < width || surplus
        ? read.bad(
            Sayings.of("codeRows.rowCellsHeader", row.cells().size(), width),
            Sayings.of("codeRows.putQuotesRound"))
        : read;
  }

  /**
   * Returns where a column stands.
   *
   * @throws InputException when there is no such column, or two
   */
  int column(String name) throws InputException {
    int at = header.indexOf(name);
    if (at < 0) {
      throw CsvRows.lacks(name, header, file);
    }
    if (at != header.lastIndexOf(name)) {
      throw new InputException(
          InputProblem.fault(
              file.atLine(1),
              Sayings.of("codeRows.columnStandsHeader", name),
              Sayings.of("codeRows.renameOneTwo")));
    }
    return at;
  }

  /** Returns where a column stands; nothing when there is none. */
  Optional<Integer> optionalColumn(String name) throws InputException {
    return header.contains(name) ? Optional.of(column(name)) : Optional.empty();
  }

  /** Returns the next row, or null after the last one. */
  CsvRows.@Nullable Row next() {
    return rows.next();
  }

  @Override
  public void close() throws IOException {
    source.close();
  }
}
