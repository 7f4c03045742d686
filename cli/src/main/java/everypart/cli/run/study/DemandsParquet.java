package everypart.cli.run.study;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import everypart.cli.intake.InputException;
import everypart.cli.intake.InputProblem;
import everypart.cli.intake.Sources;
import everypart.cli.report.DemandsCsv;
import everypart.cli.report.OutputFile;
import everypart.cli.run.WrongCallException;
import everypart.cli.table.TablesJar;
import everypart.cli.table.TypedTables;
import everypart.cli.table.TypedTables.CellType;
import everypart.cli.table.TypedTables.Column;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.function.Function;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.jspecify.annotations.Nullable;

/**
 * The rows of {@code demands.csv} with types: {@code demands.parquet}. Made from the two tables
 * that a study has written, so that it is the same after a merge or an interruption. Cells are as
 * they are, without the apostrophe that guards a spreadsheet.
 */
final class DemandsParquet {
  static final String NAME = "demands.parquet";

  private static final JsonMapper MAPPER = new JsonMapper();

  /** What a row is made from. */
  private record Row(JsonNode result, String part, int number, JsonNode demand, CSVRecord csv) {}

  /** The type of a column, and how its cell follows from a row. */
  private record Cell(CellType type, Function<Row, Object> value) {
    static Cell text(Function<Row, String> value) {
      return new Cell(CellType.TEXT, value::apply);
    }
  }

  /** Where demands.csv has what a demand is about, which results.jsonl has not. */
  private static final int ABOUT = DemandsCsv.columns().indexOf("about");

  /** The types and cells of the columns of demands.csv. */
  private static final Map<String, Cell> CELLS =
      Map.ofEntries(
          Map.entry("response_id", Cell.text(row -> row.result().path("responseId").asText())),
          Map.entry("prompt_id", Cell.text(row -> row.result().path("promptId").asText())),
          Map.entry("part", Cell.text(Row::part)),
          Map.entry("demand", new Cell(CellType.NUMBER, Row::number)),
          Map.entry("kind", Cell.text(row -> row.demand().path("kind").asText())),
          Map.entry("verb", Cell.text(row -> row.demand().path("verb").asText())),
          Map.entry("about", Cell.text(row -> unguarded(row.csv().get(ABOUT)))),
          Map.entry("count", new Cell(CellType.NUMBER, row -> row.demand().path("count").asInt())),
          Map.entry("found", new Cell(CellType.NUMBER, row -> row.demand().path("found").asInt())),
          Map.entry("verdict", Cell.text(row -> row.demand().path("verdict").asText())),
          Map.entry(
              "confidence",
              new Cell(CellType.FRACTION, row -> row.demand().path("confidence").asDouble())),
          Map.entry("look", new Cell(CellType.TRUTH, row -> row.demand().path("look").asBoolean())),
          Map.entry("quote", Cell.text(row -> quotes(row.demand()))),
          Map.entry("why", Cell.text(row -> whys(row.demand()))));

  private final Sources sources;
  private final List<String> groups;
  private final boolean leavingOut;

  /**
   * Takes what the tables hold.
   *
   * @param groups the further columns of the responses
   * @param leavingOut whether one more column says why a response is left out of the figures
   */
  DemandsParquet(Sources sources, List<String> groups, boolean leavingOut) {
    this.sources = sources;
    this.groups = groups;
    this.leavingOut = leavingOut;
  }

  /** Returns the service, or says in one sentence that its jar is not there. */
  static TypedTables tables() throws WrongCallException {
    return TablesJar.open()
        .orElseThrow(
            () -> new WrongCallException(Sayings.of("demandsParquet.needsJar", TablesJar.file())));
  }

  private List<Column> columns() {
    List<Column> columns = new ArrayList<>();
    for (String name : DemandsCsv.columns()) {
      columns.add(new Column(name, cell(name).type()));
    }
    List<String> more = new ArrayList<>(groups);
    if (leavingOut) {
      more.add(DemandsCsv.LEFT_OUT);
    }
    Set<String> taken = new HashSet<>(DemandsCsv.columns());
    for (String name : more) {
      String own = name;
      for (int number = 2; !taken.add(own); number++) {
        own = name + "#" + number;
      }
      columns.add(new Column(own, CellType.TEXT));
    }
    return columns;
  }

  /** Writes the file from results.jsonl and demands.csv. */
  void write(Path results, Path demands, Path target)
      throws InputException, WrongCallException, IOException {
    TypedTables tables = tables();
    Path beside = target.resolveSibling("." + target.getFileName() + ".unfinished");
    try (BufferedReader lines = new BufferedReader(sources.reader(results.toString()));
        var cells = CSVFormat.RFC4180.parse(sources.reader(demands.toString()));
        OutputStream bytes = OutputFile.create(beside);
        TypedTables.Sink sink = tables.write(bytes, columns())) {
      Iterator<CSVRecord> rows = cells.iterator();
      rows.next();
      for (String line = lines.readLine(); line != null; line = lines.readLine()) {
        JsonNode result = MAPPER.readTree(line);
        for (JsonNode part : result.path("parts")) {
          int number = 1;
          for (JsonNode demand : part.path("demands")) {
            if (!rows.hasNext()) {
              throw new InputException(
                  InputProblem.fault(
                      Sources.place(demands.toString()),
                      Sayings.of("demandsParquet.fewerRows", results.getFileName()),
                      Sayings.of("demandsParquet.runAgain")));
            }
            String label = part.path("label").asText();
            sink.add(cells(new Row(result, label, number++, demand, rows.next())));
          }
        }
      }
    } catch (IOException e) {
      Files.deleteIfExists(beside);
      throw e;
    }
    Files.move(beside, target, StandardCopyOption.REPLACE_EXISTING);
  }

  private static Cell cell(String column) {
    return Objects.requireNonNull(CELLS.get(column), column);
  }

  private List<?> cells(Row row) {
    List<@Nullable Object> cells = new ArrayList<>();
    DemandsCsv.columns().forEach(column -> cells.add(cell(column).value().apply(row)));
    JsonNode result = row.result();
    groups.forEach(group -> cells.add(result.path("groups").path(group).asText("")));
    if (leavingOut) {
      cells.add(result.has("leftOut") ? result.path("leftOut").asText() : null);
    }
    return cells;
  }

  /** Takes away the apostrophe that guards words of a prompt; only those come from the table. */
  private static String unguarded(String cell) {
    return cell.matches("(?s)'[=+@\uff1d\uff0b\uff0d\uff20-].*") ? cell.substring(1) : cell;
  }

  private static String quotes(JsonNode demand) {
    List<String> quotes = new ArrayList<>();
    demand.path("evidence").forEach(one -> quotes.add(one.path("quote").asText()));
    return DemandsCsv.quotes(quotes);
  }

  private static String whys(JsonNode demand) {
    List<String> whys = new ArrayList<>();
    demand.path("why").forEach(one -> whys.add(one.asText()));
    return String.join("; ", whys);
  }
}
