package everypart.analyzer.prompt;

import everypart.analyzer.text.Span;
import java.util.List;
import java.util.Optional;

/**
 * A part of a prompt.
 *
 * @param label its label without brackets or stops, in lower case, as in "a"; a sub-part carries
 *     its parent's label before a full stop, as in "b.ii"; a prompt without labels has one part
 *     labelled "1"
 * @param text its wording
 * @param span where it stands in the prompt's text
 * @param modelAnswer a model answer or scoring notes, when the author gave them
 * @param demands what it asks for, in reading order
 */
public record Part(
    String label, String text, Span span, Optional<String> modelAnswer, List<Demand> demands) {
  /** Copies the demands. */
  public Part {
    demands = List.copyOf(demands);
  }
}
