package everypart.analyzer.coverage;

import everypart.analyzer.prompt.Part;
import java.util.List;

/**
 * The verdict on one part.
 *
 * @param part the part
 * @param verdict the verdict over its demands
 * @param demands the verdicts on its demands, in the part's order
 */
public record PartCoverage(Part part, Verdict verdict, List<DemandCoverage> demands) {
  /** Copies the demands. */
  public PartCoverage {
    demands = List.copyOf(demands);
  }
}
