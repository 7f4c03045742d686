package everypart.analyzer.study;

import everypart.analyzer.coverage.Verdict;
import everypart.analyzer.study.statistics.ClusteredProportion;
import java.util.EnumMap;
import org.jspecify.annotations.Nullable;

/** The counts of one value of one dimension. */
final class Cell {
  private final EnumMap<Verdict, Long> verdicts = new EnumMap<>(Verdict.class);
  private final ClusteredProportion byResponse = new ClusteredProportion();
  private final @Nullable ClusterCounts byCluster;
  private long look;
  // What the response now being counted adds; see close().
  private long openMissing;
  private long openChecked;

  Cell(boolean clustered) {
    this.byCluster = clustered ? new ClusterCounts() : null;
  }

  void add(DemandRow row) {
    verdicts.merge(row.verdict(), 1L, Long::sum);
    look += row.look() ? 1 : 0;
    openMissing += row.verdict() == Verdict.MISSING ? 1 : 0;
    openChecked += row.verdict() == Verdict.UNCHECKED ? 0 : 1;
  }

  /** Ends a response; does nothing when it added nothing since the last end. */
  void close(String cluster) {
    if (openChecked > 0) {
      if (byCluster != null) {
        byCluster.add(cluster, openMissing, openChecked);
      } else {
        byResponse.add(openMissing, openChecked);
      }
      openMissing = 0;
      openChecked = 0;
    }
  }

  long count(Verdict verdict) {
    return verdicts.getOrDefault(verdict, 0L);
  }

  EnumMap<Verdict, Long> verdicts() {
    EnumMap<Verdict, Long> counts = new EnumMap<>(Verdict.class);
    for (Verdict verdict : Verdict.values()) {
      counts.put(verdict, count(verdict));
    }
    return counts;
  }

  long look() {
    return look;
  }

  long missing() {
    return count(Verdict.MISSING);
  }

  long checked() {
    return count(Verdict.ADDRESSED) + count(Verdict.PARTLY) + count(Verdict.MISSING);
  }

  ClusteredProportion clustered() {
    return byCluster == null ? byResponse : byCluster.proportion();
  }

  boolean pooled() {
    return byCluster != null && byCluster.pooled();
  }
}
