package everypart.analyzer.detect;

import everypart.analyzer.detect.WordClasses.Stem;
import everypart.analyzer.text.Token;
import everypart.lexicon.DemandKind;
import java.util.ArrayList;
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
    List<Clause> making = new ArrayList<>();
    boolean unit = false;
    boolean working = false;
    for (Clause clause : given.own()) {
      for (NumberWords.Found number : NumberWords.find(clause.tokens())) {
        boolean fresh =
            number.afterEquals()
                || given.part().wantsProof
                || !given.part().numbers.contains(number.value());
        boolean inPassing =
            number.from() > 0 && clause.tokens().get(number.from() - 1).form().equals("with");
        working |= number.operand();
        if (fresh && !number.operand() && !inPassing) {
          making.add(clause);
          unit |= hasUnit(given, clause, number);
        }
      }
    }
    if (making.isEmpty()) {
      return given.missing(
          0.05,
          working
              ? "a set-up is given; no result was found"
              : "no value beyond those given was found");
    }
    return given.found(
        making,
        0.95,
        "a value is given",
        unit ? "with a unit" : "no unit was found with it",
        working ? "working is shown" : "no working was found");
  }

  private static boolean hasUnit(Case given, Clause clause, NumberWords.Found number) {
    if (number.to() >= clause.size()) {
      return false;
    }
    Token next = clause.tokens().get(number.to());
    return next.form().equals("%")
        || given.moves().words().is(next, Stem.UNIT)
        || (next.isWord() && next.form().length() <= 2);
  }
}
