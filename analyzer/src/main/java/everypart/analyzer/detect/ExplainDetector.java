package everypart.analyzer.detect;

import everypart.analyzer.detect.Clause.Role;
import everypart.lexicon.DemandKind;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Looks for a cause, mechanism or reason that the question did not hand over. */
final class ExplainDetector implements Detector {
  @Override
  public DemandKind kind() {
    return DemandKind.EXPLAIN;
  }

  @Override
  public String summary() {
    return "says how or why, beyond what the question said";
  }

  @Override
  public Finding judge(Case given) {
    double sum = 0;
    @Nullable Clause at = null;
    double best = 0;
    for (Clause clause : given.own()) {
      if (given.moves().isPadding(clause) || clause.cut()) {
        continue;
      }
      double novelty =
          given
              .moves()
              .novelty(clause, given.part().ask, given.part().setup, given.part().directions);
      if (clause.role() == Role.GROUND) {
        novelty *= 1.5;
      }
      sum += novelty;
      if (novelty > best) {
        best = novelty;
        at = clause;
      }
    }
    if (at == null || sum < 1) {
      return new Finding(
          0, List.of(), List.of("no reason beyond the question's own words was found"), 0.1);
    }
    return new Finding(
        given.demand().count(), List.of(at.span()), List.of("a reason is given"), 0.9);
  }
}
