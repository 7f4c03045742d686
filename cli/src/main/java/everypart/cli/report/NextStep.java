package everypart.cli.report;

import everypart.analyzer.coverage.DemandCoverage;
import everypart.analyzer.coverage.Verdict;
import everypart.lexicon.DemandKind;

/**
 * What kind of sentence would close an open demand, in words for its writer. It never says what the
 * answer is.
 */
final class NextStep {
  private NextStep() {}

  /** Returns the next step for a demand of a kind of which nothing was found. */
  static String of(DemandKind kind) {
    return Wording.of("next." + kind.word());
  }

  /** Returns the next step, or an empty text where the demand is addressed. */
  static String of(DemandCoverage demand) {
    if (demand.verdict() == Verdict.ADDRESSED) {
      return "";
    }
    int open = demand.demand().count() - demand.found();
    String step = of(demand.demand().kind());
    return demand.verdict() == Verdict.PARTLY && open > 0 && demand.demand().count() > 1
        ? Wording.of("next.more." + (open == 1 ? "one" : "other"), "n", open, "step", step)
        : step;
  }
}
