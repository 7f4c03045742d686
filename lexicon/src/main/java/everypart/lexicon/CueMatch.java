package everypart.lexicon;

import java.util.Optional;

/**
 * A cue found in a run of tokens.
 *
 * @param type what it is a sign of
 * @param family the group of patterns in the lexicon that the cue belongs to, such as {@code
 *     connective} or {@code purpose}
 * @param cue the pattern, as the lexicon lists it
 * @param at the words that matched
 * @param cause for a stated cause and effect, the words of the cause, where they stand in the
 *     sentence
 * @param effect for a stated cause and effect, the words of the effect, where they stand in the
 *     sentence
 * @param negated whether it is denied ("does not cause", "not because")
 */
public record CueMatch(
    CueType type,
    String family,
    String cue,
    TokenRange at,
    Optional<TokenRange> cause,
    Optional<TokenRange> effect,
    boolean negated) {}
