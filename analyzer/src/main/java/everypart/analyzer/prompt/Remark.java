package everypart.analyzer.prompt;

import everypart.analyzer.text.Span;

/**
 * Something about a prompt that its author should see.
 *
 * @param kind what sort of remark it is
 * @param span the words it is about, in the prompt's text
 * @param message the remark, one sentence
 */
public record Remark(Kind kind, Span span, String message) {
  /** The sorts of remark. */
  public enum Kind {
    /** Words that were read as no demand: marks, word limits, instructions to the candidate. */
    SET_ASIDE,
    /** A part or prompt in which no demand was found, or wording that can be read in two ways. */
    LOOK
  }
}
