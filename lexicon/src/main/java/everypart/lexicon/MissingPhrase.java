package everypart.lexicon;

/**
 * A phrase that many answers use and no concept covers.
 *
 * @param phrase the phrase as it is written where it stands first, in lower case
 * @param times how often it occurs in the set, in any inflection, outside all concepts
 * @param responses in how many responses
 * @param likelihoodRatio how far it stands out against the background, as Dunning (1993) measures
 *     it: 0 for as often as there, without an upper bound
 * @param asked whether a question has it as well
 * @param example the sentence in which it stands first, as it was written
 */
public record MissingPhrase(
    String phrase,
    long times,
    int responses,
    double likelihoodRatio,
    boolean asked,
    String example) {}
