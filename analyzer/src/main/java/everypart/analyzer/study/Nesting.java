package everypart.analyzer.study;

import everypart.analyzer.coverage.Verdict;
import java.io.Serializable;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Clusters of two levels, such as students in classes: how much answers resemble each other within
 * the inner ones, and whether each of those lies in one outer one.
 */
final class Nesting implements Serializable {
  private static final long serialVersionUID = 1L;

  /** Of so many inner clusters it is known where they lie; beyond it nobody looks. */
  private static final int MOST_KNOWN = 200_000;

  private final Map<String, String> outer = new HashMap<>();
  private final ClusterCounts inner = new ClusterCounts();
  private long crossing;
  private String crossed = "";

  void add(String outerName, String innerName, List<DemandRow> demands) {
    long missing = demands.stream().filter(row -> row.verdict() == Verdict.MISSING).count();
    long checked = demands.stream().filter(row -> row.verdict() != Verdict.UNCHECKED).count();
    if (checked > 0) {
      inner.add(ClusterCounts.Cluster.of(innerName), missing, checked);
    }
    String known =
        outer.size() < MOST_KNOWN ? outer.putIfAbsent(innerName, outerName) : outer.get(innerName);
    if (known != null && !known.equals(outerName)) {
      crossing++;
      crossed(innerName);
    }
  }

  /** Adds what another saw. */
  void merge(Nesting other) {
    inner.merge(other.inner);
    crossing += other.crossing;
    crossed(other.crossed);
    other.outer.forEach(
        (innerName, outerName) -> {
          String known =
              outer.size() < MOST_KNOWN
                  ? outer.putIfAbsent(innerName, outerName)
                  : outer.get(innerName);
          if (known != null && !known.equals(outerName)) {
            crossing++;
            crossed(innerName);
          }
        });
  }

  private void crossed(String name) {
    if (!name.isEmpty() && (crossed.isEmpty() || name.compareTo(crossed) < 0)) {
      crossed = name;
    }
  }

  ClusterCounts inner() {
    return inner;
  }

  /** Returns an inner cluster that lies in two outer ones, if there is one. */
  Optional<String> crossed() {
    return crossing == 0 ? Optional.empty() : Optional.of(crossed);
  }
}
