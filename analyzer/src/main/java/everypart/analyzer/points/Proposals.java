package everypart.analyzer.points;

import everypart.analyzer.prompt.Point;
import java.util.List;

/**
 * What a model answer suggests for a prompt.
 *
 * @param parts the proposals for each part, in the prompt's order
 */
public record Proposals(List<ForPart> parts) {
  /**
   * The proposals for a part.
   *
   * @param label the part's label
   * @param modelAnswer the words of the model answer that answer the part; empty when none do
   * @param points the proposed points of each demand, in the part's order, rarest first
   */
  public record ForPart(String label, String modelAnswer, List<List<Point>> points) {
    /** Copies the lists. */
    public ForPart {
      points = points.stream().map(List::copyOf).toList();
    }
  }

  /** Copies the list. */
  public Proposals {
    parts = List.copyOf(parts);
  }
}
