package everypart.lexicon;

import java.util.Optional;

/**
 * A cue found in a run of tokens.
 *
 * @param type what it is a sign of
 * @param cue the pattern, as the lexicon lists it
 * @param at the words that matched
 * @param cause for a stated cause and effect, the words of the cause
 * @param effect for a stated cause and effect, the words of the effect
 */
public record CueMatch(
    CueType type,
    String cue,
    TokenRange at,
    Optional<TokenRange> cause,
    Optional<TokenRange> effect) {}
