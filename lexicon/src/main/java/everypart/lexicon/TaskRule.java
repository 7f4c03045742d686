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
 * @param or the kind that it can ask for as well, when that is near
 * @param count how many it asks for, when the wording itself says so
 * @param why what it asks for, in plain words
 * @param after the groups of verbs behind which it applies; empty when it applies behind all
 * @param without words that must not stand in the match
 * @param setting where it applies
 */
public record TaskRule(
    String pattern,
    Reading reading,
    Optional<DemandKind> kind,
    Optional<DemandKind> or,
    Optional<Integer> count,
    String why,
    List<String> after,
    Set<String> without,
    Setting setting) {
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
    /** What the question before it asks for, about something else ("What about the moth?"). */
    AGAIN,
    /** No demand. */
    SET_ASIDE
  }

  /** What the words of a demand, or before it, have to hold for a rule to apply. */
  public enum Setting {
    /** Anything. */
    ANY,
    /** An imagined case: "if the lamp failed, ...". */
    SUPPOSED,
    /** Amounts with their units, from which others can be worked out: "a 3 kg block, 2 m high". */
    MEASURED,
    /** Two figures, with or without units: "12 chairs a day", "for 5 days". */
    FIGURED,
    /** A person's name where the doer stands: "How could Juno find out ...". */
    NAMED,
    /** A proposal asked for just before. */
    PROPOSED,
    /** A comparison asked for just before. */
    COMPARED
  }
}
