package everypart.lexicon;

import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * What a wording asks for.
 *
 * @param pattern the wording, in the notation of {@code task-verbs.yaml}
 * @param reading how it is read
 * @param kind the kind of demand, when the reading is {@link Reading#DEMAND}
 * @param count how many it asks for, when the wording itself says so
 * @param why what it asks for, in plain words
 * @param after the groups of verbs behind which it applies; empty when it applies behind all
 * @param without words that must not stand in the match
 * @param supposed whether it applies only where a case is imagined ("if the lamp failed, ...")
 */
public record TaskRule(
    String pattern,
    Reading reading,
    Optional<DemandKind> kind,
    Optional<Integer> count,
    String why,
    List<String> after,
    Set<String> without,
    boolean supposed) {
  /** Copies the lists. */
  public TaskRule {
    after = List.copyOf(after);
    without = Set.copyOf(without);
  }

  /** How a wording is read. */
  public enum Reading {
    /** A demand of the rule's kind. */
    DEMAND,
    /** The ground of an outcome or choice asked for before; an explanation when there is none. */
    FOLLOW_UP,
    /** No demand. */
    SET_ASIDE
  }
}
