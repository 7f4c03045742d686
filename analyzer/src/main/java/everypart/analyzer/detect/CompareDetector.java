package everypart.analyzer.detect;

import everypart.analyzer.detect.WordClasses.Form;
import everypart.analyzer.detect.WordClasses.Stem;
import everypart.analyzer.text.Token;
import everypart.lexicon.DemandKind;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** Looks for a relation between the two sides. */
final class CompareDetector implements Detector {
  private static final int LEAST_GRADES = 3;

  @Override
  public DemandKind kind() {
    return DemandKind.COMPARE;
  }

  @Override
  public String summary() {
    return "relates both sides; a comparative may leave one side implied";
  }

  @Override
  public Finding judge(Case given) {
    Map<Integer, Boolean> contrasts = new HashMap<>();
    List<Clause> making =
        given.own().stream().filter(clause -> relates(given, clause, contrasts)).toList();
    if (making.isEmpty()) {
      making = parallels(given);
    }
    if (making.isEmpty()) {
      return given.missing(0.1, "the two sides are not related to each other");
    }
    boolean worded = given.moves().has(making.get(0), Form.COMPARE);
    return given.found(making, worded ? 0.95 : 0.85, "the sides are related to each other");
  }

  /** "Crabs have ten legs. Spiders have eight legs": the same said of each side in turn. */
  private static List<Clause> parallels(Case given) {
    List<Said> all = given.own().stream().map(clause -> Said.of(given, clause)).toList();
    // The last sentence that says a word, by the sides it says it of: the pairs themselves would
    // grow with the square of the response.
    Map<String, Map<Set<String>, Integer>> last = new HashMap<>();
    for (Said said : all) {
      for (String word : said.rest()) {
        last.computeIfAbsent(word, key -> new HashMap<>())
            .merge(said.sides(), said.clause().sentenceIndex(), Math::max);
      }
    }
    for (Said one : all) {
      boolean met =
          one.rest().stream()
              .flatMap(word -> last.getOrDefault(word, Map.of()).entrySet().stream())
              .anyMatch(
                  later ->
                      later.getValue() > one.clause().sentenceIndex()
                          && areApart(one.sides(), later.getKey()));
      if (met) {
        return all.stream()
            .filter(other -> one.isParallelTo(other))
            .findFirst()
            .map(other -> List.of(one.clause(), other.clause()))
            .orElse(List.of());
      }
    }
    return List.of();
  }

  /**
   * What a clause says, as far as two sides are told apart by it.
   *
   * @param sides the words of it in which the part asks
   * @param rest its other words
   */
  private record Said(Clause clause, Set<String> sides, Set<String> rest) {
    static Said of(Case given, Clause clause) {
      Set<String> sides = new HashSet<>();
      Set<String> rest = new HashSet<>();
      for (String word : clause.content()) {
        (given.part().ask.has(word) ? sides : rest).add(word);
      }
      return new Said(clause, sides, rest);
    }

    boolean isParallelTo(Said other) {
      return other.clause().sentenceIndex() > clause.sentenceIndex()
          && areApart(sides, other.sides())
          && !Collections.disjoint(rest, other.rest());
    }
  }

  private static boolean areApart(Set<String> one, Set<String> other) {
    return !one.containsAll(other) && !other.containsAll(one);
  }

  /**
   * Tells whether sizes and degrees relate two sides: three of them, "the small one is high and the
   * big one low", or a new one where the part asks what is different then.
   */
  private static boolean grades(Case given, Clause clause) {
    Set<String> grades = new HashSet<>();
    for (Token token : Moves.around(clause)) {
      if (given.moves().words().is(token, Stem.PURE)) {
        grades.add(token.stem());
      }
    }
    return grades.size() >= LEAST_GRADES
        || (given.part().wantsDifferenceThen && !given.part().questionTokens.containsAll(grades));
  }

  /** "5 x the river one": a number of times. */
  private static boolean isMultiple(Clause clause) {
    for (int i = 1; i + 1 < clause.size(); i++) {
      String form = clause.tokens().get(i).form();
      boolean times = form.equals("x") || form.equals("\u00d7") || form.equals("fold");
      if (times && clause.tokens().get(i - 1).isNumber()) {
        return clause.tokens().get(i + 1).isWord();
      }
    }
    return false;
  }

  /**
   * Tells whether a clause relates the sides.
   *
   * @param contrasts whether each sentence seen so far sets one thing against another
   */
  private static boolean relates(Case given, Clause clause, Map<Integer, Boolean> contrasts) {
    return contrasts.computeIfAbsent(
            clause.sentenceIndex(),
            index ->
                clause.sentence().tokens().stream()
                    .anyMatch(token -> given.moves().words().is(token, Form.CONTRAST)))
        || isMultiple(clause)
        || grades(given, clause)
        || !given.moves().directions(clause).isEmpty()
        || given.moves().has(clause, Form.COMPARE);
  }
}
