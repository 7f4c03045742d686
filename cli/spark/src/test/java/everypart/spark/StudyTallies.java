package everypart.spark;

import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.study.JudgedResponse;
import everypart.analyzer.study.StudyDesign;
import everypart.analyzer.study.StudyTally;
import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import org.apache.spark.api.java.function.FlatMapFunction;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.RowFactory;

/** Responses to a tally, a partition at a time; tallies are put together in any order. */
public final class StudyTallies implements FlatMapFunction<Iterator<Row>, StudyTally> {
  private static final long serialVersionUID = 1L;

  private final HashMap<String, String> promptFiles;
  private final StudyDesign design;

  private StudyTallies(Map<String, String> promptFiles, StudyDesign design) {
    this.promptFiles = new HashMap<>(promptFiles);
    this.design = design;
  }

  /** Returns the tally of all responses; rows that cannot be judged are left out of it. */
  public static StudyTally of(
      Dataset<Row> responses, Map<String, String> promptFiles, StudyDesign design) {
    return responses
        .javaRDD()
        .mapPartitions(new StudyTallies(promptFiles, design))
        .treeReduce(StudyTally::merge);
  }

  @Override
  public Iterator<StudyTally> call(Iterator<Row> responses) {
    Map<String, Prompt> prompts = DemandRows.prompts(promptFiles);
    StudyTally tally = new StudyTally(design);
    responses.forEachRemaining(
        row -> {
          Map<String, String> groups = new HashMap<>();
          for (String column : row.schema().fieldNames()) {
            Object cell = row.getAs(column);
            groups.put(column, cell == null ? "" : cell.toString());
          }
          JudgedResponse judged;
          try {
            judged =
                JudgedResponse.of(
                    DemandRows.judged(
                        RowFactory.create(
                            row.getAs("response_id"), row.getAs("prompt_id"), row.getAs("text")),
                        prompts),
                    groups);
          } catch (RuntimeException | StackOverflowError e) {
            return;
          }
          tally.add(judged);
        });
    return List.of(tally).iterator();
  }
}
