package everypart.analyzer.prompt;

import everypart.lexicon.DemandKind;
import everypart.lexicon.TaskRule;
import everypart.lexicon.TaskVerbs;
import everypart.lexicon.WordLine;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * How many a demand asks for: a number beside its object, "each" of a number named or of listed
 * items, a pair of one kind ("one advantage and one disadvantage"), objects joined by "and".
 */
final class Counter {
  /** How many words may stand between a demand and what counts it. Chosen by eye. */
  private static final int NEAR = 10;

  /** An item of a list has at most so many words. Chosen by eye. */
  private static final int LONGEST_ITEM = 8;

  private final AskedSentence at;
  private final TaskVerbs verbs;
  private final WordLine line;
  private final Numbers numbers;
  private final List<Demand> before;
  private final DemandKind kind;
  private final int from;
  private final int object;
  private final int end;
  private final int listed;
  private final int items;

  /**
   * Makes a counter.
   *
   * @param numbers what was counted so far
   * @param before the demands read before
   * @param kind what the demand asks for
   * @param head where it begins
   * @param end where it ends
   * @param items how many items are listed below the sentence
   */
  Counter(
      AskedSentence at,
      Numbers numbers,
      List<Demand> before,
      DemandKind kind,
      Head head,
      int end,
      int items) {
    this.at = at;
    this.verbs = at.verbs();
    this.line = at.line();
    this.numbers = numbers;
    this.before = before;
    this.kind = kind;
    this.from = head.from();
    this.object = head.object();
    this.end = end;
    this.listed = listedItems();
    this.items = items;
  }

  /**
   * How many, and what says so.
   *
   * @param number at least 1
   */
  record Count(int number, CountSource source) {
    static final Count ONE = new Count(1, CountSource.UNSAID);

    static Count of(int number, CountSource source) {
      return number > 1 ? new Count(number, source) : ONE;
    }
  }

  /**
   * Counts.
   *
   * @param rule the rule that the demand was read by
   */
  Count count(Optional<TaskRule> rule) {
    Optional<Integer> fixed = rule.flatMap(TaskRule::count);
    if (fixed.isPresent()) {
      return Count.of(fixed.get(), CountSource.PAIR);
    }
    if (kind == DemandKind.JUSTIFY) {
      return grounds();
    }
    if (kind == DemandKind.COMPARE) {
      OptionalInt number = rule.isEmpty() ? respects() : stated();
      return Count.of(number.orElse(1), CountSource.NUMBER);
    }
    if (isPair()) {
      return Count.of(2, CountSource.PAIR);
    }
    if (listed > 1) {
      return Count.of(listed, CountSource.LISTED);
    }
    int each = each();
    if (each > 1) {
      return Count.of(each, CountSource.EACH);
    }
    OptionalInt stated = stated();
    if (stated.isPresent()) {
      return Count.of(stated.getAsInt(), CountSource.NUMBER);
    }
    int of = numberOfThings();
    if (of > 1) {
      return Count.of(of, CountSource.NUMBER);
    }
    int pointedAt = pointedAt();
    return pointedAt > 1
        ? Count.of(pointedAt, CountSource.EACH)
        : Count.of(joinedObjects(), CountSource.JOINED);
  }

  /** The number of grounds: any number in the clause, or one for each claim before it. */
  private Count grounds() {
    for (int i = Math.max(at.start(), from - 3); i < from; i++) {
      if (isEach(i) && at.form(i - 1).equals("for")) {
        return Count.of(claimsBefore(), CountSource.EACH); // "and for each one explain why"
      }
    }
    for (int i = from; i < end; i++) {
      boolean eachOfThem = isEach(i) && (at.is(i + 1, "ownAnswer") || !isWord(i + 1));
      if (eachOfThem || at.form(i).equals("both")) {
        return Count.of(claimsBefore(), CountSource.EACH);
      }
      OptionalInt number = numbers.at(line, i);
      boolean names = at.form(i - 1).equals("the") || at.form(i + 1).equals("and");
      if (number.isPresent() && !names) { // "tells the two apart", "tubes 2 and 3"
        return Count.of(number.getAsInt(), CountSource.NUMBER);
      }
    }
    int used = usedBefore();
    return used > 1
        ? Count.of(used, CountSource.NUMBER)
        : Count.of(openingEach(), CountSource.EACH);
  }

