package everypart.lexicon;

import java.util.List;

/**
 * A verb that makes a demand.
 *
 * @param form the verb as it stands in a prompt, as in "account for"
 * @param group the verbs that it goes with in the rules about objects
 * @param kind the kind of demand it makes when its object says nothing else
 * @param place where it may begin a demand
 * @param why what it asks for, in plain words
 * @param never phrases in which the word makes no demand
 */
public record TaskVerb(
    String form, String group, DemandKind kind, Place place, String why, List<String> never) {
  /** Copies the phrases. */
  public TaskVerb {
    never = List.copyOf(never);
  }

  /** Where a verb may begin a demand. */
  public enum Place {
    /** At the start of a clause or joined to another demand. */
    ANYWHERE,
    /** The same, but when joined it needs its object beside it: the word is a noun too. */
    OBJECT,
    /** Only at the start of a clause or after words such as "you should". */
    START
  }
}
