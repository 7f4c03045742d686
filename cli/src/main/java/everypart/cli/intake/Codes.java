package everypart.cli.intake;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.BufferedReader;
import java.io.IOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;

/**
 * Reads people's codes, and the program's verdicts in {@code results.jsonl}, to set them side by
 * side.
 */
public final class Codes {
  private static final JsonMapper MAPPER = new JsonMapper();

  private final Sources sources;
  private final Consumer<InputProblem> problems;

  /**
   * A demand of a response.
   *
   * @param responseId names the response
   * @param part the part's label
   * @param demand the demand's running number in its part, from 1
   */
  public record Item(String responseId, String part, int demand) {}

  /**
   * A verdict of the program.
   *
   * @param kind the kind of demand
   * @param verdict the verdict's word
   */
  public record Judged(String kind, String verdict) {}

  /**
   * Makes a reader.
   *
   * @param problems is told of each row that cannot be used
   */
  public Codes(Sources sources, Consumer<InputProblem> problems) {
    this.sources = sources;
    this.problems = problems;
  }

  /**
   * Reads codes: for each coder the items coded, true where the demand is addressed. An empty code
   * says that the coder left the item open, and is left out.
   *
   * @param name a CSV file with the columns response_id, part, demand and code; a column coder may
   *     tell several coders apart
   * @throws InputException when the file cannot be read or lacks a column
   */
  public Map<String, Map<Item, Boolean>> codes(String name) throws InputException {
    Map<String, Map<Item, Boolean>> codes = new LinkedHashMap<>();
    try (CsvRows rows = new CsvRows(name, sources.reader(name))) {
      int id = rows.column("response_id");
      int part = rows.column("part");
      int demand = rows.column("demand");
      int code = rows.column("code");
      int coder = rows.header().indexOf("coder");
      for (CsvRows.Row row = rows.next(); row != null; row = rows.next()) {
        if (row.problem().isPresent()) {
          problems.accept(row.problem().get());
          continue;
        }
        String value = row.cells().get(code).strip();
        String number = row.cells().get(demand).strip();
        if (!number.matches("[1-9][0-9]{0,5}")) {
          problems.accept(
              InputProblem.fault(
                  row.place(),
                  "demand is \"" + number + "\"",
                  "give the running number of the demand in its part: 1, 2 ..."));
          continue;
        }
        if (!value.matches("[01]?")) {
          problems.accept(
              InputProblem.fault(
                  row.place(),
                  "code is \"" + value + "\"",
                  "give 1 for addressed, 0 for not, or leave it empty"));
          continue;
        }
        if (value.isEmpty()) {
          continue;
        }
        String person = coder < 0 ? "coder" : row.cells().get(coder).strip();
        Item item =
            new Item(
                row.cells().get(id).strip(),
                row.cells().get(part).strip(),
                Integer.parseInt(number));
        if (codes.computeIfAbsent(person, key -> new LinkedHashMap<>()).put(item, value.equals("1"))
            != null) {
          problems.accept(
              InputProblem.fault(
                  row.place(),
                  "this demand was coded by " + person + " before, so the later code counts",
                  "leave one row for each response, demand and coder"));
        }
      }
    } catch (IOException e) {
      throw new InputException(Sources.unreadable(name, e));
    }
    return codes;
  }

  /**
   * Reads the program's verdicts.
   *
   * @param name a file as {@code study} and {@code screen} write it
   * @throws InputException when the file cannot be read
   */
  public Map<Item, Judged> results(String name) throws InputException {
    Map<Item, Judged> results = new HashMap<>();
    Place place = Sources.place(name);
    try (BufferedReader lines = new BufferedReader(sources.reader(name))) {
      long number = 0;
      for (String line = lines.readLine(); line != null; line = lines.readLine()) {
        number++;
        if (line.isBlank()) {
          continue;
        }
        try {
          result(MAPPER.readTree(line), results);
        } catch (JsonProcessingException | IllegalArgumentException e) {
          problems.accept(
              InputProblem.fault(
                  place.atLine(number),
                  "this line is no result",
                  "give results.jsonl as study or screen wrote it"));
        }
      }
    } catch (IOException e) {
      throw new InputException(Sources.unreadable(name, e));
    }
    return results;
  }

  private static void result(JsonNode result, Map<Item, Judged> results) {
    if (!result.path("responseId").isTextual() || !result.path("parts").isArray()) {
      throw new IllegalArgumentException("no result");
    }
    List<Map.Entry<Item, Judged>> found = new ArrayList<>();
    for (JsonNode part : result.path("parts")) {
      int demand = 1;
      for (JsonNode one : part.path("demands")) {
        found.add(
            Map.entry(
                new Item(result.path("responseId").asText(), part.path("label").asText(), demand++),
                new Judged(one.path("kind").asText(), one.path("verdict").asText())));
      }
    }
    found.forEach(entry -> results.put(entry.getKey(), entry.getValue()));
  }
}
