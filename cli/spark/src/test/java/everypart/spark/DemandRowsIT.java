package everypart.spark;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.IntStream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SparkSession;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledForJreRange;
import org.junit.jupiter.api.condition.JRE;
import org.junit.jupiter.api.io.TempDir;

/** The example of {@code docs/spark.md} in local mode. Spark 4.0 runs on Java 17 and 21. */
@EnabledForJreRange(min = JRE.JAVA_17, max = JRE.JAVA_21)
final class DemandRowsIT {
  private static final Path ROOT = Path.of("..", "..");
  private static final Path DEMO = ROOT.resolve("demo-data");

  @TempDir
  @SuppressWarnings("NullAway.Init")
  static Path folder;

  @SuppressWarnings("NullAway.Init")
  private static SparkSession spark;

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
    Path out = folder.resolve("study");
    Process process =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-jar",
                Path.of("..", "target", "everypart.jar").toString(),
                "study",
                "--prompts",
                DEMO.resolve("prompts").toString(),
                "--responses",
                DEMO.resolve("study.csv").toString(),
                "--out",
                out.toString(),
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
            IntStream.range(0, DemandRows.SCHEMA.size())
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
    return IntStream.range(0, row.size())
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
  void thePageShowsTheCodeThatIsTestedHere() throws IOException {
    String page = Files.readString(ROOT.resolve("docs/spark.md"));
    String code =
        Files.readString(Path.of("src/test/java/everypart/spark/DemandRows.java"))
            .replaceFirst("(?s)^package everypart.spark;\n\n", "");
    assertTrue(page.contains("```java\n" + code + "```"), "docs/spark.md shows other code");
  }
}
