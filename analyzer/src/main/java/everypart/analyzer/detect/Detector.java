package everypart.analyzer.detect;

import everypart.lexicon.DemandKind;

/** Tells whether the move that one kind of demand asks for is there. */
interface Detector {
  /** Returns the kind of demand it judges. */
  DemandKind kind();

  /** Returns in one line what has to be there. */
  String summary();

  /** Looks for the move. */
  Finding judge(Case given);
}
