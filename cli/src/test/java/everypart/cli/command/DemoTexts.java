package everypart.cli.command;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;

/** The texts of the demo class set. */
final class DemoTexts {
  private DemoTexts() {}

  /** Returns the texts of a class set by id, in order. */
  static Map<String, String> of(Path file) throws IOException {
    Map<String, String> texts = new LinkedHashMap<>();
    try (CSVParser rows =
        CSVFormat.RFC4180
            .builder()
            .setHeader()
            .setSkipHeaderRecord(true)
            .get()
            .parse(Files.newBufferedReader(file))) {
      rows.forEach(row -> texts.put(row.get("response_id"), row.get("text")));
    }
    return texts;
  }
}
