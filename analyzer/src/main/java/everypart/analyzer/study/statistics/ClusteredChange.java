package everypart.analyzer.study.statistics;

import java.util.Optional;

/**
 * The same items looked at twice, in clusters: the demands of one writer, or of one class.
 *
 * <p>Where no cluster has more than one item, {@link PairedChange}; else the mean of the items'
 * changes (-1, 0 or 1) by {@link ClusterRobust}. Where nothing changed in any cluster, each cluster
 * counts as one item in {@link PairedChange}'s interval.
 *
 * <p>Not safe for use by several threads.
 */
public final class ClusteredChange {
  private final ClusterRobust model = new ClusterRobust();
  private final Evidence evidence = new Evidence();
  private final long[] sums = new long[4];

  /** Makes one without clusters. */
  public ClusteredChange() {}

  /** Adds a cluster; one without items changes nothing. */
  public void add(PairedChange cluster) {
    long changed = cluster.before() + cluster.after();
    model.items(1, 0, cluster.total(), cluster.after() - cluster.before(), changed);
    model.endCluster();
    evidence.add(changed, 2 * changed);
    sums[0] += cluster.both();
    sums[1] += cluster.before();
    sums[2] += cluster.after();
    sums[3] += cluster.neither();
  }

  /** Returns the counts over all clusters. */
  public PairedChange counts() {
    return new PairedChange(sums[0], sums[1], sums[2], sums[3]);
  }

  /** Returns how interval and test are computed. */
  public Method method() {
    return Method.decide(
        model, model.contrast(1, 0), evidence.worth(), Method.FEWEST_FOR_DIFFERENCE);
  }

  /** Returns the change in the rate, after less before; nothing with fewer than two clusters. */
  public Optional<Estimate> change(Level level) {
    Method method = method();
    if (method.name() == Method.Name.ALONE) {
      return counts().change(level);
    }
    if (method.name() == Method.Name.NONE && model.clusters() > 1 && counts().changed() == 0) {
      return new PairedChange(0, 0, 0, model.clusters()).change(level);
    }
    return model
        .contrast(1, 0)
        .map(found -> found.estimate(level))
        .map(found -> new Estimate(found.value(), found.interval().within(-1, 1)));
  }

  /** Tests whether items changed one way as often as the other. Nothing when none changed. */
  public Optional<SignificanceTest> test() {
    return method().name() == Method.Name.ALONE
        ? counts().test()
        : model.contrast(1, 0).map(ClusteredDifference::test);
  }
}
