package everypart.lexicon;

/**
 * A concept found in a run of tokens.
 *
 * @param concept the concept's name in the lexicon
 * @param at the words that name it
 */
public record ConceptMatch(String concept, TokenRange at) {}
