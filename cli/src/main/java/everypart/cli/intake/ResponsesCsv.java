package everypart.cli.intake;

import java.io.IOException;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Responses from a CSV file with the columns {@code response_id}, {@code prompt_id} (may be absent)
 * and {@code text}; every other column is kept as a group.
 */
public final class ResponsesCsv extends Ahead<Arrival> implements ResponseRows {
  private final CsvRows rows;
  private final int id;
  private final int prompt;
  private final int text;

  /**
   * Opens a file.
   *
   * @param name a file, or "-" for standard input
   * @throws InputException when it cannot be read or lacks a column
   */
  public ResponsesCsv(Sources sources, String name) throws InputException {
    this.rows = new CsvRows(name, sources);
    this.id = rows.column("response_id");
    this.text = rows.column("text");
    this.prompt = rows.header().indexOf("prompt_id");
    begin();
  }

  @Override
  public List<String> groups() {
    return rows.header().stream()
        .filter(
            name -> !name.isEmpty() && !Set.of("response_id", "prompt_id", "text").contains(name))
        .toList();
  }

  @Override
  protected @Nullable Arrival read() {
    CsvRows.Row row = rows.next();
    if (row == null) {
      return null;
    }
    if (row.problem().isPresent()) {
      return row.problem().get();
    }
    String name = row.cells().get(id).strip();
    if (name.isEmpty()) {
      return InputProblem.fault(
          row.place(),
          Sayings.of("responsesCsv.responseIdEmpty"),
          Sayings.of("responsesCsv.giveEachResponse"));
    }
    Map<String, String> groups = new LinkedHashMap<>();
    for (int i = 0; i < row.cells().size(); i++) {
      if (i != id && i != prompt && i != text && !rows.header().get(i).isEmpty()) {
        groups.put(rows.header().get(i), row.cells().get(i));
      }
    }
    Optional<String> promptId =
        prompt < 0
            ? Optional.empty()
            : Optional.of(row.cells().get(prompt).strip()).filter(value -> !value.isEmpty());
    return new Response(name, promptId, row.cells().get(text), groups, row.place());
  }

  @Override
  public void close() throws IOException {
    rows.close();
  }
}
