package everypart.cli.intake;

import everypart.analyzer.prompt.Prompt;
import everypart.cli.intake.document.DocumentException;
import everypart.cli.intake.document.Documents;
import everypart.cli.intake.document.FileRemark;
import everypart.cli.intake.document.Limits;
import everypart.cli.intake.document.Sheet;
import everypart.cli.intake.document.SheetRow;
import java.io.IOException;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NoSuchElementException;
import java.util.Optional;
import java.util.function.Consumer;

/** Responses from the rows of a class sheet. */
final class SheetResponses implements Arrivals {
  /** How many rows are looked at to tell what the columns hold. */
  private static final int SAMPLE = 50;

  /** The column that names a student whose responses to several prompts each have an id. */
  static final String STUDENT = "student";

  private final Sheet sheet;
  private final Place file;
  private final SheetColumns columns;
  private final Deque<SheetRow> ahead = new ArrayDeque<>();
  private final Deque<Arrival> waiting = new ArrayDeque<>();
  private boolean ended;

  /**
   * Opens a sheet.
   *
   * @param shown how messages name it
   * @param name what it is called; its ending says its format
   * @param limits how much it may hold
   * @param notes is told how the columns were read, where that was guessed
   * @throws InputException when it cannot be read, or no column holds answers
   */
  SheetResponses(
      String shown,
      String name,
      byte[] bytes,
      Limits limits,
      Map<String, String> asked,
      Collection<Prompt> prompts,
      Consumer<InputProblem> notes)
      throws InputException {
    this.file = Place.file(shown);
    try {
      this.sheet = new Documents(limits).sheet(name, bytes);
    } catch (DocumentException e) {
      throw new InputException(InputProblem.fault(file, e.remark().what(), e.remark().mend()));
    }
    sheet
        .remarks()
        .forEach(remark -> notes.accept(InputProblem.note(file, remark.what(), remark.mend())));
    List<String> header = sheet.next().cells().stream().map(String::strip).toList();
    for (String column : header) {
      if (!column.isEmpty() && header.indexOf(column) != header.lastIndexOf(column)) {
        throw new InputException(
            InputProblem.fault(
                file.atLine(1),
                Sayings.of("codeRows.columnStandsHeader", column),
                Sayings.of("codeRows.renameOneTwo")));
      }
    }
    while (ahead.size() < SAMPLE && sheet.hasNext()) {
      ahead.add(sheet.next());
    }
    this.columns =
        SheetColumns.of(file, header, ahead.stream().map(SheetRow::cells).toList(), asked, prompts);
    if (!columns.arePublic()) {
      notes.accept(
          InputProblem.note(
              file,
              Sayings.of("sheetResponses.columnsRead", columns.inWords()),
              Sayings.of("sheetResponses.sayColumnsIf")));
    }
  }

  @Override
  public boolean hasNext() {
    while (waiting.isEmpty()) {
      SheetRow row = ahead.isEmpty() ? (sheet.hasNext() ? sheet.next() : null) : ahead.remove();
      if (row != null) {
        read(row);
      } else if (!ended) {
        ended = true;
        sheet
            .fault()
            .ifPresent(
                why ->
                    waiting.add(
                        InputProblem.fault(
                            sheet.faultLine().isPresent()
                                ? file.atLine(sheet.faultLine().getAsLong())
                                : file,
                            why.what(),
                            why.mend())));
      } else {
        return false;
      }
    }
    return true;
  }

  @Override
  public Arrival next() {
    if (!hasNext()) {
      throw new NoSuchElementException();
    }
    return waiting.remove();
  }

  private void read(SheetRow row) {
    Place place = file.atLine(row.number());
    Optional<FileRemark> over = sheet.fault(row);
    if (over.isPresent()) {
      waiting.add(InputProblem.fault(place, over.get().what(), over.get().mend()));
      return;
    }
    List<String> cells = row.cells();
    int surplus = cells.size() - columns.header().size();
    if (surplus < 0 || cells.stream().skip(columns.header().size()).anyMatch(c -> !c.isBlank())) {
      waiting.add(
          InputProblem.fault(
              place,
              Sayings.of("codeRows.rowCellsHeader", cells.size(), columns.header().size()),
              Sayings.of("codeRows.putQuotesRound")));
      return;
    }
    if (cells.stream().allMatch(String::isBlank)) {
      return;
    }
    String id =
        columns.id().isPresent()
            ? SheetColumns.cell(cells, columns.id().getAsInt())
            : "row " + row.number();
    if (id.isEmpty()) {
      waiting.add(
          InputProblem.fault(
              place,
              columns.header().get(columns.id().orElse(0)) + " is empty",
              Sayings.of("responsesCsv.giveEachResponse")));
      return;
    }
    Optional<String> named =
        columns.prompt().isPresent()
            ? Optional.of(SheetColumns.cell(cells, columns.prompt().getAsInt()))
                .filter(value -> !value.isEmpty())
            : Optional.empty();
    for (SheetColumns.Answer answer : columns.answers()) {
      Map<String, String> groups = new LinkedHashMap<>();
      if (answer.prompt().isPresent()) {
        groups.put(STUDENT, id);
      }
      columns.groups().forEach(i -> groups.put(columns.header().get(i), cells.get(i)));
      waiting.add(
          new Response(
              answer.prompt().map(prompt -> id + "/" + prompt).orElse(id),
              answer.prompt().or(() -> named),
              text(answer, cells),
              groups,
              place));
    }
  }

  /** Returns the response; cells of one part each become a text with labels. */
  private static String text(SheetColumns.Answer answer, List<String> cells) {
    List<String> pieces = new ArrayList<>();
    answer
        .cells()
        .forEach(
            (label, column) -> {
              String cell = cells.get(column);
              if (label.isEmpty()) {
                pieces.add(cell);
              } else if (!cell.isBlank()) {
                pieces.add("(" + label.replace(".", ")(") + ") " + cell.strip());
              }
            });
    return String.join("\n\n", pieces);
  }

  @Override
  public void close() throws IOException {
    sheet.close();
  }
}
