package everypart.analyzer.judge;

import everypart.analyzer.text.Token;
import everypart.lexicon.CueMatch;
import everypart.lexicon.CueType;
import everypart.lexicon.DemandKind;
import java.util.BitSet;
import java.util.Optional;

/**
 * Recognises texts that address no demand, so that no model has to be asked: an empty text, a copy
 * of the prompt, "I don't know", and a calculation without a value. Three more gates were tried and
 * left out, since on coded answers they were wrong as often as right (docs/judge.md): for "I don't
 * know" beside other words, for unknown words, and for texts without a word of the prompt.
 */
final class Gates {
  /**
   * A text of fewer words in the prompt's own wording is not taken for a copy: it may quote the
   * prompt as evidence. Chosen by eye.
   */
  private static final int COPY_FROM = 12;

  /** A gate that closes. */
  enum Closed {
    EMPTY,
    COPIED,
    NO_ANSWER,
    NO_VALUE;

    String in(Reasons reasons) {
      return switch (this) {
        case EMPTY -> reasons.other("empty");
        case COPIED -> reasons.other("copied");
        case NO_ANSWER -> reasons.missing(Lack.DONT_KNOW);
        case NO_VALUE -> reasons.missing(Lack.NO_VALUE);
      };
    }
  }

  /** The family of cues that say that there is no answer; "nothing" may be one. */
  private static final String NO_ANSWER = "no-answer";

  /** A text may hold so many words beside "I don't know", such as "sorry", and still be one. */
  private static final int BESIDE = 1;

  private Gates() {}

  /** Tells whether a text says that its writer has no answer, and next to nothing else. */
  private static boolean isNoAnswer(Answer own) {
    boolean said = false;
    int beside = 0;
    for (Answer.Said each : own.sentences()) {
      BitSet cue = new BitSet();
      for (CueMatch match : each.cues()) {
        if (match.type() == CueType.NON_ANSWER && match.family().equals(NO_ANSWER)) {
          cue.set(match.at().from(), match.at().to());
        }
      }
      said |= !cue.isEmpty();
      for (int i = 0; i < each.sentence().size(); i++) {
        Token token = each.sentence().tokens().get(i);
        // A single letter is a label; "2" may be one, or an answer.
        boolean word = token.isNumber() || (token.isWord() && token.form().length() > 1);
        beside += word && !cue.get(i) ? 1 : 0;
      }
    }
    return said && beside <= BESIDE;
  }

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
    if (isNoAnswer(own)) {
      return Optional.of(Closed.NO_ANSWER);
    }
    boolean value =
        kind != DemandKind.CALCULATE
            || all.sentences().stream()
                .anyMatch(said -> !NumberWords.find(said.sentence().tokens()).isEmpty());
    return value ? Optional.empty() : Optional.of(Closed.NO_VALUE);
  }
}
