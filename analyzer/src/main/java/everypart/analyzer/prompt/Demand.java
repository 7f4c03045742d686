package everypart.analyzer.prompt;

import everypart.analyzer.text.Span;
import everypart.lexicon.DemandKind;
import java.util.List;
import java.util.Optional;
import java.util.function.UnaryOperator;

/**
 * One thing that a part asks for.
 *
 * @param kind what kind of answer it wants
 * @param verb the task verb or question form it was read from, as in "explain" or "why"
 * @param count how many are asked for, 1 when the prompt does not say
 * @param span the words it was read from, in the prompt's text
 * @param about what it is about, cleaned for display and for matching; empty when not known
 * @param points what a full answer mentions, when the author listed it
 * @param why how it was read, in plain words
 * @param standing whether it has to be met
 * @param asking how it is worded
 */
public record Demand(
    DemandKind kind,
    String verb,
    int count,
    Span span,
    String about,
    List<Point> points,
    String why,
    Standing standing,
    Asking asking) {
  /**
   * Copies the points.
   *
   * @throws IllegalArgumentException when the count is below 1
   */
  public Demand {
    points = List.copyOf(points);
    if (count < 1) {
      throw new IllegalArgumentException("a demand's count is at least 1, not " + count);
    }
  }

  /** Makes a demand that has to be met, and of whose wording no more is known. */
  public Demand(
      DemandKind kind,
      String verb,
      int count,
      Span span,
      String about,
      List<Point> points,
      String why) {
    this(kind, verb, count, span, about, points, why, Standing.REQUIRED, Asking.of(kind));
  }

  /** Returns this demand, read from other words. */
  Demand at(Span words) {
    return new Demand(kind, verb, count, words, about, points, why, standing, asking);
  }

  /** Returns this demand with every span put somewhere else. */
  Demand moved(UnaryOperator<Span> move) {
    return at(move.apply(span)).worded(asking.moved(move));
  }

  /** Returns this demand with another count, and why it is that. */
  Demand times(int number, CountSource source, String reason) {
    return new Demand(
        kind,
        verb,
        number,
        span,
        about,
        points,
        why + reason,
        standing,
        asking.withCounted(source));
  }

  /** Returns this demand with something more to say of how it was read. */
  Demand saying(String more) {
    return new Demand(kind, verb, count, span, about, points, why + more, standing, asking);
  }

  /** Returns this demand with another standing, and why it has it. */
  Demand as(Standing other, String reason) {
    return new Demand(kind, verb, count, span, about, points, why + reason, other, asking);
  }

  /** Returns this demand with its other reading. */
  Demand alsoRead(Asking.OtherReading other) {
    return worded(asking.withOther(Optional.of(other)));
  }

  /** Returns this demand with what is known of its wording. */
  Demand worded(Asking wording) {
    return new Demand(kind, verb, count, span, about, points, why, standing, wording);
  }
}
