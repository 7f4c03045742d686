package everypart.analyzer.study;

import everypart.analyzer.study.statistics.ClusteredProportion;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import java.util.zip.CRC32C;
import org.jspecify.annotations.Nullable;

/**
 * Missing and checked demands by cluster, in bounded memory.
 *
 * <p>Up to {@link #LIMIT} clusters are counted one by one. Beyond it they are pooled by a hash of
 * their name into {@link #POOLS} pools: pools of independent clusters are independent, so the
 * variance over pools estimates the same thing with fewer degrees of freedom (the random group
 * method, Wolter KM (2007) Introduction to Variance Estimation, 2nd ed., chapter 2). Which of the
 * two happens, and with what result, does not depend on the order of the responses.
 */
final class ClusterCounts {
  static final int LIMIT = 2000;
  static final int POOLS = 1000;

  private @Nullable Map<String, long[]> single = new HashMap<>();
  private @Nullable List<long[]> pools;

  void add(String cluster, long missing, long checked) {
    if (single != null) {
      add(single.computeIfAbsent(cluster, name -> new long[2]), missing, checked);
      if (single.size() > LIMIT) {
        pool(single);
      }
    } else {
      addToPool(cluster, missing, checked);
    }
  }

  private void pool(Map<String, long[]> clusters) {
    single = null;
    clusters.forEach((name, counts) -> addToPool(name, counts[0], counts[1]));
  }

  private void addToPool(String cluster, long missing, long checked) {
    if (pools == null) {
      pools = Stream.generate(() -> new long[2]).limit(POOLS).toList();
    }
    CRC32C hash = new CRC32C();
    hash.update(cluster.getBytes(StandardCharsets.UTF_8));
    add(pools.get((int) (hash.getValue() % POOLS)), missing, checked);
  }

  private static void add(long[] counts, long missing, long checked) {
    counts[0] += missing;
    counts[1] += checked;
  }

  boolean pooled() {
    return pools != null;
  }

  ClusteredProportion proportion() {
    ClusteredProportion proportion = new ClusteredProportion();
    if (single != null) {
      single.values().forEach(counts -> proportion.add(counts[0], counts[1]));
    } else if (pools != null) {
      for (long[] counts : pools) {
        proportion.add(counts[0], counts[1]);
      }
    }
    return proportion;
  }
}
