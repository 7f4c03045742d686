package everypart.analyzer.detect;

/** A stage of the detectors that can be left out, to see what it earns. */
enum Stage {
  /** Sentences that hand the prompt's wording back are set aside. */
  COPIES,
  /** A response off the subject is credited with nothing. */
  SUBJECT,
  /** What is not found in the text of a part is looked for in the rest of the response. */
  ELSEWHERE,
  /** Connectives mark clauses as ground, result or condition. */
  ROLES,
  /** Where a part asks for one kind twice, its text is dealt out among the demands. */
  SHARES
}
