package everypart.analyzer.detect;

import everypart.analyzer.detect.WordClasses.Form;
import everypart.lexicon.DemandKind;
import java.util.List;

/** Looks for a relation between the two sides. */
final class CompareDetector implements Detector {
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
    List<Clause> making = given.own().stream().filter(clause -> relates(given, clause)).toList();
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
    for (Clause one : given.own()) {
      for (Clause other : given.own()) {
        boolean apart = other.sentenceIndex() > one.sentenceIndex();
        if (apart && isParallel(given, one, other)) {
          return List.of(one, other);
        }
      }
    }
    return List.of();
  }

  private static boolean isParallel(Case given, Clause one, Clause other) {
    boolean shared = false;
    boolean sideOne = false;
    boolean sideOther = false;
    for (String word : one.content()) {
      boolean asked = given.part().ask.has(word);
      shared |= !asked && other.content().contains(word);
      sideOne |= asked && !other.content().contains(word);
    }
    for (String word : other.content()) {
      sideOther |= given.part().ask.has(word) && !one.content().contains(word);
    }
    return shared && sideOne && sideOther;
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

  private static boolean relates(Case given, Clause clause) {
    boolean contrasts =
        clause.sentence().tokens().stream()
            .anyMatch(token -> given.moves().words().is(token, Form.CONTRAST));
    return contrasts
        || isMultiple(clause)
        || !given.moves().directions(clause).isEmpty()
        || given.moves().has(clause, Form.COMPARE);
  }
}
