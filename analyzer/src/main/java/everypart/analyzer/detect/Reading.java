package everypart.analyzer.detect;

import everypart.analyzer.prompt.Part;
import everypart.analyzer.text.Text;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** A response as the detectors see it, read once and asked once a demand. */
public final class Reading {
  /**
   * A clause and where it belongs.
   *
   * @param part the label of the part it answers; empty when it answers none
   */
  record Placed(Clause clause, Optional<String> part) {}

  private final Text text;
  private final List<Placed> clauses;
  private final Map<String, PartReading> parts;
  private final Detectors detectors;

  Reading(Text text, List<Placed> clauses, Map<String, PartReading> parts, Detectors detectors) {
    this.text = text;
    this.clauses = List.copyOf(clauses);
    this.parts = Map.copyOf(parts);
    this.detectors = detectors;
  }

  /**
   * Looks for what a demand of a part asks for.
   *
   * @param place where the demand stands among the part's, counted from 0
   */
  public Finding judge(Part part, int place) {
    PartReading reading = parts.get(part.label());
    if (reading == null) {
      throw new IllegalArgumentException("the prompt has no part \"" + part.label() + "\"");
    }
    List<Clause> own = new ArrayList<>();
    List<Clause> rest = new ArrayList<>();
    for (Placed placed : clauses) {
      if (reading.isCopied(placed.clause().sentence())) {
        continue;
      }
      (placed.part().filter(part.label()::equals).isPresent() ? own : rest).add(placed.clause());
    }
    return detectors.judge(reading, place, own, rest, text);
  }
}
