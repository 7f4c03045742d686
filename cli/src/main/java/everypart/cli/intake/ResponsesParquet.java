package everypart.cli.intake;

import everypart.cli.intake.document.Limit;
import everypart.cli.table.TablesJar;
import everypart.cli.table.TypedTables;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Responses from a Parquet file, or a folder of them, with the columns {@code response_id}, {@code
 * prompt_id} (may be absent) and {@code text}; every other column of single values is kept as a
 * group.
 */
final class ResponsesParquet extends Ahead<Arrival> implements ResponseRows {
  private static final Set<String> OWN = Set.of("response_id", "prompt_id", "text");

  private final Sources sources;
  private final String name;
  private final ParquetParts rows;

  /** The bytes once more, for their checksum as they were when they were opened. */
  private final InputStream whole;

  private final List<String> columns;
  private final int id;
  private final int prompt;
  private final int text;
  private boolean broken;

  ResponsesParquet(Sources sources, String name) throws InputException {
    this.sources = sources;
    this.name = name;
    TypedTables tables = TablesJar.open().orElseThrow(() -> missing(name));
    try {
      this.whole = sources.whole(name, ParquetParts.files(Path.of(name)));
      this.rows = ParquetParts.open(tables, Path.of(name));
    } catch (ParquetParts.PartException e) {
      throw new InputException(e.problem());
    } catch (TypedTables.UnreadCodecException e) {
      throw new InputException(
          InputProblem.fault(
              Sources.place(name),
              Sayings.of("responsesParquet.codec", e.column(), codec(e.codec())),
              Sayings.of("responsesParquet.codec.mend")));
    } catch (IOException e) {
      throw new InputException(
          InputProblem.fault(
              Sources.place(name),
              Sayings.of("responsesParquet.broken"),
              Sayings.of("responsesParquet.broken.mend")));
    }
    this.columns = rows.columns();
    this.id = column("response_id");
    this.text = column("text");
    this.prompt = columns.indexOf("prompt_id");
    if (!rows.nested().isEmpty()) {
      sources.note(
          InputProblem.note(
              Sources.place(name),
              Sayings.of("responsesParquet.nested", String.join(", ", rows.nested())),
              Sayings.of("responsesParquet.nested.mend")));
    }
    begin();
  }

  /** Returns a codec's name as people write it: BROTLI is Brotli. */
  private static String codec(String name) {
    return name.substring(0, 1) + name.substring(1).toLowerCase(Locale.ROOT);
  }

  private static InputException missing(String name) {
    return new InputException(
        InputProblem.fault(
            Sources.place(name),
            Sayings.of("responsesParquet.jar", TablesJar.file()),
            Sayings.of("responsesParquet.jar.mend")));
  }

  private int column(String wanted) throws InputException {
    int at = columns.indexOf(wanted);
    if (at < 0) {
      throw new InputException(
          InputProblem.fault(
              Sources.place(name),
              Sayings.of("responsesParquet.lacks", wanted, String.join(", ", columns)),
              Sayings.of("responsesParquet.lacks.mend")));
    }
    return at;
  }

  @Override
  public List<String> groups() {
    return columns.stream().filter(column -> !OWN.contains(column)).toList();
  }

  @Override
  protected @Nullable Arrival read() {
    if (broken) {
      return null;
    }
    try {
      List<@Nullable String> cells = rows.next();
      return cells == null ? null : response(cells);
    } catch (IOException e) {
      // What follows a broken page cannot be found.
      broken = true;
      return InputProblem.fault(
          Place.file(rows.part().toString()),
          Sayings.of("responsesParquet.rest", String.valueOf(e.getMessage())),
          Sayings.of("responsesParquet.broken.mend"));
    }
  }

  private Arrival response(List<@Nullable String> cells) {
    Place place = Place.file(Sayings.of("responsesParquet.row", rows.part(), rows.row()));
    List<String> values = new ArrayList<>();
    for (String cell : cells) {
      values.add(cell == null ? "" : cell);
    }
    if (values.stream().anyMatch(cell -> cell.length() > sources.limits().of(Limit.TEXT))) {
      return sources.tooLong(place);
    }
    String response = values.get(id).strip();
    if (response.isEmpty()) {
      return InputProblem.fault(
          place, Sayings.of("responsesParquet.noId"), Sayings.of("responsesParquet.noId.mend"));
    }
    Map<String, String> groups = new LinkedHashMap<>();
    for (int at = 0; at < values.size(); at++) {
      if (!OWN.contains(columns.get(at))) {
        groups.put(columns.get(at), values.get(at));
      }
    }
    Optional<String> promptId =
        prompt < 0
            ? Optional.empty()
            : Optional.of(values.get(prompt).strip()).filter(value -> !value.isEmpty());
    return new Response(response, promptId, values.get(text), groups, place);
  }

  @Override
  public void close() throws IOException {
    rows.close();
    whole.close();
  }
}
