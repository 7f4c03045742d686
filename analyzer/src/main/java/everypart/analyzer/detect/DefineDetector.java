package everypart.analyzer.detect;

import everypart.analyzer.detect.Clause.Role;
import everypart.lexicon.DemandKind;
import java.util.ArrayList;
import java.util.List;

/** Looks for the meaning of a term. */
final class DefineDetector implements Detector {
  private static final double LEAST = 0.8;
  private static final int OPENING = 3;

  @Override
  public DemandKind kind() {
    return DemandKind.DEFINE;
  }

  @Override
  public String summary() {
    return "says what the term means, not only by example";
  }

  @Override
  public Finding judge(Case given) {
    List<Clause> making = new ArrayList<>();
    double sum = 0;
    boolean circular = false;
    for (int i = 0; i < given.own().size(); i++) {
      Clause clause = given.own().get(i);
      boolean goesOn = i > 0 && given.own().get(i - 1).sentenceIndex() == clause.sentenceIndex();
      boolean follows =
          (clause.role() == Role.RESULT && i > 0) || (clause.role() == Role.SUPPORT && goesOn);
      boolean usesTerm = isCircular(given.part(), clause);
      circular |= usesTerm;
      if (follows || usesTerm || isExample(clause) || given.moves().isPadding(clause)) {
        continue;
      }
      double novelty = given.novelty(clause);
      sum += novelty;
      if (novelty > 0) {
        making.add(clause);
      }
    }
    if (making.isEmpty() || sum < LEAST) {
      return given.missing(
          0.15, circular ? "the term is defined by itself" : "what the term means was not found");
    }
    return given.found(making, Grounds.strength(sum / LEAST), "a meaning is given");
  }

  /** Uses the term to say what the term means: "a tide is when there is a tide". */
  private static boolean isCircular(PartReading part, Clause clause) {
    boolean uses = clause.content().stream().anyMatch(part.ask::has);
    boolean opens =
        clause.role() != Role.CONDITION
            && clause.tokens().subList(0, Math.min(OPENING, clause.size())).stream()
                .anyMatch(token -> part.ask.words().contains(token.stem()));
    return uses && !opens;
  }

  /** Gives an example instead of a meaning: "like when it rains", "an example is salt". */
  private static boolean isExample(Clause clause) {
    return Moves.has(clause, "example", "e.g", "eg", "instance")
        || clause.first().form().equals("like");
  }
}
