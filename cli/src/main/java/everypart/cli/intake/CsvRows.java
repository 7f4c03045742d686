package everypart.cli.intake;

import everypart.cli.intake.document.Documents;
import everypart.cli.intake.document.FileRemark;
import everypart.cli.intake.document.Limit;
import everypart.cli.intake.document.Limits;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.jspecify.annotations.Nullable;

/** The rows of a CSV file with a header (RFC 4180), read one by one. */
final class CsvRows implements AutoCloseable {
  private static final CSVFormat FORMAT =
      CSVFormat.RFC4180.builder().setIgnoreEmptyLines(true).get();

  private final CSVParser parser;
  private final Iterator<CSVRecord> records;
  private final Place file;
  private final List<String> header;
  private final Limits limits;
  private long nextLine = 1;
  private boolean broken;

  /**
   * Reads the header.
   *
   * @throws InputException when there is none, or a column stands in it twice
   */
  CsvRows(String name, Sources sources) throws InputException {
    this.file = Sources.place(name);
    this.limits = sources.limits();
    try {
      this.parser =
          CSVParser.builder()
              .setReader(new Documents(limits).cells(sources.reader(name), ','))
              .setFormat(FORMAT)
              .get();
    } catch (IOException e) {
      throw new InputException(Sources.unreadable(name, e));
    }
    this.records = parser.iterator();
    Row first = advance();
    if (first == null) {
      throw new InputException(
          InputProblem.fault(
              file, Sayings.of("csvRows.oneLineFile"), Sayings.of("csvRows.giveCsvFile")));
    }
    if (first.problem().isPresent()) {
      throw new InputException(first.problem().get());
    }
    List<String> names = new ArrayList<>();
    for (String cell : first.cells()) {
      String column = cell.strip();
      if (!column.isEmpty() && names.contains(column)) {
        throw new InputException(
            InputProblem.fault(
                file.atLine(1),
                Sayings.of("codeRows.columnStandsHeader", column),
                Sayings.of("codeRows.renameOneTwo")));
      }
      names.add(column);
    }
    this.header = List.copyOf(names);
  }

  /** Returns the names of the columns, in the file's order. */
  List<String> header() {
    return header;
  }

  /** Returns the file. */
  Place file() {
    return file;
  }

  /** Returns the problem that a header lacks a column. */
  static InputException lacks(String name, List<String> header, Place file) {
    return new InputException(
        InputProblem.fault(
            file.atLine(1),
            Sayings.of("csvRows.headerNoColumn", name, String.join(", ", header)),
            Sayings.of("csvRows.renameColumnHolds")));
  }

  /**
   * Returns where a column stands.
   *
   * @throws InputException when there is no such column
   */
  int column(String name) throws InputException {
    int at = header.indexOf(name);
    if (at < 0) {
      throw lacks(name, header, file);
    }
    return at;
  }

  /** Returns the next row, or null after the last one. */
  @Nullable Row next() {
    Row row = advance();
    if (row == null || row.problem().isPresent() || row.cells().size() == header.size()) {
      return row;
    }
    return row.bad(
        Sayings.of("codeRows.rowCellsHeader", row.cells().size(), header.size()),
        Sayings.of("codeRows.putQuotesRound"));
  }

  private @Nullable Row advance() {
    if (broken) {
      return null;
    }
    long line = nextLine;
    try {
      if (!records.hasNext()) {
        return null;
      }
      CSVRecord record = records.next();
      nextLine = parser.getCurrentLineNumber() + 1;
      Row row = new Row(record.toList(), file.atLine(line), Optional.empty());
      if (row.cells().size() > limits.of(Limit.COLUMNS)) {
        return over(row, Limit.COLUMNS);
      }
      return row.cells().stream().anyMatch(cell -> cell.length() > limits.of(Limit.TEXT))
          ? over(row, Limit.TEXT)
          : row;
    } catch (UncheckedIOException | IllegalStateException e) {
      // The parser cannot find the next row after a broken quote, so the rest of the file is lost.
      broken = true;
      return new Row(List.of(), file.atLine(line), Optional.empty())
          .bad(Sayings.of("csvRows.quoteWrongRow"), Sayings.of("csvRows.closeQuoteDouble"));
    }
  }

  private Row over(Row row, Limit limit) {
    FileRemark why = limits.exceeded(limit);
    return new Row(List.of(), row.place(), Optional.empty()).bad(why.what(), why.mend());
  }

  @Override
  public void close() throws IOException {
    parser.close();
  }

  /**
   * A row.
   *
   * @param cells its cells, as many as the header has unless there is a problem
   * @param place the line it begins on
   * @param problem why it cannot be used
   */
  record Row(List<String> cells, Place place, Optional<InputProblem> problem) {
    Row bad(String what, String mend) {
      return new Row(cells, place, Optional.of(InputProblem.fault(place, what, mend)));
    }
  }
}
