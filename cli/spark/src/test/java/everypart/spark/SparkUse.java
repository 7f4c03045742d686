package everypart.spark;

import static org.apache.spark.sql.functions.avg;
import static org.apache.spark.sql.functions.col;

import everypart.analyzer.coverage.CoverageAnalyzer;
import everypart.analyzer.study.StudyDesign;
import everypart.analyzer.study.StudySummary;
import everypart.analyzer.study.StudyTally;
import everypart.analyzer.study.statistics.Level;
import everypart.cli.intake.InputException;
import everypart.cli.intake.PromptFiles;
import everypart.cli.intake.Sources;
import everypart.cli.intake.document.Limits;
import everypart.lexicon.Lexicon;
import java.io.InputStream;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SparkSession;

/** The calls that {@code docs/spark.md} shows; {@link SparkPageTest} compares them. */
final class SparkUse {
  private SparkUse() {}

  static Dataset<Row> leftOpen(SparkSession spark, List<Path> files) throws InputException {
    PromptFiles reader =
        new PromptFiles(
            new Sources(InputStream.nullInputStream(), Limits.USUAL, problem -> {}),
            new CoverageAnalyzer(Lexicon.bundled()).prompts(),
            problem -> {});
    Map<String, String> prompts = new HashMap<>();
    for (Path file : files) {
      prompts.put(file.getFileName().toString(), reader.text(file.toString()));
    }
    Dataset<Row> rows = DemandRows.of(spark.read().parquet("responses"), prompts);
    rows.write().parquet("demand-rows");
    return rows.filter("verdict != 'unchecked'")
        .groupBy("kind")
        .agg(avg(col("verdict").equalTo("missing").cast("int")).as("left_open"));
  }

  static StudySummary summary(Dataset<Row> responses, Map<String, String> prompts) {
    StudyTally tally =
        StudyTallies.of(
            responses,
            prompts,
            new StudyDesign(List.of("class"), List.of("student"), Optional.empty()));
    StudySummary summary = StudySummary.of(tally, Level.DEFAULT, Optional.empty());
    return summary;
  }
}
