package everypart.analyzer.detect;

import everypart.lexicon.DemandKind;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Looks for a concrete way, test, design or possible cause. */
final class ProposeDetector implements Detector {
  @Override
  public DemandKind kind() {
    return DemandKind.PROPOSE;
  }

  @Override
  public String summary() {
    return "offers a concrete way, test, design or possible cause";
  }

  @Override
  public Finding judge(Case given) {
    double sum = 0;
    @Nullable Clause at = null;
    for (Clause clause : given.own()) {
      double novelty =
          given
              .moves()
              .novelty(clause, given.part().ask, given.part().setup, given.part().directions);
      sum += novelty;
      if (at == null && novelty > 0) {
        at = clause;
      }
    }
    return sum >= 1 && at != null
        ? new Finding(given.demand().count(), List.of(at.span()), List.of("a way is proposed"), 0.9)
        : new Finding(0, List.of(), List.of("nothing concrete is proposed"), 0.1);
  }
}
