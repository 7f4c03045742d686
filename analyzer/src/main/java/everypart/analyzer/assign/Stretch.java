package everypart.analyzer.assign;

import everypart.analyzer.text.Sentence;
import java.util.Optional;

/**
 * A sentence, or a clause of one, and the part it answers.
 *
 * @param sentence the words; a clause is given as a sentence of its own
 * @param part the label of the part it answers; empty when it answers none
 * @param byMeaning whether its meaning was compared with the parts', because words left it open
 * @param byLabel whether the writer's own label put it there
 */
public record Stretch(
    Sentence sentence, Optional<String> part, boolean byMeaning, boolean byLabel) {
  /** Makes a stretch that was placed by its words alone. */
  public Stretch(Sentence sentence, Optional<String> part) {
    this(sentence, part, false, false);
  }
}
