/**
 * What words mean to the trade: task verbs, cue patterns and concepts.
 *
 * <p>The room holds YAML files that people can edit and the matchers that look for their entries in
 * a {@link everypart.lexicon.WordSequence}. It says what a word or phrase is a sign of; it never
 * judges whether a demand is answered. {@link everypart.lexicon.Lexicon} is the way in.
 */
@NullMarked
package everypart.lexicon;

import org.jspecify.annotations.NullMarked;
