package everypart.analyzer.detect;

import everypart.lexicon.DemandKind;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Looks for features, steps, actions or observations. */
final class DescribeDetector implements Detector {
  @Override
  public DemandKind kind() {
    return DemandKind.DESCRIBE;
  }

  @Override
  public String summary() {
    return "gives features, steps, actions or observations of the thing asked about";
  }

  @Override
  public Finding judge(Case given) {
    double sum = 0;
    @Nullable Clause at = null;
    double best = 0;
    for (Clause clause : given.own()) {
      if (given.moves().isPadding(clause)
          || (given.part().wantsAction && !given.moves().isAction(given.part(), clause))) {
        continue;
      }
      double novelty =
          given
              .moves()
              .novelty(clause, given.part().ask, given.part().setup, given.part().directions);
      sum += novelty;
      if (novelty > best) {
        best = novelty;
        at = clause;
      }
    }
    if (at == null || sum < 1) {
      return new Finding(
          0, List.of(), List.of("nothing beyond the question's own words was found"), 0.1);
    }
    return new Finding(
        given.demand().count(), List.of(at.span()), List.of("a feature is given"), 0.9);
  }
}
