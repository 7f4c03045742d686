package everypart.lexicon;

/** A piece of a parsed pattern. */
sealed interface PatternPiece {
  /** A word that is part of the cue. */
  record Word(WordCondition test) implements PatternPiece {}

  /** Up to {@code most} words of any kind, within the clause. */
  record Gap(int most) implements PatternPiece {}

  /** A look at the next word (or, before the first word, at the one before) without taking it. */
  record Check(WordCondition test, boolean wanted) implements PatternPiece {}

  /** A look at the {@code most} words that follow, up to the next mark: none may be met. */
  record NoneAfter(int most, WordCondition test) implements PatternPiece {}

  /** A look, before the first word, at the {@code most} words before it: none may be met. */
  record NoneBefore(int most, WordCondition test) implements PatternPiece {}

  /** A look at whether a clause begins here, or only whether the sentence does. */
  record Start(boolean ofSentence) implements PatternPiece {}

  /** A look, made once the first word has matched, at the word before it. */
  record Behind(PatternPiece look) implements PatternPiece {}

  /** Where the cause or effect that the pattern marks begins or ends. */
  record Mark(Slot slot) implements PatternPiece {}

  /** The four places a pattern may mark. */
  enum Slot {
    CAUSE_FROM,
    CAUSE_TO,
    EFFECT_FROM,
    EFFECT_TO
  }
}
