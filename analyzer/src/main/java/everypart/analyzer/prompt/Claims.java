package everypart.analyzer.prompt;

import everypart.lexicon.DemandKind;
import everypart.lexicon.TaskVerbs;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** Ties each demand for a ground to the demand whose answer is to be grounded. */
final class Claims {
  /** Kinds whose answer is an outcome, a choice or a judgement, for which a ground can be asked. */
  static final Set<DemandKind> KINDS =
      EnumSet.of(
          DemandKind.IDENTIFY,
          DemandKind.PREDICT,
          DemandKind.EVALUATE,
          DemandKind.CALCULATE,
          DemandKind.PROPOSE);

  private Claims() {}

  /** Returns the parts with every tie that was found. */
  static List<Part> tied(TaskVerbs verbs, List<Part> parts) {
    List<Part> tied = new ArrayList<>();
    Optional<Asking.Claim> before = Optional.empty();
    for (Part part : parts) {
      Optional<Asking.Claim> last = Optional.empty();
      List<Demand> demands = new ArrayList<>();
      for (Demand demand : part.demands()) {
        if (KINDS.contains(demand.kind())) {
          last = Optional.of(new Asking.Claim(part.label(), demands.size()));
        }
        Optional<Asking.Claim> claim = last.isPresent() || !isOwn(verbs, demand) ? last : before;
        demands.add(
            demand.kind() == DemandKind.JUSTIFY && claim.isPresent()
                ? demand.worded(demand.asking().withClaim(claim.get()))
                : demand);
      }
      before = last.isPresent() ? last : before;
      tied.add(
          new Part(
              part.label(), part.text(), part.span(), part.modelAnswer(), List.copyOf(demands)));
    }
    return tied;
  }

  /** Tells whether a demand for a ground is about the writer's own answer. */
  private static boolean isOwn(TaskVerbs verbs, Demand demand) {
    return demand.about().startsWith("your ") || About.isOwnAnswer(verbs, demand.about());
  }
}
