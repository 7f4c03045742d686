package everypart.analyzer.detect;

import everypart.lexicon.DemandKind;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Looks for the meaning of a term. */
final class DefineDetector implements Detector {
  @Override
  public DemandKind kind() {
    return DemandKind.DEFINE;
  }

  @Override
  public String summary() {
    return "says what the term means, not only by example";
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
    return sum >= 0.8 && at != null
        ? new Finding(
            given.demand().count(), List.of(at.span()), List.of("a meaning is given"), 0.9)
        : new Finding(0, List.of(), List.of("no meaning is given"), 0.1);
  }
}
