package everypart.analyzer.detect;

import everypart.analyzer.detect.WordClasses.Form;
import everypart.lexicon.DemandKind;
import java.util.List;

/** Looks for a ground beyond the claim and the question. */
final class JustifyDetector implements Detector {
  @Override
  public DemandKind kind() {
    return DemandKind.JUSTIFY;
  }

  @Override
  public String summary() {
    return "gives a ground for the claim, beyond the claim itself";
  }

  @Override
  public Finding judge(Case given) {
    List<Clause> claims = Grounds.claims(given);
    List<Grounds.Scored> grounds = Grounds.scored(given, claims, true);
    List<Clause> making = Grounds.enough(grounds, 1);
    double strength = Grounds.strength(grounds);
    if (making.isEmpty()) {
      boolean marked = given.own().stream().anyMatch(Clause::isMarked);
      String why =
          marked
              ? "what is given as a ground says the claim or the question again"
              : claims.isEmpty()
                  ? "no ground was found"
                  : "a claim is stated; no ground for it was found";
      return given.missing(strength, why);
    }
    boolean evidence =
        making.stream()
            .anyMatch(
                clause -> !clause.numbers().isEmpty() || given.moves().has(clause, Form.EVIDENCE));
    return given.found(
        making,
        strength,
        evidence
            ? "a ground is given, from data or an observation"
            : "a ground is given: reasoning; no data or observation was found with it");
  }
}
