package everypart.analyzer.assign;

import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.text.Text;
import everypart.lexicon.Lexicon;
import java.util.Optional;

/** Gives each stretch of a response to the part it answers, or to none. Serves all threads. */
public final class PartAssigner {
  /** Makes an assigner. */
  public PartAssigner(Lexicon lexicon) {}

  /** Assigns a response. */
  public Assignment assign(Prompt prompt, Text response) {
    String first = prompt.parts().get(0).label();
    return new Assignment(
        response.sentences().stream()
            .map(sentence -> new Stretch(sentence, Optional.of(first)))
            .toList(),
        java.util.List.of());
  }
}
