package everypart.analyzer.detect;

import everypart.analyzer.detect.PartReading.Choice;
import everypart.analyzer.detect.WordClasses.Stem;
import everypart.lexicon.DemandKind;
import java.util.EnumSet;
import java.util.List;

/** Looks for a name, a value or a choice. */
final class IdentifyDetector implements Detector {
  @Override
  public DemandKind kind() {
    return DemandKind.IDENTIFY;
  }

  @Override
  public String summary() {
    return "names the thing asked for, or commits to a choice";
  }

  @Override
  public Finding judge(Case given) {
    PartReading part = given.part();
    List<Clause> making =
        given.own().stream()
            .filter(clause -> !clause.cut() || clause.size() > 3)
            .filter(clause -> given.moves().commits(part, clause))
            .toList();
    if (!making.isEmpty()) {
      boolean short1 = making.get(0).size() <= 3;
      return given.found(making, short1 ? 0.97 : 0.85, "a choice, name or value is stated");
    }
    // A lone "because it is older" states the claim as if it were a reason.
    if (part.choice == Choice.DEGREE && given.own().size() == 1) {
      Clause only = given.own().get(0);
      boolean nothingElse =
          given.moves().novelty(only, part.ask, part.setup, EnumSet.allOf(Stem.class)) == 0;
      if (nothingElse) {
        return given.found(List.of(only), 0.6, "a choice is stated as if it were a reason");
      }
    }
    boolean reasoned = given.own().stream().anyMatch(Clause::isMarked);
    return reasoned
        ? given.missing(
            0.1, "a reason is given; the choice or name itself is left to be worked out")
        : given.missing(0.15, "no choice, name or value is stated");
  }
}
