package everypart.analyzer.detect;

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
    for (Clause clause : given.own()) {
      if (given.moves().commits(given.part(), clause)) {
        return new Finding(
            given.demand().count(),
            List.of(clause.span()),
            List.of("a choice or name is stated"),
            0.9);
      }
    }
    // A lone "because it is harder" says the claim itself.
    PartReading part = given.part();
    if (part.choice == PartReading.Choice.DEGREE && given.own().size() == 1) {
      Clause only = given.own().get(0);
      if (given.moves().novelty(only, part.ask, part.setup, EnumSet.allOf(WordClasses.Stem.class))
          == 0) {
        return new Finding(
            given.demand().count(),
            List.of(only.span()),
            List.of("a choice is stated as if it were a reason"),
            0.6);
      }
    }
    return new Finding(0, List.of(), List.of("no choice or name is stated"), 0.1);
  }
}
