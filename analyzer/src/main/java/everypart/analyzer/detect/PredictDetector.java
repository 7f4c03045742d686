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
    Moves moves = given.moves();
    List<Clause> making =
        given.own().stream().filter(clause -> moves.predicts(given.part(), clause)).toList();
    if (!making.isEmpty()) {
      boolean future = moves.has(making.get(0), WordClasses.Form.FUTURE);
      return given.found(making, future ? 0.92 : 0.8, "an outcome is stated");
    }
    boolean open = given.own().stream().anyMatch(moves::isOpen);
    boolean vague =
        given.own().stream().anyMatch(clause -> moves.has(clause, WordClasses.Stem.CHANGE));
    return given.missing(
        0.15,
        open
            ? "the outcome is left open"
            : vague
                ? "a change is spoken of; its direction or outcome is not"
                : "no outcome is stated");
  }
}
