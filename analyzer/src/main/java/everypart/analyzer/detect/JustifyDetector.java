package everypart.analyzer.detect;

import everypart.analyzer.detect.Clause.Role;
import everypart.analyzer.prompt.Demand;
import everypart.lexicon.DemandKind;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

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
    PartReading part = given.part();
    Moves moves = given.moves();
    @Nullable DemandKind claimKind = null;
    for (Demand demand : part.part.demands().subList(0, given.place())) {
      if (demand.kind() != DemandKind.JUSTIFY) {
        claimKind = demand.kind();
      }
    }
    Set<String> known = new HashSet<>(part.ask.words());
    known.addAll(part.options);
    List<Clause> claims = new ArrayList<>();
    for (Clause clause : given.own()) {
      boolean claim =
          claimKind != null
              && clause.role() != Role.GROUND
              && moves.claims(part, claimKind, clause);
      if (claim
          && (claims.isEmpty()
              || (claimKind == DemandKind.PREDICT && moves.has(clause, WordClasses.Form.FUTURE)))) {
        claims.add(clause);
        known.addAll(clause.content());
      }
    }
    Vocabulary all = new Vocabulary(known);
    Vocabulary nothing = new Vocabulary(Set.of());
    double best = 0;
    @Nullable Clause at = null;
    for (Clause clause : given.own()) {
      if (claims.contains(clause) || moves.isPadding(clause) || clause.cut()) {
        continue;
      }
      boolean marked = clause.role() == Role.GROUND;
      boolean apart = claims.size() == 1 && claims.get(0).content().isEmpty() && clause.size() >= 3;
      double novelty =
          moves.novelty(clause, all, marked || apart ? nothing : part.setup, part.directions);
      novelty += 0.5 * clause.numbers().size();
      if (marked && moves.setsApart(part, clause)) {
        novelty += 0.5;
      }
      if (marked) {
        novelty *= 2;
      } else if (clause.first().form().equals("to")) {
        novelty = 0;
      }
      if (novelty > best) {
        best = novelty;
        at = clause;
      }
    }
    if (at == null || best < 1) {
      return new Finding(
          0,
          List.of(),
          List.of(
              claims.isEmpty()
                  ? "no ground was found"
                  : "a claim is stated; no ground for it was found"),
          0.1);
    }
    return new Finding(
        given.demand().count(), List.of(at.span()), List.of("a ground is given"), 0.9);
  }
}
