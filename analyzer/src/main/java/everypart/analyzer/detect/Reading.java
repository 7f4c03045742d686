package everypart.analyzer.detect;

import everypart.analyzer.prompt.Demand;
import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Point;
import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.Span;
import everypart.analyzer.text.Text;
import java.util.ArrayList;
import java.util.LinkedHashMap;
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
   * Looks for what a demand of a part asks for: in the text of the part, then in the rest of the
   * response, where an answer counts if its words show that it belongs to the part.
   *
   * @param place where the demand stands among the part's, counted from 0
   */
  public Finding judge(Part part, int place) {
    PartReading reading = reading(part);
    List<Clause> own = new ArrayList<>();
    List<Clause> rest = new ArrayList<>();
    for (Placed placed : clauses) {
      if (reading.isCopied(placed.clause().sentence())) {
        continue;
      }
      if (placed.part().filter(part.label()::equals).isPresent()) {
        own.add(placed.clause());
      } else if (reading.isNamedIn(placed.clause().sentence())) {
        rest.add(placed.clause());
      }
    }
    Finding here = detectors.judge(reading, place, reading.shareOf(place, own), text);
    if (here.found() > 0 || rest.isEmpty()) {
      return here;
    }
    Finding there = detectors.judge(reading, place, reading.shareOf(place, rest), text);
    if (there.found() == 0) {
      return here;
    }
    List<String> why = new ArrayList<>(there.why());
    why.add("it stands outside the text of this part");
    double strength = 0.5 + (there.strength() - 0.5) / 2;
    return new Finding(there.found(), there.evidence(), why, Math.max(0.5, strength));
  }

  /** Looks for the points that the author listed for a demand, in the whole response. */
  public Map<Point, Optional<Span>> points(Part part, Demand demand) {
    List<Sentence> own = new ArrayList<>();
    List<Sentence> rest = new ArrayList<>();
    for (Placed placed : clauses) {
      List<Sentence> side =
          placed.part().filter(part.label()::equals).isPresent() ? own : rest;
      Sentence sentence = placed.clause().sentence();
      if (side.isEmpty() || !side.get(side.size() - 1).equals(sentence)) {
        side.add(sentence);
      }
    }
    own.addAll(rest);
    Map<Point, Optional<Span>> found = new LinkedHashMap<>();
    for (Point point : demand.points()) {
      found.put(point, detectors.points().find(point, own));
    }
    return found;
  }

  private PartReading reading(Part part) {
    PartReading reading = parts.get(part.label());
    if (reading == null) {
      throw new IllegalArgumentException("the prompt has no part \"" + part.label() + "\"");
    }
    return reading;
  }
}
