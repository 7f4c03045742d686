package everypart.analyzer.study;

import java.io.Serializable;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Which columns of the responses a study counts by.
 *
 * @param by columns whose values are compared, such as a cohort or a school
 * @param clusters the columns that name what answers come from together, the widest first, such as
 *     the class and the student in it. Without any the writer of the drafts is one, and without
 *     drafts each response. Figures heed the first: whatever makes answers alike within it is then
 *     allowed for
 * @param drafts how drafts are told apart; nothing where there are none
 */
public record StudyDesign(List<String> by, List<String> clusters, Optional<Drafts> drafts)
    implements Serializable {
  /** A study without columns. */
  public static final StudyDesign PLAIN = new StudyDesign(List.of(), List.of(), Optional.empty());

  /** So many levels of clusters can be named. */
  public static final int MOST_LEVELS = 2;

  /**
   * Drafts of an answer.
   *
   * @param column the column that tells drafts apart
   * @param order its values from first to last; empty where they are numbers or dates
   * @param writer the column that names the writer, which need not be a cluster
   */
  public record Drafts(String column, List<String> order, String writer) implements Serializable {
    /**
     * Copies the list.
     *
     * @throws IllegalArgumentException when a value stands in the order twice, or it has but one
     */
    public Drafts {
      order = List.copyOf(order);
      if (order.size() == 1 || new HashSet<>(order).size() < order.size()) {
        throw new IllegalArgumentException(
            "an order of drafts has two values or more, each once, not " + order);
      }
    }
  }

  /**
   * Copies the lists.
   *
   * @throws IllegalArgumentException when there are too many levels of clusters, or one twice
   */
  public StudyDesign {
    by = List.copyOf(by);
    clusters =
        clusters.isEmpty() && drafts.isPresent()
            ? List.of(drafts.get().writer())
            : List.copyOf(clusters);
    if (clusters.size() > MOST_LEVELS || new HashSet<>(clusters).size() < clusters.size()) {
      throw new IllegalArgumentException(
          "clusters have one or two levels, each another column, not " + clusters);
    }
  }

  /** A design as it is serialised, since an Optional cannot be. */
  private record Written(List<String> by, List<String> clusters, @Nullable Drafts drafts)
      implements Serializable {
    private Object readResolve() {
      return new StudyDesign(by, clusters, Optional.ofNullable(drafts));
    }
  }

  private Object writeReplace() {
    return new Written(by, clusters, drafts.orElse(null));
  }
}
