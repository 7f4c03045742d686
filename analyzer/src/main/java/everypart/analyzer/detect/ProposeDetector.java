package everypart.analyzer.detect;

import everypart.lexicon.DemandKind;
import java.util.ArrayList;
import java.util.List;

/** Looks for a concrete way, test, design or possible cause. */
final class ProposeDetector implements Detector {
  @Override
  public DemandKind kind() {
    return DemandKind.PROPOSE;
  }

  @Override
  public String summary() {
    return "offers a concrete way, test, design or possible cause";
  }

  @Override
  public Finding judge(Case given) {
    List<Clause> making = new ArrayList<>();
    double sum = 0;
    for (Clause clause : given.own()) {
      double novelty = given.moves().isPadding(clause) ? 0 : given.novelty(clause);
      if (given.moves().tellsWay(given.part(), clause)) {
        novelty = Math.max(1, novelty);
      }
      sum += novelty;
      if (novelty > 0) {
        making.add(clause);
      }
    }
    List<String> why = new ArrayList<>();
    boolean found = !making.isEmpty() && sum >= 1;
    why.add(found ? "something concrete is proposed" : "nothing concrete is proposed");
    if (Design.isAskedFor(given.part())) {
      why.addAll(Design.report(given.own(), given.moves()));
    }
    String[] reasons = why.toArray(String[]::new);
    return found
        ? given.found(making, Grounds.strength(sum), reasons)
        : given.missing(Grounds.strength(sum), reasons);
  }
}
