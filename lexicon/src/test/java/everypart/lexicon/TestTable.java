package everypart.lexicon;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Objects;

/** Reads the tables of cases beside the tests. */
final class TestTable {
  private TestTable() {}

  /** Returns the rows of a table; fails on a row with another number of columns. */
  static List<List<String>> rows(String name, int columns) {
    try (InputStream in = Objects.requireNonNull(TestTable.class.getResourceAsStream(name))) {
      List<List<String>> rows =
          new String(in.readAllBytes(), StandardCharsets.UTF_8)
              .lines()
              .filter(line -> !line.isEmpty() && line.charAt(0) != '#')
              .map(line -> List.of(line.split("\t", -1)))
              .toList();
      for (List<String> row : rows) {
        if (row.size() != columns) {
          throw new AssertionError(name + ": a row without " + columns + " columns: " + row);
        }
      }
      return rows;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