  /** "Use two facts to support your answer": the number stands before the verb. */
  private int usedBefore() {
    for (int i = at.start() + 1; i + 1 < from; i++) {
      OptionalInt number = numbers.at(line, i);
      for (int k = i + 1; number.isPresent() && k < Math.min(from, i + 4); k++) {
        if (at.is(k, "ground") && !at.form(i - 1).equals("the")) {
          return number.getAsInt();
        }
      }
    }
    return 1;
  }

  /** How many answers the demands of one kind right before ask for. */
  private int claimsBefore() {
    int sum = 0;
    int last = before.size() - 1;
    for (int i = last; i >= 0 && before.get(i).kind() == before.get(last).kind(); i--) {
      sum += before.get(i).count();
    }
    return sum;
  }

  private boolean isPair() {
    for (int i = from; i < Math.min(end, object + NEAR); i++) {
      if (verbs.pair(line, i).isPresent()) {
        return true;
      }
    }
    return false;
  }

  /** A number right at the object, and those joined to it: "two topics and one example". */
  private OptionalInt stated() {
    if (isChoiceOf() || at.is(from, "oneReason")) {
      return OptionalInt.empty(); // "why are the two readings different" has one answer
    }
    int i = object;
    int limit = Math.min(end, object + 7);
    while (i < limit && (at.is(i, "beforeNumber") || isPossessive(i))) {
      if (at.form(i + 1).equals("of")) {
        return OptionalInt.empty(); // "which of the three" is one
      }
      i++;
    }
    if (i < limit && at.is(i, "atLeastTwo")) {
      return OptionalInt.of(2);
    }
    OptionalInt number = i < limit ? numbers.at(line, i) : OptionalInt.empty();
    if (number.isEmpty()) {
      return OptionalInt.empty();
    }
    int sum = number.getAsInt();
    for (int k = i + 1; k + 1 < end; k++) {
      sum += at.form(k).equals("and") ? numbers.at(line, k + 1).orElse(0) : 0;
    }
    return OptionalInt.of(sum);
  }

  /** "Compare the caves in two respects." */
  private OptionalInt respects() {
    for (int i = object; i + 2 < end; i++) {
      if (at.form(i).equals("in") && at.is(i + 2, "respect")) {
        return numbers.at(line, i + 1);
      }
    }
    return OptionalInt.empty();
  }

  /** "Which of the two islands ...?" wants one. */
  private boolean isChoiceOf() {
    return at.form(object).equals("of");
  }

  /** "the writer's three objections": the owner stands before the number. */
  private boolean isPossessive(int i) {
    return at.form(i).endsWith("'s") || at.form(i).endsWith("s'");
  }

  private boolean isEach(int i) {
    return at.form(i).equals("each") || at.form(i).equals("every");
  }

  /** "For each of the mutants, ..." before the verb. */
  private int openingEach() {
    for (int i = at.start(); i < Math.min(from, at.start() + 4); i++) {
      if (isEach(i)) {
        return eachAt(i);
      }
    }
    return 1;
  }

  private int each() {
    int opening = openingEach();
    if (opening > 1) {
      return opening;
    }
    for (int i = object; i < end; i++) {
      if (isEach(i)) {
        boolean rate = kind == DemandKind.CALCULATE && at.form(i - 1).equals("for");
        if (rate || at.is(i + 1, "period")) {
          continue; // "how much for each one", "each year"
        }
        return eachAt(i);
      }
      if (at.form(i).equals("following") && items > 1) {
        return items;
      }
      if (at.is(i, "ofOrFor") && at.form(i + 1).equals("both")) {
        return 2;
      }
    }
    return 1;
  }

