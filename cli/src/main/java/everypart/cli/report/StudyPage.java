package everypart.cli.report;

import java.util.List;

/** The page of a study as its template shows it. */
record StudyPage(
    String title,
    String summary,
    List<Section> sections,
    List<String> notes,
    List<String> methods,
    List<String> references,
    List<String> problems,
    boolean troubled,
    List<Doubts.Section> doubtful,
    String caution,
    String judge) {
  /** A section: plots first, then their figures as tables. */
  record Section(String title, List<String> note, List<Plot> plots, List<Table> tables) {
    Section(String title, String note, List<Plot> plots, List<Table> tables) {
      this(title, note.isBlank() ? List.of() : List.of(note), plots, tables);
    }
  }

  /** A plot and what it shows. */
  record Plot(String caption, String svg) {}

  /** A table. */
  record Table(String caption, List<String> head, List<List<String>> rows) {
    /** Makes a table of a row for each thing. */
    static <T> Table of(String caption, List<Column<T>> columns, List<T> rows) {
      return new Table(
          caption,
          Column.heads(columns),
          rows.stream().map(row -> Column.cells(columns, row)).toList());
    }
  }
}
