package everypart.analyzer.prompt;

import everypart.lexicon.TaskMatch;
import everypart.lexicon.TaskRule;
import everypart.lexicon.TaskVerb;
import java.util.Optional;

/**
 * A place in a sentence where a demand begins.
 *
 * @param form what it looks like
 * @param from its first word
 * @param object where what it is about begins
 * @param verb the verb, when the form is {@link Opening#VERB}
 * @param rule what a trailer was read by
 */
record Head(Opening form, int from, int object, Optional<TaskVerb> verb, Optional<TaskRule> rule) {
  /** What kind of words a demand begins with. */
  enum Opening {
    /** A task verb. */
    VERB,
    /** A question that begins with a question word. */
    QUESTION,
    /** A question that begins with "is", "does", "can" and the like. */
    YES_NO,
    /** A question word joined to a task verb: "state the mass and how it was found". */
    INDIRECT,
    /** Words behind a demand that make one more: "with a reason". */
    TRAILER
  }

  static Head of(Opening form, int from) {
    return new Head(form, from, from + 1, Optional.empty(), Optional.empty());
  }

  static Head of(TaskVerb verb, int from, int object) {
    return new Head(Opening.VERB, from, object, Optional.of(verb), Optional.empty());
  }

  static Head trailer(TaskMatch<TaskRule> match) {
    return new Head(
        Opening.TRAILER,
        match.range().from(),
        match.range().to(),
        Optional.empty(),
        Optional.of(match.found()));
  }

  boolean isIn(String group) {
    return verb.map(found -> found.group().equals(group)).orElse(false);
  }

  /** Where the words begin that say what it is about: behind a verb, with a question word. */
  int topic() {
    return form == Opening.VERB || form == Opening.TRAILER ? object : from;
  }
}
