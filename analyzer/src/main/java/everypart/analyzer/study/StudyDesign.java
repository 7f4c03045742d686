package everypart.analyzer.study;

import java.util.List;
import java.util.Optional;

/**
 * Which columns of the responses a study counts by.
 *
 * @param by columns whose values are compared, such as a cohort or a school
 * @param cluster the column that names who or what answers come from together, such as the student;
 *     without it each response is a cluster of its own
 * @param draft the column that tells drafts apart; asks for a cluster, which then names the writer
 */
public record StudyDesign(List<String> by, Optional<String> cluster, Optional<String> draft) {
  /** A study without columns. */
  public static final StudyDesign PLAIN =
      new StudyDesign(List.of(), Optional.empty(), Optional.empty());

  /**
   * Copies the list.
   *
   * @throws IllegalArgumentException when drafts are to be told apart but not their writers
   */
  public StudyDesign {
    by = List.copyOf(by);
    if (draft.isPresent() && cluster.isEmpty()) {
      throw new IllegalArgumentException(
          "drafts can be paired only when a column names the writer");
    }
  }
}
