package everypart.cli.run.study;

import everypart.analyzer.study.JudgedResponse;
import everypart.cli.intake.NumberedRow;
import everypart.cli.intake.RawRecords;
import everypart.cli.intake.Response;
import everypart.cli.intake.ResultLines;
import everypart.cli.report.DemandsCsv;
import everypart.cli.report.ResultJson;
import java.io.BufferedReader;
import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.zip.GZIPInputStream;
import org.jspecify.annotations.Nullable;

/**
 * The results that an interrupted run left behind, matched with the rows they came from.
 *
 * <p>Nothing is taken on trust but whole results: a table may end in the middle of a line, of a
 * letter or of a zipped block, and the two tables need not end at the same response. What does not
 * fit is left out, and its row is judged anew.
 */
final class KeptResults implements Closeable {
  private final @Nullable BufferedReader lines;
  private final @Nullable RawRecords records;
  private @Nullable String nextLine;
  private @Nullable String nextRecord;

  /** The result of one row: its line of results.jsonl and its records of demands.csv. */
  record KeptRow(String line, List<String> records) {
    KeptRow {
      records = List.copyOf(records);
    }

    /** Returns the result as a study counts it, or nothing when it is not whole. */
    Optional<JudgedResponse> result() {
      return ResultLines.read(line).filter(result -> result.demands().size() == records.size());
    }
  }

  private KeptResults(@Nullable BufferedReader lines, @Nullable RawRecords records) {
    this.lines = lines;
    this.records = records;
    readLine();
    readRecord(); // the header
    readRecord();
  }

  /** Returns no results. */
  static KeptResults none() {
    return new KeptResults(null, null);
  }

  /** Opens the tables of an interrupted run; one that is not there or cannot be read is empty. */
  static KeptResults open(Path results, Path demands) throws IOException {
    BufferedReader lines = reader(results);
    try {
      BufferedReader records = reader(demands);
      return new KeptResults(lines, records == null ? null : new RawRecords(records));
    } catch (IOException e) {
      if (lines != null) {
        lines.close();
      }
      throw e;
    }
  }

  private static @Nullable BufferedReader reader(Path file) throws IOException {
    if (!Files.isRegularFile(file)) {
      return null;
    }
    InputStream bytes = Files.newInputStream(file);
    try {
      InputStream in =
          file.getFileName().toString().contains(".gz")
              ? new GZIPInputStream(bytes, 1 << 16)
              : bytes;
      Reader text =
          new InputStreamReader(
              in,
              StandardCharsets.UTF_8
                  .newDecoder()
                  .onMalformedInput(CodingErrorAction.REPORT)
                  .onUnmappableCharacter(CodingErrorAction.REPORT));
      return new BufferedReader(text, 1 << 16);
    } catch (IOException notEvenAHead) {
      bytes.close();
      return null;
    }
  }

  /** Returns what was kept of a row. Rows come in their order. */
  Optional<KeptRow> of(NumberedRow row) {
    if (nextLine == null || !(row.arrival() instanceof Response response)) {
      return Optional.empty();
    }
    if (!nextLine.startsWith(ResultJson.opening(response.id()))) {
      return Optional.empty(); // a row without a result, unless the table is of another run
    }
    String line = nextLine;
    readLine();
    String first = DemandsCsv.firstCell(response.id());
    List<String> own = new ArrayList<>();
    while (nextRecord != null && nextRecord.startsWith(first)) {
      own.add(nextRecord);
      readRecord();
    }
    return Optional.of(new KeptRow(line, own));
  }

  private void readLine() {
    try {
      nextLine = lines == null ? null : lines.readLine();
    } catch (IOException cutOff) {
      nextLine = null;
    }
  }

  private void readRecord() {
    try {
      nextRecord = records == null ? null : records.next().orElse(null);
    } catch (IOException cutOff) {
      nextRecord = null;
    }
  }

  @Override
  public void close() throws IOException {
    try {
      if (lines != null) {
        lines.close();
      }
    } finally {
      if (records != null) {
        records.close();
      }
    }
  }
}
