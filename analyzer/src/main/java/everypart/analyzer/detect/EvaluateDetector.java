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
    Moves moves = given.moves();
    List<Clause> making =
        given.own().stream().filter(clause -> moves.judges(given.part(), clause)).toList();
    if (!making.isEmpty()) {
      boolean opening = moves.saysYesOrNo(making.get(0));
      return given.found(making, opening ? 0.95 : 0.85, "a judgement is stated");
    }
    boolean unsure = given.own().stream().anyMatch(moves::isUnsure);
    return given.missing(
        0.12,
        unsure
            ? "the judgement is left open"
            : "reasons may be weighed; no judgement is committed to");
  }
}
