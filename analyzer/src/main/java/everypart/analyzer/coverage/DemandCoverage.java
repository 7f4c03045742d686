package everypart.analyzer.coverage;

import everypart.analyzer.prompt.Demand;
import everypart.analyzer.text.Span;
import java.util.List;

/**
 * The verdict on one demand.
 *
 * @param demand the demand
 * @param found how many of those asked for were found
 * @param verdict the verdict
 * @param confidence the probability that the verdict is right, as measured on coded data
 * @param look whether a person should look at it
 * @param evidence the words the verdict relies on, in the response
 * @param why the reasons in plain words
 * @param points which of the author's points are mentioned
 */
public record DemandCoverage(
    Demand demand,
    int found,
    Verdict verdict,
    double confidence,
    boolean look,
    List<Span> evidence,
    List<String> why,
    List<PointFound> points) {
  /** Copies the lists. */
  public DemandCoverage {
    evidence = List.copyOf(evidence);
    why = List.copyOf(why);
    points = List.copyOf(points);
  }
}
