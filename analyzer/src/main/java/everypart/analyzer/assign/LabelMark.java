package everypart.analyzer.assign;

import everypart.analyzer.text.Span;
import java.util.Optional;

/**
 * A label that the writer put.
 *
 * @param span the label with its brackets and stops
 * @param written the label as written, without them
 * @param part the part it names; empty when the prompt has no such part
 * @param style how sure its look alone makes it
 * @param form its look with the label taken out, as in "(x)" or "X:"
 * @param lineStart whether it begins a line
 * @param standIn whether it counts in another way than the prompt does
 */
record LabelMark(
    Span span,
    String written,
    Optional<String> part,
    Style style,
    String form,
    boolean lineStart,
    boolean standIn) {
  /** How a label looks, surest first. */
  enum Style {
    /** "Part b", "Question 2", "For part c,". */
    NAMED,
    /** "(b)", "b)", "[b]". */
    BRACKETED,
    /** "b.", "b:", "b -", "b =": also how a choice or an initial looks. */
    STOPPED,
    /** "for b," or "part b" inside a sentence. */
    INLINE
  }
}
