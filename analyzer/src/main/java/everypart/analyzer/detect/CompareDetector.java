package everypart.analyzer.detect;

import everypart.analyzer.detect.WordClasses.Form;
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
    List<Clause> making = given.own().stream().filter(clause -> relates(given, clause)).toList();
    if (making.isEmpty()) {
      return given.missing(0.1, "the two sides are not related to each other");
    }
    boolean worded = given.moves().has(making.get(0), Form.COMPARE);
    return given.found(making, worded ? 0.95 : 0.85, "the sides are related to each other");
  }

  private static boolean relates(Case given, Clause clause) {
    boolean contrasts =
        clause.sentence().tokens().stream()
            .anyMatch(token -> given.moves().words().is(token, Form.CONTRAST));
    return contrasts
        || !given.moves().directions(clause).isEmpty()
        || given.moves().has(clause, Form.COMPARE);
  }
}
