package everypart.analyzer.detect;

import everypart.lexicon.DemandKind;
import java.util.List;

/** Looks for an outcome. */
final class PredictDetector implements Detector {
  @Override
  public DemandKind kind() {
    return DemandKind.PREDICT;
  }

  @Override
  public String summary() {
    return "says what will or would happen, with a direction or an outcome";
  }

  @Override
  public Finding judge(Case given) {
    for (Clause clause : given.own()) {
      if (given.moves().predicts(given.part(), clause)) {
        return new Finding(
            given.demand().count(), List.of(clause.span()), List.of("an outcome is stated"), 0.9);
      }
    }
    return new Finding(0, List.of(), List.of("no outcome is stated"), 0.1);
  }
}
