package everypart.cli.intake;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import everypart.analyzer.coverage.Verdict;
import everypart.analyzer.study.agreement.CodedDemand;
import everypart.lexicon.DemandKind;
import java.io.BufferedReader;
import java.io.IOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Predicate;
import java.util.regex.Pattern;

/**
 * Reads people's codes, and the program's verdicts in {@code results.jsonl}, to set them side by
 * side.
 */
public final class Codes {
  private static final JsonMapper MAPPER = new JsonMapper();
  private static final Pattern GUARDED = Pattern.compile("'[=+@\uff1d\uff0b\uff0d\uff20-]");

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
   * @param verdict the verdict
   * @param confidence the program's confidence in it
   * @param look whether it asks for a person's eye
   * @param quotes the words it relies on
   * @param why the reasons in plain words
   */
  public record Judged(
      DemandKind kind,
      Verdict verdict,
      double confidence,
      boolean look,
      List<String> quotes,
      List<String> why) {
    /** Copies the lists. */
    public Judged {
      quotes = List.copyOf(quotes);
      why = List.copyOf(why);
    }
  }

  /**
   * What people coded.
   *
   * @param coders for each coder the items coded, true where the demand is addressed; an empty code
   *     says that the coder left the item open, and is not in it
   * @param weights how many demands of the whole set an item stands for, where a column weight says
   *     so
   */
  public record Coded(Map<String, Map<Item, Boolean>> coders, Map<Item, Double> weights) {
    /** Returns whether anyone coded an item. */
    public boolean has(Item item) {
      return coders.values().stream().anyMatch(items -> items.containsKey(item));
    }

    /** Returns an item with its verdict and everyone's codes. */
    public CodedDemand with(Item item, Judged judged) {
      Map<String, Boolean> codes = new LinkedHashMap<>();
      coders.forEach(
          (coder, items) -> {
            Boolean code = items.get(item);
            if (code != null) {
              codes.put(coder, code);
            }
          });
      return new CodedDemand(
          item.responseId(),
          item.part(),
          item.demand(),
          judged.kind(),
          judged.verdict(),
          judged.confidence(),
          codes,
          weights.getOrDefault(item, 1.0));
    }
  }

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
   * Reads codes.
   *
   * @param name corrections saved from the report of screen (.json), of which the responses that
   *     were read whole count, or a table (.csv, .tsv, .xlsx; the first sheet of a workbook) with
   *     the columns response_id, part, demand and code; a column coder may tell several coders
   *     apart, and a column weight may say how many demands a row stands for
   * @throws InputException when the file cannot be read or lacks a column
   */
  public Coded codes(String name) throws InputException {
    if (name.toLowerCase(Locale.ROOT).endsWith(".json")) {
      Map<Item, Boolean> own = Corrections.read(sources, name).codes();
      if (own.isEmpty()) {
        throw new InputException(
            InputProblem.fault(
                Sources.place(name),
                "no response in it was marked as read, so nothing can be counted",
                "mark the responses you have read whole in the report, then save again"));
      }
      return new Coded(Map.of("teacher", own), Map.of());
    }
    Map<String, Map<Item, Boolean>> codes = new LinkedHashMap<>();
    Map<Item, Double> weights = new HashMap<>();
    try (CodeRows rows = CodeRows.open(sources, name, problems)) {
      int id = rows.column("response_id");
      int part = rows.column("part");
      int demand = rows.column("demand");
      int code = rows.column("code");
      Optional<Integer> coder = rows.optionalColumn("coder");
      Optional<Integer> weight = rows.optionalColumn("weight");
      for (CsvRows.Row row = rows.next(); row != null; row = rows.next()) {
        if (row.problem().isPresent()) {
          problems.accept(row.problem().get());
          continue;
        }
        List<String> cells = row.cells();
        String value = cells.get(code).strip();
        String number = cells.get(demand).strip();
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
        String person =
            coder
                .map(cells::get)
                .map(String::strip)
                .filter(named -> !named.isEmpty())
                .orElse("coder");
        Item item =
            new Item(plain(cells.get(id)), plain(cells.get(part)), Integer.parseInt(number));
        // A spreadsheet may save the weight with a decimal comma.
        String share = weight.map(cells::get).orElse("1").strip().replace(',', '.');
        if (!share.matches("[0-9]{1,12}([.][0-9]{1,12})?") || Double.parseDouble(share) == 0) {
          problems.accept(
              InputProblem.fault(
                  row.place(),
                  "weight is \"" + share + "\"",
                  "give a number above 0, or leave the column out"));
          continue;
        }
        weights.put(item, Double.parseDouble(share));
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
    return new Coded(codes, weights);
  }

  /** Takes away the apostrophe that a sheet has before what a spreadsheet would calculate. */
  private static String plain(String cell) {
    String stripped = cell.strip();
    return GUARDED.matcher(stripped).lookingAt() ? stripped.substring(1) : stripped;
  }

  /** Takes the verdicts of one response. */
  public interface ResultSink {
    /**
     * Takes them.
     *
     * @param promptId names the prompt
     * @param verdicts by demand, in reading order
     */
    void accept(String promptId, Map<Item, Judged> verdicts);
  }

  /**
   * Reads the program's verdicts on wanted demands.
   *
   * @param name a file as {@code study} and {@code screen} write it
   * @throws InputException when the file cannot be read
   */
  public Map<Item, Judged> results(String name, Predicate<Item> wanted) throws InputException {
    Map<Item, Judged> results = new LinkedHashMap<>();
    forEachResult(
        name,
        (promptId, verdicts) ->
            verdicts.forEach(
                (item, judged) -> {
                  if (wanted.test(item)) {
                    results.put(item, judged);
                  }
                }));
    return results;
  }

  /**
   * Reads the program's verdicts response by response.
   *
   * @param name a file as {@code study} and {@code screen} write it
   * @throws InputException when the file cannot be read
   */
  public void forEachResult(String name, ResultSink sink) throws InputException {
    Place place = Sources.place(name);
    try (BufferedReader lines = new BufferedReader(sources.reader(name))) {
      long number = 0;
      for (String line = lines.readLine(); line != null; line = lines.readLine()) {
        number++;
        if (line.isBlank()) {
          continue;
        }
        try {
          JsonNode result = MAPPER.readTree(line);
          sink.accept(result.path("promptId").asText(), verdicts(result));
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
  }

  private static Map<Item, Judged> verdicts(JsonNode result) {
    if (!result.path("responseId").isTextual() || !result.path("parts").isArray()) {
      throw new IllegalArgumentException("no result");
    }
    Map<Item, Judged> found = new LinkedHashMap<>();
    for (JsonNode part : result.path("parts")) {
      int demand = 1;
      for (JsonNode one : part.path("demands")) {
        // Where a teacher's verdict stands in its place, the program's own is kept beside it.
        JsonNode own = one.has("program") ? one.path("program") : one;
        List<String> quotes = new ArrayList<>();
        one.path("evidence").forEach(quote -> quotes.add(quote.path("quote").asText()));
        List<String> why = new ArrayList<>();
        one.path("why").forEach(reason -> why.add(reason.asText()));
        found.put(
            new Item(result.path("responseId").asText(), part.path("label").asText(), demand++),
            new Judged(
                DemandKind.of(one.path("kind").asText()),
                Verdict.valueOf(own.path("verdict").asText().toUpperCase(Locale.ROOT)),
                own.path("confidence").asDouble(),
                own.path("look").asBoolean(),
                quotes,
                why));
      }
    }
    return found;
  }
}
