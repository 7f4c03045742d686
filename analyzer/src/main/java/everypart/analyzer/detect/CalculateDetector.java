package everypart.analyzer.detect;

import everypart.lexicon.DemandKind;
import java.util.List;

/** Looks for a value that the prompt did not give. */
final class CalculateDetector implements Detector {
  @Override
  public DemandKind kind() {
    return DemandKind.CALCULATE;
  }

  @Override
  public String summary() {
    return "gives a value; a formula without a result is none";
  }

  @Override
  public Finding judge(Case given) {
    for (Clause clause : given.own()) {
      for (NumberWords.Found number : NumberWords.find(clause.tokens())) {
        boolean result = number.afterEquals() || !given.part().numbers.contains(number.value());
        if (result && !number.operand()) {
          return new Finding(
              given.demand().count(), List.of(clause.span()), List.of("a value is given"), 0.95);
        }
      }
    }
    return new Finding(0, List.of(), List.of("no value is given"), 0.05);
  }
}
