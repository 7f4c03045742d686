package everypart.analyzer.assign;

import everypart.analyzer.text.Sentence;
import java.util.Optional;

/**
 * A sentence, or a clause of one, and the part it answers.
 *
 * @param sentence the words; a clause is given as a sentence of its own
 * @param part the label of the part it answers; empty when it answers none
 */
public record Stretch(Sentence sentence, Optional<String> part) {}
