package everypart.spark;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import everypart.analyzer.coverage.CoverageAnalyzer;
import everypart.analyzer.coverage.Verdict;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.study.StudySummary;
import everypart.cli.intake.PromptFiles;
import everypart.cli.intake.Sources;
import everypart.cli.intake.document.Limits;
import everypart.lexicon.Lexicon;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.IntStream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.RowFactory;
import org.apache.spark.sql.SparkSession;
import org.apache.spark.sql.functions;
import org.apache.spark.sql.types.StructType;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledForJreRange;
import org.junit.jupiter.api.condition.JRE;
import org.junit.jupiter.api.io.TempDir;

/** The example of {@code docs/spark.md} in local mode. Spark 4.0 runs on Java 17 and 21. */
@Tag("slow")
@EnabledForJreRange(min = JRE.JAVA_17, max = JRE.JAVA_21)
final class DemandRowsIT {
  private static final Path ROOT = Path.of("..", "..");
  private static final Path DEMO = ROOT.resolve("demo-data");

  @TempDir
  @SuppressWarnings("NullAway.Init")
  static Path folder;

  @SuppressWarnings("NullAway.Init")
  private static SparkSession spark;

  /** The rows of study, once it was run. */
  private static List<List<String>> studied = List.of();

  @BeforeAll
  static void start() {
    spark =
        SparkSession.builder()
            .master("local[2]")
            .appName("demand rows")
            .config("spark.ui.enabled", "false")
            .config("spark.driver.host", "127.0.0.1")
            .config("spark.driver.bindAddress", "127.0.0.1")
            .config("spark.local.dir", folder.resolve("local").toString())
            .config("spark.sql.warehouse.dir", folder.resolve("warehouse").toString())
            .getOrCreate();
  }

  @AfterAll
  static void stop() {
    spark.stop();
  }

  private static Map<String, String> prompts() throws IOException {
    Map<String, String> prompts = new HashMap<>();
    try (var files = Files.list(DEMO.resolve("prompts"))) {
      for (Path file : files.toList()) {
        prompts.put(file.getFileName().toString(), Files.readString(file));
      }
    }
    return prompts;
  }

  private static Dataset<Row> responses() {
    return spark
        .read()
        .option("header", "true")
        .option("multiLine", "true")
        .option("quote", "\"")
        .option("escape", "\"")
        .csv(DEMO.resolve("study.csv").toString());
  }

  /** Runs study on the same files and returns its rows of demands.csv, group columns left out. */
  private static List<List<String>> studied() throws IOException, InterruptedException {
    if (studied.isEmpty()) {
      studied = studied(DEMO.resolve("study.csv"), "study");
    }
    return studied;
  }

