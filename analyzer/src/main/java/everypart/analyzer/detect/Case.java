package everypart.analyzer.detect;

import everypart.analyzer.prompt.Demand;
import everypart.analyzer.text.Text;
import java.util.List;

/**
 * A demand with what a detector needs to judge it.
 *
 * @param part the part as read
 * @param place where the demand stands among the part's
 * @param own the clauses of the text that was given to the part, without what says nothing
 * @param rest the clauses of the rest of the response
 * @param moves what counts as which move
 * @param text the whole response
 */
record Case(
    PartReading part, int place, List<Clause> own, List<Clause> rest, Moves moves, Text text) {
  Case {
    own = List.copyOf(own);
    rest = List.copyOf(rest);
  }

  /** Returns the demand. */
  Demand demand() {
    return part.part.demands().get(place);
  }
}
