package everypart.analyzer.detect;

import everypart.analyzer.prompt.Demand;
import everypart.analyzer.text.Span;
import everypart.analyzer.text.Text;
import java.util.ArrayList;
import java.util.List;

/**
 * A demand with what a detector needs to judge it.
 *
 * @param part the part as read
 * @param place where the demand stands among the part's
 * @param own the clauses in which to look, without what the prompt says word for word
 * @param moves what counts as which move
 * @param text the whole response
 */
record Case(PartReading part, int place, List<Clause> own, Moves moves, Text text) {
  private static final int MOST_EVIDENCE = 3;

  Case {
    own = List.copyOf(own);
  }

  /** Returns the demand. */
  Demand demand() {
    return part.part.demands().get(place);
  }

  /** Tells how far a clause goes beyond the question's words; the set-up's words count in part. */
  double novelty(Clause clause) {
    return moves.novelty(clause, part.ask, part.setup, part.directions);
  }

  /** The move is not there. */
  Finding missing(double strength, String... why) {
    List<String> reasons =
        own.isEmpty() ? List.of("no text was found for this part") : List.of(why);
    return new Finding(0, List.of(), reasons, strength);
  }

  /**
   * The move is there; where several are asked for, the different ones among the clauses that make
   * it are counted.
   *
   * @param making the clauses that make the move, the first ones are quoted
   */
  Finding found(List<Clause> making, double strength, String... why) {
    List<String> reasons = new ArrayList<>(List.of(why));
    int wanted = demand().count();
    if (wanted == 1) {
      return new Finding(1, spans(making.subList(0, 1)), reasons, strength);
    }
    Counting.Count count = Counting.count(making, wanted, part.ask);
    int found = Math.max(1, Math.min(wanted, count.different().size()));
    List<Clause> quoted = count.different().isEmpty() ? making.subList(0, 1) : count.different();
    reasons.add(found + " of " + wanted + " found");
    if (found < wanted) {
      for (Clause repeat : count.repeats()) {
        reasons.add("taken as the same as one before: \"" + repeat.span().of(text.raw()) + "\"");
      }
    }
    return new Finding(
        found, spans(quoted.subList(0, Math.min(found, quoted.size()))), reasons, strength);
  }

  private static List<Span> spans(List<Clause> clauses) {
    return clauses.stream()
        .map(Clause::span)
        .limit(Math.max(MOST_EVIDENCE, clauses.size()))
        .toList();
  }
}