  private static List<List<String>> studied(Path responses, String name)
      throws IOException, InterruptedException {
    Path out = folder.resolve(name);
    Process process =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-jar",
                Path.of("..", "target", "everypart.jar").toString(),
                "study",
                "--prompts",
                DEMO.resolve("prompts").toString(),
                "--responses",
                responses.toString(),
                "--out",
                out.toString(),
                "--by",
                "class",
                "--cluster",
                "student",
                "--parquet",
                "--quick")
            .inheritIO()
            .start();
    assertEquals(0, process.waitFor());
    List<List<String>> rows = new ArrayList<>();
    try (var parser =
        CSVFormat.RFC4180
            .builder()
            .setHeader()
            .setSkipHeaderRecord(true)
            .get()
            .parse(Files.newBufferedReader(out.resolve("demands.csv")))) {
      for (CSVRecord record : parser) {
        rows.add(
            IntStream.range(0, DemandRows.SCHEMA.size() - 1)
                .mapToObj(at -> unguarded(record.get(at)))
                .toList());
      }
    }
    return rows;
  }

  /** Takes away the apostrophe that demands.csv sets before what a spreadsheet would calculate. */
  private static String unguarded(String cell) {
    return cell.matches("(?s)'[=+@\\t\\r-].*") ? cell.substring(1) : cell;
  }

  private static List<String> cells(Row row) {
    assertTrue(row.isNullAt(row.size() - 1), "a problem: " + row);
    return IntStream.range(0, row.size() - 1)
        .mapToObj(
            at ->
                row.get(at) instanceof Double number
                    ? String.format(Locale.ROOT, "%.3f", number)
                    : String.valueOf(row.get(at)))
        .toList();
  }

  @Test
  void sparkGivesTheRowsOfStudyInAnyNumberOfPartitions() throws IOException, InterruptedException {
    List<List<String>> expected = studied();
    assertTrue(expected.size() > 100, "only " + expected.size() + " rows to compare");
    assertSame(expected, DemandRows.of(responses(), prompts()));
    Dataset<Row> spread = DemandRows.of(responses().repartition(7), prompts());
    assertEquals(7, spread.toJavaRDD().getNumPartitions());
    assertSame(sorted(expected), spread.sort("response_id", "part", "demand"));
  }

  private static void assertSame(List<List<String>> expected, Dataset<Row> rows) {
    List<Row> found = rows.collectAsList();
    assertEquals(expected.size(), found.size());
    for (int row = 0; row < expected.size(); row++) {
      assertEquals(expected.get(row), cells(found.get(row)), "row " + (row + 1));
    }
  }

  private static List<List<String>> sorted(List<List<String>> rows) {
    return rows.stream()
        .sorted(
            Comparator.comparing((List<String> row) -> row.get(0))
                .thenComparing(row -> row.get(2))
                .thenComparing(row -> Integer.valueOf(row.get(3))))
        .toList();
  }

  @Test
  void rowsGoThroughParquetAndAreCountedBySparkAsByStudy()
      throws IOException, InterruptedException {
    String file = folder.resolve("rows.parquet").toString();
    DemandRows.of(responses(), prompts()).write().parquet(file);
    Dataset<Row> missing = spark.read().parquet(file).filter("verdict = 'missing'");
    assertEquals(
        studied().stream().filter(row -> row.get(9).equals("missing")).count(), missing.count());
  }

  @Test
  void aRowThatCannotBeJudgedIsToldAndTheJobGoesOn() throws IOException {
    Dataset<Row> more =
        responses()
            .select("response_id", "prompt_id", "text")
            .union(
                spark.createDataFrame(
                    Arrays.asList(
                        RowFactory.create("bad1", "no-such-prompt", "words"),
                        RowFactory.create(null, "lost-star", "words"),
                        RowFactory.create("bad2", null, null)),
                    StructType.fromDDL("response_id STRING, prompt_id STRING, text STRING")));
    List<Row> told = DemandRows.of(more, prompts()).filter("problem IS NOT NULL").collectAsList();
    assertEquals(
        List.of("no prompt no-such-prompt", "response_id is empty", "no prompt null"),
        told.stream().map(row -> row.getString(row.size() - 1)).toList());
    assertEquals(
        DemandRows.of(responses(), prompts()).count(),
        DemandRows.of(more, prompts()).filter("problem IS NULL").count());
  }

  @Test
  void talliesPutTogetherGiveTheFiguresOfStudy() throws IOException, InterruptedException {
    studied();
    StudySummary summary = SparkUse.summary(responses().repartition(5), prompts());
    JsonNode json = new JsonMapper().readTree(folder.resolve("study/summary.json").toFile());
    assertEquals(json.path("responses").asLong(), summary.responses());
    assertEquals(json.path("rates").size(), summary.rates().size());
    int intervals = 0;
    for (int at = 0; at < summary.rates().size(); at++) {
      StudySummary.Rate rate = summary.rates().get(at);
      JsonNode own = json.path("rates").path(at);
      assertEquals(own.path("missing").asLong(), rate.verdicts().get(Verdict.MISSING));
      if (rate.clustered().isPresent()) {
        assertEquals(own.path("clustered").path(0).asDouble(), rate.clustered().get().low(), 1e-7);
        assertEquals(own.path("clustered").path(1).asDouble(), rate.clustered().get().high(), 1e-7);
        intervals++;
      }
    }
    assertTrue(intervals > 20, "only " + intervals + " intervals were compared");
    for (int at = 0; at < summary.comparisons().size(); at++) {
      assertEquals(
          json.path("comparisons").path(at).path("difference").path("value").asDouble(),
          summary.comparisons().get(at).difference().orElseThrow().value(),
          1e-7);
    }
  }

  /** Spark's own reader of Parquet, of another version and with native codecs. */
  @Test
  void sparkReadsTheParquetOfStudyAndStudyThatOfSpark() throws IOException, InterruptedException {
    List<List<String>> expected = studied();
    Dataset<Row> typed = spark.read().parquet(folder.resolve("study/demands.parquet").toString());
    assertEquals("double", typed.schema().apply("confidence").dataType().typeName());
    assertEquals("integer", typed.schema().apply("found").dataType().typeName());
    assertEquals("boolean", typed.schema().apply("look").dataType().typeName());
    List<Row> rows =
        typed
            .withColumn("look", typed.col("look").cast("int"))
            .select(
                "response_id",
                "prompt_id",
                "part",
                "demand",
                "kind",
                "verb",
                "about",
                "count",
                "found",
                "verdict",
                "confidence",
                "look",
                "quote",
                "why")
            .withColumn("problem", functions.lit(null).cast("string"))
            .collectAsList();
    assertEquals(expected.size(), rows.size());
    for (int row = 0; row < rows.size(); row++) {
      assertEquals(expected.get(row), cells(rows.get(row)), "row " + (row + 1));
    }
    // What a codec could break is broken in a few rows as in all.
    Dataset<Row> some = responses().limit(25);
    List<String> ids =
        some.select("response_id").collectAsList().stream().map(row -> row.getString(0)).toList();
    List<List<String>> ofSome = expected.stream().filter(row -> ids.contains(row.get(0))).toList();
    for (String codec : List.of("snappy", "zstd", "gzip")) {
      Path written = folder.resolve("responses-" + codec);
      some.coalesce(1).write().option("compression", codec).parquet(written.toString());
      Path file;
      try (var files = Files.list(written)) {
        file = files.filter(one -> one.toString().endsWith(".parquet")).findFirst().orElseThrow();
      }
      assertEquals(ofSome, studied(file, "study-" + codec), codec);
    }
  }

  @Test
  void promptsOfAllKindsAreReadAsStudyReadsThem() throws Exception {
    Path kinds = Files.createDirectories(folder.resolve("kinds"));
    Files.writeString(
        kinds.resolve("one.yml"), "id: reeds\nparts:\n  - label: a\n    text: Explain why.\n");
    Files.writeString(
        kinds.resolve("two.html"), "<html><body><p>Describe two ways.</p></body></html>");
    Files.writeString(kinds.resolve("three.rtf"), "{\\rtf1 Predict what will happen.}");
    CoverageAnalyzer analyzer = new CoverageAnalyzer(Lexicon.bundled());
    PromptFiles reader =
        new PromptFiles(
            new Sources(InputStream.nullInputStream(), Limits.USUAL, problem -> {}),
            analyzer.prompts(),
            problem -> {});
    Map<String, String> texts = new HashMap<>();
    for (String name : List.of("one.yml", "two.html", "three.rtf")) {
      texts.put(name, reader.text(kinds.resolve(name).toString()));
    }
    Map<String, List<String>> here = new TreeMap<>();
    DemandRows.prompts(texts).forEach((id, prompt) -> here.put(id, kinds(prompt)));
    Map<String, List<String>> there = new TreeMap<>();
    reader.read(kinds.toString()).all().forEach(prompt -> there.put(prompt.id(), kinds(prompt)));
    assertEquals(there, here);
    assertEquals(List.of("explain"), here.get("reeds"));
    assertEquals(List.of("predict"), here.get("three"));
  }

  private static List<String> kinds(Prompt prompt) {
    return prompt.parts().stream()
        .flatMap(part -> part.demands().stream())
        .map(demand -> demand.kind().word())
        .toList();
  }
}
