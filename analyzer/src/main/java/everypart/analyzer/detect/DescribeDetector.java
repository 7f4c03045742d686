package everypart.analyzer.detect;

import everypart.analyzer.detect.Clause.Role;
import everypart.analyzer.detect.WordClasses.Form;
import everypart.lexicon.DemandKind;
import java.util.ArrayList;
import java.util.List;

/** Looks for features, steps, actions or observations. */
final class DescribeDetector implements Detector {
  private static final double LEAST_ACTION = 1;
  private static final int SHORT = 10;
  private static final double LEAST_FEATURES = 1.4;

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
    boolean action = given.part().wantsAction;
    List<Clause> making = new ArrayList<>();
    double sum = 0;
    for (Clause clause : given.own()) {
      if (given.moves().isPadding(clause)
          || (action && !given.moves().isAction(given.part(), clause))
          || (!action && isAside(given, clause))) {
        continue;
      }
      double novelty = given.novelty(clause);
      if (given.moves().tellsFunction(given.part(), clause)
          || ((action || given.part().wantsWay) && given.moves().turns(clause))) {
        novelty = Math.max(LEAST_FEATURES, novelty);
      }
      sum += novelty;
      if (novelty > 0) {
        making.add(clause);
      }
    }
    int size = given.own().stream().mapToInt(Clause::size).sum();
    double weight = sum / (action || size <= SHORT ? LEAST_ACTION : LEAST_FEATURES);
    if (making.isEmpty() || weight < 1) {
      return given.missing(
          Grounds.strength(weight),
          action
              ? "no action or step was found"
              : "nothing beyond the question's own words was found");
    }
    return given.found(
        making,
        Grounds.strength(weight),
        action ? "an action or step is given" : "features are given");
  }

  /** "If you hold a lamp to it": what the reader might do is no feature of the thing. */
  private static boolean isAside(Case given, Clause clause) {
    return clause.role() == Role.CONDITION
        && clause.size() > 1
        && given.moves().words().is(clause.tokens().get(1), Form.AGENT);
  }
}
