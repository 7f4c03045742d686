package everypart.analyzer.detect;

import everypart.lexicon.DemandKind;
import java.util.List;

/** Looks for a judgement. */
final class EvaluateDetector implements Detector {
  @Override
  public DemandKind kind() {
    return DemandKind.EVALUATE;
  }

  @Override
  public String summary() {
    return "commits to a judgement";
  }

  @Override
  public Finding judge(Case given) {
    for (Clause clause : given.own()) {
      if (given.moves().judges(given.part(), clause)) {
        return new Finding(
            given.demand().count(), List.of(clause.span()), List.of("a judgement is stated"), 0.9);
      }
    }
    return new Finding(0, List.of(), List.of("no judgement is stated"), 0.1);
  }
}
