package everypart.cli.report;

import everypart.analyzer.coverage.DemandCoverage;
import everypart.analyzer.coverage.Verdict;
import everypart.lexicon.DemandKind;
import java.util.EnumMap;
import java.util.Map;

/**
 * What kind of sentence would close an open demand, in words for its writer. It never says what the
 * answer is.
 */
final class NextStep {
  private static final Map<DemandKind, String> STEPS = new EnumMap<>(DemandKind.class);

  static {
    STEPS.put(DemandKind.IDENTIFY, "name it, or say in so many words which one you choose");
    STEPS.put(
        DemandKind.DEFINE, "say what the term means: what sort of thing it is, what sets it apart");
    STEPS.put(DemandKind.DESCRIBE, "give a feature, a step or an observation of it");
    STEPS.put(
        DemandKind.EXPLAIN,
        "say how or why: name a cause, and how it leads to what is asked about");
    STEPS.put(DemandKind.PREDICT, "say what will or would happen, and in which direction");
    STEPS.put(
        DemandKind.JUSTIFY,
        "give a ground for your claim: data, an observation, or a principle that leads to it");
    STEPS.put(
        DemandKind.COMPARE, "relate both sides in one sentence: what is alike, what is different?");
    STEPS.put(DemandKind.CALCULATE, "give the value with its unit, and show how you got it");
    STEPS.put(DemandKind.REPRESENT, "look at your drawing, graph or template yourself");
    STEPS.put(
        DemandKind.PROPOSE, "offer one concrete way, test or cause, and say what would be done");
    STEPS.put(DemandKind.EVALUATE, "commit to a judgement, and say what it rests on");
  }

  private NextStep() {}

  /** Returns the next step, or an empty text where the demand is addressed. */
  static String of(DemandCoverage demand) {
    if (demand.verdict() == Verdict.ADDRESSED) {
      return "";
    }
    int open = demand.demand().count() - demand.found();
    String step = STEPS.getOrDefault(demand.demand().kind(), "");
    return demand.verdict() == Verdict.PARTLY && open > 0 && demand.demand().count() > 1
        ? open + " more " + (open == 1 ? "is" : "are") + " asked for; " + step
        : step;
  }
}