  /** How many "each" at a token stands for. */
  private int eachAt(int i) {
    int next = i + 1;
    if (at.form(next).equals("of")) {
      for (int k = next + 1; k < Math.min(line.size(), next + 5); k++) {
        OptionalInt number = numbers.at(line, k);
        if (number.isPresent() && number.getAsInt() > 1) {
          return number.getAsInt();
        }
      }
      next += 2;
    }
    if (items > 1) {
      return items;
    }
    for (int k = next; k < Math.min(line.size(), next + 3); k++) {
      OptionalInt named = numbers.of(line.stem(k));
      if (named.isPresent()) {
        return named.getAsInt();
      }
    }
    boolean alone = !isWord(next) || at.form(next).equals("one") || at.is(next, "aux");
    return alone ? numbers.last().orElse(1) : 1;
  }

  private boolean isWord(int i) {
    return !at.form(i).isEmpty() && Character.isLetter(at.form(i).charAt(0));
  }

  /** "the functions of the three membranes". */
  private int numberOfThings() {
    boolean names = kind == DemandKind.DESCRIBE || kind == DemandKind.IDENTIFY;
    if (isChoiceOf() || at.is(object, "choosing") || !names) {
      return 1;
    }
    for (int i = object; i + 2 < Math.min(end, object + NEAR); i++) {
      OptionalInt number = at.form(i).equals("of") ? numbers.at(line, i + 2) : OptionalInt.empty();
      if (number.isPresent()) {
        return number.getAsInt();
      }
    }
    return 1;
  }

  /** "What are these classes", where "three classes" stands before. */
  private int pointedAt() {
    for (int i = object; i + 1 < Math.min(end, object + 4); i++) {
      if (at.is(i, "pointingTo")) {
        return numbers.of(line.stem(i + 1)).orElse(1);
      }
    }
    return 1;
  }

  /** "the loss of mass and the time taken", "what happens to X and to Y": one each. */
  private int joinedObjects() {
    if (object < end && at.form(end - 2).equals("respectively")) {
      return 2;
    }
    boolean phrase = at.is(object, "det");
    boolean of = false;
    int joined = 1;
    for (int i = object; i + 1 < end && !at.is(i, "unsplit"); i++) {
      of |= at.form(i).equals("of");
      boolean joins = at.form(i).equals("and") || (at.form(i).equals(",") && seriesGoesOn(i + 1));
      int next = i + 1;
      if (joins
          && (at.is(next, "joinedPrep")
              || (phrase && at.is(next, "phraseOpeners"))
              || (kind == DemandKind.DEFINE && !of && isTermAt(next)))) {
        joined++;
      }
    }
    return joined;
  }

  /** Tells whether "and" ends the series that a comma begins: "the mean, the median and". */
  private boolean seriesGoesOn(int from) {
    for (int i = from; i + 1 < Math.min(end, from + LONGEST_ITEM); i++) {
      if (at.form(i).equals("and")) {
        return true;
      }
    }
    return false;
  }

  /** "Define norms and values": one or two words up to the end or a mark. */
  private boolean isTermAt(int i) {
    return !isWord(i + 1) || !isWord(i + 2);
  }

  /** Counts the items of a list in the sentence: "these terms: a, b, and c". */
  private int listedItems() {
    boolean announced = false;
    for (int i = at.start(); i < at.size(); i++) {
      if (at.form(i).equals(":")) {
        return announced ? listLength(i + 1) : 0;
      }
      announced |= at.is(i, "announcesItems");
    }
    return 0;
  }

  /** Returns how many items a list has, as in "main bronchus, trachea, alveoli, and acinus". */
  private int listLength(int colon) {
    int length = 0;
    boolean ink = false;
    for (int i = colon; i < at.size(); i++) {
      boolean parts = at.is(i, "partsItems");
      length += parts && ink ? 1 : 0;
      ink = !parts;
    }
    return length + (ink ? 1 : 0);
  }
}
