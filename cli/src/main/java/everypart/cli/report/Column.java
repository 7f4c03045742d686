package everypart.cli.report;

import java.util.List;
import java.util.function.Function;

/**
 * A column of a table: what stands above it, and how its cell follows from what a row is about. So
 * a head and its cells cannot come apart.
 *
 * @param <T> what a row is about
 */
record Column<T>(String head, Function<T, String> value) {
  /** Returns what stands above the columns. */
  static <T> List<String> heads(List<Column<T>> columns) {
    return columns.stream().map(Column::head).toList();
  }

  /** Returns the cells of one row. */
  static <T> List<String> cells(List<Column<T>> columns, T row) {
    return columns.stream().map(column -> column.value().apply(row)).toList();
  }
}
