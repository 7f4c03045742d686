package everypart.analyzer.detect;

import everypart.lexicon.DemandKind;
import java.util.List;

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
    List<Grounds.Scored> grounds = Grounds.scored(given, Grounds.claims(given), false);
    List<Clause> making = Grounds.enough(grounds, 0.95);
    double strength = Grounds.strength(grounds);
    if (making.isEmpty()) {
      return given.missing(
          strength, "no reason or cause beyond the question's own words was found");
    }
    return given.found(making, strength, "a reason, cause or mechanism is given");
  }
}
