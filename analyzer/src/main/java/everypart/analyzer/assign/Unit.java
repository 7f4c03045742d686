package everypart.analyzer.assign;

import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.Token;
import java.util.ArrayList;
import java.util.List;

/**
 * What the alignment places: a piece of a response, or a clause of one.
 *
 * @param words the words
 * @param piece the place of its piece among the pieces
 * @param from the first of the piece's tokens
 * @param share of the piece's tokens that it has
 */
record Unit(Sentence words, int piece, int from, double share) {
  /** Tells whether it goes on with the piece of the unit before. */
  boolean goesOn() {
    return from > 0;
  }

  /** Returns a piece as one unit. */
  static Unit whole(Sentence piece, int place) {
    return new Unit(piece, place, 0, 1);
  }

  /** Returns the clauses of a piece. */
  static List<Unit> clauses(Sentence piece, int place, List<Integer> seams) {
    List<Unit> units = new ArrayList<>();
    int from = 0;
    for (int seam : seams) {
      units.add(part(piece, place, from, seam));
      from = seam;
    }
    units.add(part(piece, place, from, piece.size()));
    return units;
  }

  private static Unit part(Sentence piece, int place, int from, int to) {
    return new Unit(run(piece, from, to), place, from, (to - from) / (double) piece.size());
  }

  /** Returns a run of a piece's tokens as a sentence of its own. */
  static Sentence run(Sentence piece, int from, int to) {
    if (from == 0 && to == piece.size()) {
      return piece;
    }
    List<Token> tokens = piece.tokens().subList(from, to);
    return new Sentence(
        tokens.get(0).start(),
        tokens.get(tokens.size() - 1).end(),
        tokens,
        from == 0 && piece.lineStart(),
        from == 0 && piece.paragraphStart());
  }
}
