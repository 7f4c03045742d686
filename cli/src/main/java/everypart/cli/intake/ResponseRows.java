package everypart.cli.intake;

import java.util.List;
import java.util.Locale;

/** Responses in a table, a row each, read one by one. */
public interface ResponseRows extends Arrivals {
  /** Returns the names of the columns that are kept as groups, in the file's order. */
  List<String> groups();

  /**
   * Opens a table of responses: JSON lines when its name ends with .jsonl or .ndjson, Parquet when
   * it ends with .parquet, CSV otherwise; the first and the last may be zipped (.gz). A folder of
   * Parquet files is one table.
   *
   * @param name a file, a folder of Parquet files, or "-" for standard input, which is CSV
   * @throws InputException when it cannot be read or lacks a column
   */
  static ResponseRows open(Sources sources, String name) throws InputException {
    if (ParquetParts.isParquet(name)) {
      return new ResponsesParquet(sources, name);
    }
    String plain = name.toLowerCase(Locale.ROOT).replaceFirst("[.]gz$", "");
    return plain.endsWith(".jsonl") || plain.endsWith(".ndjson")
        ? new ResponsesJsonl(sources, name)
        : new ResponsesCsv(sources, name);
  }
}
