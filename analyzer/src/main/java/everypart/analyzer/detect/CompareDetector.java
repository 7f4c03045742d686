package everypart.analyzer.detect;

import everypart.analyzer.detect.WordClasses.Stem;
import everypart.lexicon.DemandKind;
import java.util.List;

/** Looks for a relation between the two sides. */
final class CompareDetector implements Detector {
  @Override
  public DemandKind kind() {
    return DemandKind.COMPARE;
  }

  @Override
  public String summary() {
    return "relates both sides; a comparative may leave one side implied";
  }

  @Override
  public Finding judge(Case given) {
    for (Clause clause : given.own()) {
      if (!given.moves().directions(clause).isEmpty() || given.moves().has(clause, Stem.COMPARE)) {
        return new Finding(
            given.demand().count(), List.of(clause.span()), List.of("the sides are compared"), 0.9);
      }
    }
    return new Finding(0, List.of(), List.of("the sides are not related to each other"), 0.1);
  }
}
