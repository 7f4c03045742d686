package everypart.analyzer.assign;

import everypart.analyzer.text.Span;
import java.util.List;

/**
 * A label that the writer put.
 *
 * @param span the label with its brackets and stops and the words that lead up to it
 * @param written the label as written, without them
 * @param parts the parts it names, in the prompt's order; empty when the prompt has no such part
 * @param style how sure its look alone makes it
 * @param form its look with the label taken out, as in "(x)" or "X:"
 * @param place where it stands
 * @param standIn whether it counts in another way than the prompt does
 */
record LabelMark(
    Span span,
    String written,
    List<String> parts,
    Style style,
    String form,
    Place place,
    boolean standIn) {
  /** How a label looks. */
  enum Style {
    /** "Part b", "Question 2", "For part c,". */
    NAMED,
    /** "Number b", "answer b", without a mark behind it: so may words that label nothing. */
    CALLED,
    /** "The second question", "for the last part". */
    ORDINAL,
    /** "(b)", "b)", "[b]". */
    BRACKETED,
    /** "b.", "b:", "b -", "b =": also how a choice or an initial looks. */
    STOPPED,
    /** "for b," or "part b" inside a sentence. */
    INLINE,
    /** The wording of a part, copied as a heading. */
    HEADING,
    /** "b" and nothing else, as in a dictated answer. */
    BARE
  }

  /** Where a label stands. */
  enum Place {
    /** At the start of a line. */
    LINE,
    /** At the start of a sentence. */
    SENTENCE,
    /** Inside a sentence. */
    INSIDE
  }

  LabelMark {
    parts = List.copyOf(parts);
  }

  /** Returns the first part it names. */
  String first() {
    return parts.get(0);
  }

  /** Tells whether it begins a line. */
  boolean lineStart() {
    return place == Place.LINE;
  }

  LabelMark until(int end) {
    return new LabelMark(new Span(span.start(), end), written, parts, style, form, place, standIn);
  }

  LabelMark naming(List<String> others) {
    return new LabelMark(span, written, others, style, form, place, standIn);
  }
}
