package everypart.analyzer.study.statistics;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * A trend in a proportion over ordered groups, counted in clusters. A cluster may reach over
 * several groups, as a response reaches over the positions of its demands.
 *
 * <p>Where no cluster has more than one item, {@link Trend}; else the slope of a line by {@link
 * ClusterRobust}.
 *
 * <p>Not safe for use by several threads.
 */
public final class ClusteredTrend {
  private final ClusterRobust model = new ClusterRobust();
  private final Evidence evidence = new Evidence();
  private final Map<Double, long[]> steps = new TreeMap<>();
  private long hits;
  private long total;

  /** Makes one without clusters. */
  public ClusteredTrend() {}

  /** Adds items to the cluster that is open. */
  public void add(double score, long stepHits, long stepTotal) {
    if (stepTotal > 0) {
      model.items(1, score, stepTotal, stepHits, stepHits);
      long[] step = steps.computeIfAbsent(score, unused -> new long[2]);
      step[0] += stepHits;
      step[1] += stepTotal;
      hits += stepHits;
      total += stepTotal;
    }
  }

  /** Ends the cluster that is open. */
  public void endCluster() {
    evidence.add(hits, total);
    hits = 0;
    total = 0;
    model.endCluster();
  }

  /** Returns how the test is computed. */
  public Method method() {
    return Method.decide(model, slope(), evidence.worth(), Method.FEWEST_FOR_DIFFERENCE);
  }

  private Optional<ClusterRobust.Contrast> slope() {
    return steps.size() < 2 ? Optional.empty() : model.contrast(0, 1);
  }

  /** Returns the change of the proportion from one step to the next, where clusters tell it. */
  public Optional<Estimate> slope(Level level) {
    return slope().map(found -> found.estimate(level));
  }

  /** Tests for a trend; nothing when there is no spread. */
  public Optional<SignificanceTest> test() {
    if (method().name() != Method.Name.ALONE) {
      return slope().map(ClusteredDifference::test);
    }
    List<Trend.Step> list = new ArrayList<>();
    steps.forEach(
        (score, counts) -> list.add(new Trend.Step(score, new Proportion(counts[0], counts[1]))));
    return Trend.test(list);
  }
}
