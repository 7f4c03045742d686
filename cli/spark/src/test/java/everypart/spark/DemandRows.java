package everypart.spark;

import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.coverage.CoverageAnalyzer;
import everypart.analyzer.coverage.DemandCoverage;
import everypart.analyzer.coverage.PartCoverage;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.prompt.PromptYaml;
import everypart.lexicon.Lexicon;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import java.util.stream.StreamSupport;
import org.apache.spark.api.java.function.MapPartitionsFunction;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Encoders;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.RowFactory;
import org.apache.spark.sql.types.StructType;

/** Responses to demand rows, a partition at a time. */
public final class DemandRows implements MapPartitionsFunction<Row, Row> {
  private static final long serialVersionUID = 1L;

  /** The columns of demands.csv, and what kept a response from being judged. */
  public static final StructType SCHEMA =
      StructType.fromDDL(
          "response_id STRING, prompt_id STRING, part STRING, demand INT, kind STRING,"
              + " verb STRING, about STRING, count INT, found INT, verdict STRING,"
              + " confidence DOUBLE, look INT, quote STRING, why STRING, problem STRING");

  private final HashMap<String, String> promptFiles;

  /**
   * Takes the prompts as text, since that is what travels to the executors.
   *
   * @param promptFiles the content of each prompt file by its name: a few kilobytes each
   */
  public DemandRows(Map<String, String> promptFiles) {
    this.promptFiles = new HashMap<>(promptFiles);
  }

  /** Returns the demand rows of responses with the columns response_id, prompt_id and text. */
  public static Dataset<Row> of(Dataset<Row> responses, Map<String, String> promptFiles) {
    return responses
        .select("response_id", "prompt_id", "text")
        .mapPartitions(new DemandRows(promptFiles), Encoders.row(SCHEMA));
  }

  /** The analyzer of one executor: made when first needed, then shared by all its threads. */
  private static final class Shared {
    static final CoverageAnalyzer ANALYZER = new CoverageAnalyzer(Lexicon.bundled());
  }

  @Override
  public Iterator<Row> call(Iterator<Row> responses) {
    Map<String, Prompt> prompts = prompts();
    Iterable<Row> once = () -> responses;
    return StreamSupport.stream(once.spliterator(), false)
        .flatMap(
            response -> {
              try {
                return rows(judged(response, prompts)).stream();
              } catch (RuntimeException | StackOverflowError e) {
                return Stream.of(unjudged(response, e));
              }
            })
        .iterator();
  }

  /** Judges a row with the columns response_id, prompt_id and text. */
  static Coverage judged(Row response, Map<String, Prompt> prompts) {
    if (response.isNullAt(0) || response.getString(0).isBlank()) {
      throw new IllegalArgumentException("response_id is empty");
    }
    Prompt prompt = prompts.get(response.getString(1));
    if (prompt == null) {
      throw new IllegalArgumentException("no prompt " + response.getString(1));
    }
    // An empty cell of a CSV file is null in Spark.
    String text = response.isNullAt(2) ? "" : response.getString(2);
    return Shared.ANALYZER.analyze(prompt, response.getString(0), text);
  }

  /** A row that cannot be judged says why in the last column, and the job goes on. */
  private static Row unjudged(Row response, Throwable why) {
    Object[] cells = new Object[SCHEMA.size()];
    cells[0] = response.get(0);
    cells[1] = response.get(1);
    cells[SCHEMA.size() - 1] = why.getMessage() == null ? why.toString() : why.getMessage();
    return RowFactory.create(cells);
  }

  private Map<String, Prompt> prompts() {
    return prompts(promptFiles);
  }

  /** Reads prompts by their ids. */
  static Map<String, Prompt> prompts(Map<String, String> promptFiles) {
    Map<String, Prompt> prompts = new HashMap<>();
    promptFiles.forEach(
        (name, text) -> {
          String id = name.substring(0, name.lastIndexOf('.'));
          Prompt prompt =
              name.endsWith(".yaml") || name.endsWith(".yml")
                  ? new PromptYaml(Shared.ANALYZER.prompts()).read(id, text)
                  : Shared.ANALYZER.prompts().read(id, text);
          prompts.put(prompt.id(), prompt);
        });
    return prompts;
  }

  private static List<Row> rows(Coverage coverage) {
    List<Row> rows = new ArrayList<>();
    for (PartCoverage part : coverage.parts()) {
      int number = 1;
      for (DemandCoverage demand : part.demands()) {
        String quote =
            demand.evidence().stream()
                .map(span -> span.of(coverage.text()).strip().replaceAll("\\s+", " "))
                .collect(Collectors.joining(" | "));
        rows.add(
            RowFactory.create(
                coverage.responseId(),
                coverage.prompt().id(),
                part.part().label(),
                number++,
                demand.demand().kind().word(),
                demand.demand().verb(),
                demand.demand().about(),
                demand.demand().count(),
                demand.found(),
                demand.verdict().word(),
                Math.round(demand.confidence() * 1000) / 1000.0,
                demand.look() ? 1 : 0,
                quote,
                String.join("; ", demand.why()),
                null));
      }
    }
    return rows;
  }
}
