package everypart.analyzer.study;

import everypart.analyzer.study.statistics.ClusteredRate;
import java.io.Serializable;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
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
final class ClusterCounts implements Serializable {
  private static final long serialVersionUID = 1L;

  static final int LIMIT = 2000;
  static final int POOLS = 1000;

  /**
   * A cluster's name, and the pool it would be in.
   *
   * @param name the name
   * @param pool the pool, from 0
   */
  record Cluster(String name, int pool) implements Serializable {
    static Cluster of(String name) {
      CRC32C hash = new CRC32C();
      hash.update(name.getBytes(StandardCharsets.UTF_8));
      return new Cluster(name, (int) (hash.getValue() % POOLS));
    }
  }

  private @Nullable Map<Cluster, long[]> single = new HashMap<>();
  private @Nullable List<long[]> pools;

  void add(Cluster cluster, long missing, long checked) {
    if (single != null) {
      add(single.computeIfAbsent(cluster, name -> new long[2]), missing, checked);
      if (single.size() > LIMIT) {
        pool(single);
      }
    } else {
      addToPool(cluster, missing, checked);
    }
  }

  private void pool(Map<Cluster, long[]> clusters) {
    single = null;
    clusters.forEach((cluster, counts) -> addToPool(cluster, counts[0], counts[1]));
  }

  private void addToPool(Cluster cluster, long missing, long checked) {
    if (pools == null) {
      pools = Stream.generate(() -> new long[2]).limit(POOLS).toList();
    }
    add(pools.get(cluster.pool()), missing, checked);
  }

  /** Adds what another counted. */
  void merge(ClusterCounts other) {
    if (other.single != null) {
      other.single.forEach((cluster, counts) -> add(cluster, counts[0], counts[1]));
      return;
    }
    if (single != null) {
      pool(single);
    }
    if (other.pools != null) {
      for (int pool = 0; pool < other.pools.size(); pool++) {
        long[] counts = other.pools.get(pool);
        addToPool(new Cluster("", pool), counts[0], counts[1]);
      }
    }
  }

  private static void add(long[] counts, long missing, long checked) {
    counts[0] += missing;
    counts[1] += checked;
  }

  boolean pooled() {
    return pools != null;
  }

  ClusteredRate rate() {
    ClusteredRate rate = new ClusteredRate();
    side(List.of(this)).forEach(counts -> rate.add(counts[0][0], counts[0][1]));
    return rate;
  }

  /**
   * Returns several counts side by side, cluster by cluster: one row a cluster, in it missing and
   * checked of each. When one of them is pooled, all are, into the same pools.
   */
  static List<long[][]> side(List<ClusterCounts> all) {
    boolean pooled = all.stream().anyMatch(ClusterCounts::pooled);
    TreeMap<String, long[][]> rows = new TreeMap<>();
    for (int at = 0; at < all.size(); at++) {
      int column = at;
      all.get(at)
          .forEach(
              pooled,
              (name, counts) ->
                  add(
                      rows.computeIfAbsent(name, key -> new long[all.size()][2])[column],
                      counts[0],
                      counts[1]));
    }
    return List.copyOf(rows.values());
  }

  private interface Sink {
    void accept(String name, long[] counts);
  }

  private void forEach(boolean asPools, Sink sink) {
    if (single != null) {
      single.forEach(
          (cluster, counts) ->
              sink.accept(asPools ? String.valueOf(cluster.pool()) : cluster.name(), counts));
    } else if (pools != null) {
      for (int pool = 0; pool < pools.size(); pool++) {
        long[] counts = pools.get(pool);
        if (counts[1] > 0) {
          sink.accept(String.valueOf(pool), counts);
        }
      }
    }
  }
}
