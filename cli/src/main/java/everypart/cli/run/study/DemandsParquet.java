package everypart.cli.run.study;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import everypart.cli.intake.InputException;
import everypart.cli.intake.InputProblem;
import everypart.cli.intake.Sources;
import everypart.cli.report.DemandsCsv;
import everypart.cli.report.OutputFile;
import everypart.cli.run.OutputException;
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
import java.util.Arrays;
import java.util.HashSet;
import java.util.Iterator;
import java.util.List;
import java.util.Set;
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

  private static final List<Column> COLUMNS =
      List.of(
          new Column("response_id", CellType.TEXT),
          new Column("prompt_id", CellType.TEXT),
          new Column("part", CellType.TEXT),
          new Column("demand", CellType.NUMBER),
          new Column("kind", CellType.TEXT),
          new Column("verb", CellType.TEXT),
          new Column("about", CellType.TEXT),
          new Column("count", CellType.NUMBER),
          new Column("found", CellType.NUMBER),
          new Column("verdict", CellType.TEXT),
          new Column("confidence", CellType.FRACTION),
          new Column("look", CellType.TRUTH),
          new Column("quote", CellType.TEXT),
          new Column("why", CellType.TEXT));

  /** Where demands.csv has what a demand is about, which results.jsonl has not. */
  private static final int ABOUT = 6;

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
  static TypedTables tables() throws OutputException {
    return TablesJar.open()
        .orElseThrow(
            () -> new OutputException(Sayings.of("demandsParquet.needsJar", TablesJar.file())));
  }

  private List<Column> columns() {
    List<Column> columns = new ArrayList<>(COLUMNS);
    List<String> more = new ArrayList<>(groups);
    if (leavingOut) {
      more.add(DemandsCsv.LEFT_OUT);
    }
    Set<String> taken = new HashSet<>(COLUMNS.stream().map(Column::name).toList());
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
      throws InputException, OutputException, IOException {
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
            sink.add(row(result, part.path("label").asText(), number++, demand, rows.next()));
          }
        }
      }
    } catch (IOException e) {
      Files.deleteIfExists(beside);
      throw e;
    }
    Files.move(beside, target, StandardCopyOption.REPLACE_EXISTING);
  }

  private List<?> row(JsonNode result, String part, int number, JsonNode demand, CSVRecord csv) {
    List<@Nullable Object> row = new ArrayList<>();
    row.addAll(
        Arrays.asList(
            result.path("responseId").asText(),
            result.path("promptId").asText(),
            part,
            number,
            demand.path("kind").asText(),
            demand.path("verb").asText(),
            unguarded(csv.get(ABOUT)),
            demand.path("count").asInt(),
            demand.path("found").asInt(),
            demand.path("verdict").asText(),
            demand.path("confidence").asDouble(),
            demand.path("look").asBoolean(),
            quotes(demand),
            whys(demand)));
    groups.forEach(group -> row.add(result.path("groups").path(group).asText("")));
    if (leavingOut) {
      row.add(result.has("leftOut") ? result.path("leftOut").asText() : null);
    }
    return row;
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
