package everypart.analyzer.prompt;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;

/** Tables of test cases: a case a line, columns parted by tabs, comments behind "#". */
final class TestTable {
  private TestTable() {}

  /** Returns the rows; a row without the right number of columns fails the test. */
  static Stream<List<String>> rows(String name, int columns) {
    try (InputStream in = TestTable.class.getResourceAsStream(name)) {
      if (in == null) {
        throw new IllegalStateException("no table " + name);
      }
      String table = new String(in.readAllBytes(), StandardCharsets.UTF_8);
      return table
          .lines()
          .filter(line -> !line.isBlank() && !line.startsWith("#"))
          .map(line -> Arrays.stream(line.split("\t")).map(String::strip).toList())
          .peek(
              row -> {
                if (row.size() != columns) {
                  throw new IllegalStateException(
                      name + ": " + columns + " columns wanted: " + row);
                }
              });
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
