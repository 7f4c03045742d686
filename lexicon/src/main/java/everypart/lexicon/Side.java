package everypart.lexicon;

/** Where the cause or the effect stands, seen from the cue. */
enum Side {
  /** In the clause before the cue. */
  BEFORE,
  /** In the words after the cue, to the end of their clause. */
  AFTER,
  /** Between the marks that the pattern itself sets. */
  WITHIN,
  /** Not in the sentence, or not told by the pattern. */
  NONE
}
