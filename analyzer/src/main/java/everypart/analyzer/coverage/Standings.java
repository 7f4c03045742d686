package everypart.analyzer.coverage;

import everypart.analyzer.prompt.Standing;
import java.util.ArrayList;
import java.util.List;

/**
 * What may be left out is never called missing: an optional demand that was left open, and an
 * alternative to a demand that was met, do not count.
 */
final class Standings {
  private Standings() {}

  /** Returns the verdicts on a part's demands with those taken back that need not be there. */
  static List<DemandCoverage> applied(List<DemandCoverage> demands) {
    List<DemandCoverage> settled = new ArrayList<>();
    int from = 0;
    while (from < demands.size()) {
      int to = from + 1;
      while (to < demands.size() && standing(demands.get(to)) == Standing.ALTERNATIVE) {
        to++;
      }
      List<DemandCoverage> choice = demands.subList(from, to);
      boolean oneMet = choice.stream().anyMatch(one -> one.verdict() == Verdict.ADDRESSED);
      boolean oneBegun = choice.stream().anyMatch(one -> one.verdict() == Verdict.PARTLY);
      for (DemandCoverage one : choice) {
        boolean chosenElse =
            choice.size() > 1
                && ((oneMet && isOpen(one))
                    || (!oneMet && oneBegun && one.verdict() == Verdict.MISSING)
                    || (!oneMet && !oneBegun && standing(one) == Standing.ALTERNATIVE));
        if (standing(one) == Standing.OPTIONAL && one.verdict() == Verdict.MISSING) {
          settled.add(uncounted(one, "optional, and left open: it does not count"));
        } else if (chosenElse && isOpen(one)) {
          settled.add(uncounted(one, "one of the alternatives is enough: this one does not count"));
        } else {
          settled.add(one);
        }
      }
      from = to;
    }
    return settled;
  }

  private static Standing standing(DemandCoverage demand) {
    return demand.demand().standing();
  }

  private static boolean isOpen(DemandCoverage demand) {
    return demand.verdict() == Verdict.MISSING || demand.verdict() == Verdict.PARTLY;
  }

  private static DemandCoverage uncounted(DemandCoverage demand, String reason) {
    return new DemandCoverage(
        demand.demand(),
        demand.found(),
        Verdict.UNCHECKED,
        demand.confidence(),
        false,
        demand.evidence(),
        List.of(reason),
        demand.points());
  }
}
