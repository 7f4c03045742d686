package everypart.analyzer.prompt;

import everypart.analyzer.text.Span;
import everypart.lexicon.AnswerForm;
import everypart.lexicon.Aspect;
import everypart.lexicon.DemandKind;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.UnaryOperator;

/**
 * How a demand is worded: everything that reading its words found beside its kind and count. Read
 * once; no other room reads the wording again. Spans count in the prompt's text.
 *
 * @param form the form of the answer
 * @param options the words of each option when the form is {@link AnswerForm#OPTION}
 * @param setUp the sentences of the part that tell something and ask nothing
 * @param condition the words of the case that the demand supposes or limits itself to
 * @param aspects what it asks for beside its kind
 * @param counted where its count is from
 * @param claim the demand whose answer a {@link DemandKind#JUSTIFY} is to ground
 * @param alternatives other words that ask for the same and may be met instead
 * @param other the other reading, where two are near each other
 */
public record Asking(
    AnswerForm form,
    List<String> options,
    List<Span> setUp,
    Optional<Span> condition,
    Set<Aspect> aspects,
    CountSource counted,
    Optional<Claim> claim,
    List<Span> alternatives,
    Optional<OtherReading> other) {
  /**
   * A reading that the words allow as well.
   *
   * @param kind what they may ask for
   * @param count how many
   */
  public record OtherReading(DemandKind kind, int count) {}

  /**
   * A demand by its place.
   *
   * @param part the label of its part
   * @param place its place in the part, from 0
   */
  public record Claim(String part, int place) {}

  /** Copies the lists. */
  public Asking {
    options = List.copyOf(options);
    setUp = List.copyOf(setUp);
    aspects = Set.copyOf(aspects);
    alternatives = List.copyOf(alternatives);
  }

  /** Returns what the kind alone tells. */
  public static Asking of(DemandKind kind) {
    AnswerForm form =
        switch (kind) {
          case IDENTIFY -> AnswerForm.NAME;
          case CALCULATE -> AnswerForm.QUANTITY;
          default -> AnswerForm.OPEN;
        };
    return of(form, List.of(), Optional.empty(), Set.of(), CountSource.UNSAID);
  }

  static Asking of(
      AnswerForm form,
      List<String> options,
      Optional<Span> condition,
      Set<Aspect> aspects,
      CountSource counted) {
    return new Asking(
        form,
        options,
        List.of(),
        condition,
        aspects,
        counted,
        Optional.empty(),
        List.of(),
        Optional.empty());
  }

  Asking withSetUp(List<Span> told) {
    return new Asking(form, options, told, condition, aspects, counted, claim, alternatives, other);
  }

  Asking withCounted(CountSource source) {
    return new Asking(form, options, setUp, condition, aspects, source, claim, alternatives, other);
  }

  Asking withClaim(Claim grounded) {
    return new Asking(
        form,
        options,
        setUp,
        condition,
        aspects,
        counted,
        Optional.of(grounded),
        alternatives,
        other);
  }

  Asking withOther(Optional<OtherReading> reading) {
    return new Asking(
        form, options, setUp, condition, aspects, counted, claim, alternatives, reading);
  }

  Asking withAlternatives(List<Span> others) {
    return new Asking(form, options, setUp, condition, aspects, counted, claim, others, other);
  }

  /**
   * Returns this wording, completed by what a second reading of the same words as another kind
   * found.
   */
  Asking besides(Asking other) {
    boolean chosen =
        EnumSet.of(AnswerForm.YES_NO, AnswerForm.OPTION, AnswerForm.WHICH, AnswerForm.DEGREE)
            .contains(other.form);
    return new Asking(
        chosen ? other.form : form,
        other.options,
        other.setUp,
        other.condition,
        other.aspects,
        counted,
        claim,
        other.alternatives,
        Optional.empty());
  }

  /** Returns this with every span put somewhere else. */
  Asking moved(UnaryOperator<Span> move) {
    return new Asking(
        form,
        options,
        setUp.stream().map(move).toList(),
        condition.map(move),
        aspects,
        counted,
        claim,
        alternatives.stream().map(move).toList(),
        other);
  }
}
