package everypart.analyzer.assign;

import everypart.analyzer.text.Sentence;
import java.util.ArrayList;
import java.util.List;
import java.util.function.IntToDoubleFunction;

/**
 * Clauses of one piece that go to the same part, one after the other; most often all of them.
 *
 * @param units all units of the response
 * @param first the first unit
 * @param end the unit behind the last one
 * @param part the place of the part; the number of parts for none
 */
record Run(List<Unit> units, int first, int end, int part) {
  /** Returns the runs of a path, in order. */
  static List<Run> of(List<Unit> units, int[] path) {
    List<Run> runs = new ArrayList<>();
    int next = 0;
    while (next < units.size()) {
      int first = next;
      do {
        next++;
      } while (next < units.size() && units.get(next).goesOn() && path[next] == path[first]);
      runs.add(new Run(units, first, next, path[first]));
    }
    return runs;
  }

  /** Returns the place of the piece. */
  int piece() {
    return units.get(first).piece();
  }

  /** Returns the words of the run, a whole piece as it is. */
  Sentence words(List<Sentence> pieces) {
    Sentence piece = pieces.get(piece());
    boolean last = end == units.size() || !units.get(end).goesOn();
    return Unit.run(piece, units.get(first).from(), last ? piece.size() : units.get(end).from());
  }

  /** Adds up the rows of a table over the run's units. */
  double[] sum(double[][] table) {
    double[] sum = new double[table[first].length];
    for (int i = first; i < end; i++) {
      for (int p = 0; p < sum.length; p++) {
        sum[p] += table[i][p];
      }
    }
    return sum;
  }

  /** Returns by how much the words speak more for the run's part than for any other. */
  double lead(double[][] matches) {
    double[] match = sum(matches);
    double lead = Double.POSITIVE_INFINITY;
    for (int p = 0; p < match.length; p++) {
      if (p != part) {
        lead = Math.min(lead, part == match.length ? 0 : match[part] - match[p]);
      }
    }
    return lead;
  }

  /** Adds to the rows of a table, to each unit its share. */
  void add(double[][] table, IntToDoubleFunction what) {
    for (int i = first; i < end; i++) {
      for (int p = 0; p < table[i].length; p++) {
        table[i][p] += units.get(i).share() * what.applyAsDouble(p);
      }
    }
  }
}
