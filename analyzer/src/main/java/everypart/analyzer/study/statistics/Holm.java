package everypart.analyzer.study.statistics;

import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;

/**
 * Holm's step-down correction, which keeps the chance of any false alarm in a family of tests below
 * the level whatever their dependence.
 *
 * <p>Holm S (1979) A simple sequentially rejective multiple test procedure. Scandinavian Journal of
 * Statistics 6:65-70; as adjusted probabilities, Wright SP (1992) Adjusted p-values for
 * simultaneous inference. Biometrics 48:1005-1013. Our own: Commons Statistics has none.
 */
public final class Holm {
  private Holm() {}

  /** Returns the adjusted probabilities of a family of tests, in the order given. */
  public static List<Double> adjust(List<Double> family) {
    List<Integer> ascending =
        IntStream.range(0, family.size())
            .boxed()
            .sorted(Comparator.comparing(family::get))
            .toList();
    Double[] adjusted = new Double[family.size()];
    double running = 0;
    for (int rank = 0; rank < ascending.size(); rank++) {
      int at = ascending.get(rank);
      running = Math.max(running, Math.min(1, family.get(at) * (family.size() - rank)));
      adjusted[at] = running;
    }
    return List.of(adjusted);
  }
}
