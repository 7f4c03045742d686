package everypart.analyzer.judge;

import everypart.lexicon.DemandKind;
import java.util.Optional;

/**
 * What needs no learning: texts that address nothing, whatever the model would say. Gates for "I
 * don't know", for unknown words and for texts without a word of the prompt were tried and left
 * out: on coded answers they were wrong as often as right (docs/judge.md).
 */
final class Gates {
  /** A shorter text in the prompt's own words may quote it as evidence. */
  private static final int COPY_FROM = 12;

  /** A gate that closes. */
  enum Closed {
    EMPTY,
    COPIED,
    NO_VALUE;

    String in(Reasons reasons) {
      return switch (this) {
        case EMPTY -> reasons.other("empty");
        case COPIED -> reasons.other("copied");
        case NO_VALUE -> reasons.missing(Lack.NO_VALUE);
      };
    }
  }

  private Gates() {}

  /**
   * Returns the gate that closes for a demand.
   *
   * @param own the text of its part
   * @param all the whole response
   */
  static Optional<Closed> closed(PartWords part, DemandKind kind, Answer own, Answer all) {
    if (all.isEmpty()) {
      return Optional.of(Closed.EMPTY);
    }
    Answer text = own.isEmpty() ? all : own;
    int words = text.sentences().stream().mapToInt(said -> said.sentence().size()).sum();
    if (words >= COPY_FROM
        && text.sentences().stream().allMatch(said -> part.copied.holds(said.sentence()))) {
      return Optional.of(Closed.COPIED);
    }
    boolean value =
        kind != DemandKind.CALCULATE
            || all.sentences().stream()
                .anyMatch(said -> !NumberWords.find(said.sentence().tokens()).isEmpty());
    return value ? Optional.empty() : Optional.of(Closed.NO_VALUE);
  }
}
