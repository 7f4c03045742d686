package everypart.analyzer.study;

import everypart.analyzer.coverage.Verdict;
import java.io.Serializable;
import java.util.EnumMap;

/** The counts of one value of one dimension. */
final class Cell implements Serializable {
  private static final long serialVersionUID = 1L;

  private final EnumMap<Verdict, Long> verdicts = new EnumMap<>(Verdict.class);
  private final ClusterCounts byCluster = new ClusterCounts();
  private long look;
  // What the response now being counted adds; see close().
  private long openMissing;
  private long openChecked;

  void add(DemandRow row) {
    verdicts.merge(row.verdict(), 1L, Long::sum);
    look += row.look() ? 1 : 0;
    openMissing += row.verdict() == Verdict.MISSING ? 1 : 0;
    openChecked += row.verdict() == Verdict.UNCHECKED ? 0 : 1;
  }

  /** Adds what another cell counted. */
  void merge(Cell other) {
    other.verdicts.forEach((verdict, count) -> verdicts.merge(verdict, count, Long::sum));
    byCluster.merge(other.byCluster);
    look += other.look;
  }

  /** Ends a response; does nothing when it added nothing since the last end. */
  void close(ClusterCounts.Cluster cluster) {
    if (openChecked > 0) {
      byCluster.add(cluster, openMissing, openChecked);
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

  ClusterCounts byCluster() {
    return byCluster;
  }
}
