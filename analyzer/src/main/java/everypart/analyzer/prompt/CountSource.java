package everypart.analyzer.prompt;

/** What says how many a demand asks for. */
public enum CountSource {
  /** Nothing: one will do. */
  UNSAID,
  /** A number in the wording, or "both". */
  NUMBER,
  /** "each" of things that were counted before. */
  EACH,
  /** The items of a list behind a colon or below. */
  LISTED,
  /** Objects joined by "and": "the mass of the lid and that of the jar". */
  JOINED,
  /** A pair of one kind: "one advantage and one disadvantage". */
  PAIR,
  /** The marks given for it. */
  MARKS,
  /** The prompt's author, in the prompt file. */
  AUTHOR
}
