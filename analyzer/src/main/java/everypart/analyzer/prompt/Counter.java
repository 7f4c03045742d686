package everypart.analyzer.prompt;

import everypart.lexicon.DemandKind;
import everypart.lexicon.TaskRule;
import everypart.lexicon.TaskVerbs;
import everypart.lexicon.WordLine;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;

/**
 * How many a demand asks for: a number beside its object, "each" of a number named or of listed
 * items, a pair of one kind ("one advantage and one disadvantage").
 */
final class Counter {
  private static final Set<DemandKind> DISCRETE =
      EnumSet.of(DemandKind.PREDICT, DemandKind.CALCULATE, DemandKind.IDENTIFY, DemandKind.DEFINE);
  private static final Set<DemandKind> LISTING =
      EnumSet.complementOf(
          EnumSet.of(
              DemandKind.COMPARE, DemandKind.REPRESENT, DemandKind.EVALUATE, DemandKind.PROPOSE));
  private static final Set<DemandKind> CLAIMS =
      EnumSet.of(
          DemandKind.PREDICT, DemandKind.IDENTIFY, DemandKind.CALCULATE, DemandKind.EVALUATE);
  private static final int NEAR = 10;

  private final TaskVerbs verbs;
  private final WordLine line;
  private final Numbers numbers;
  private final List<Demand> before;
  private final DemandKind kind;
  private final int from;
  private final int object;
  private final int end;
  private final int start;

  /**
   * Makes a counter.
   *
   * @param numbers what was counted so far
   * @param before the demands read before
   * @param kind what the demand asks for
   * @param head where it begins
   * @param end where it ends
   */
  Counter(
      AskedSentence at, Numbers numbers, List<Demand> before, DemandKind kind, Head head, int end) {
    this.verbs = at.verbs();
    this.line = at.line();
    this.numbers = numbers;
    this.before = before;
    this.kind = kind;
    this.from = head.from();
    this.object = head.object();
    this.end = end;
    this.start = at.start();
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
   * @param listed how many items the sentence lists behind a colon
   * @param items how many items are listed below the sentence
   */
  Count count(Optional<TaskRule> rule, int listed, int items) {
    Optional<Integer> fixed = rule.flatMap(TaskRule::count);
    if (fixed.isPresent()) {
      return Count.of(fixed.get(), CountSource.PAIR);
    }
    if (kind == DemandKind.JUSTIFY) {
      return grounds();
    }
    int pair = pair();
    if (pair > 1) {
      return Count.of(pair, CountSource.PAIR);
    }
    boolean verbCompares = kind == DemandKind.COMPARE && rule.isEmpty();
    OptionalInt stated = verbCompares ? respects() : stated();
    int number = stated.orElse(1);
    int each = each(listed, items);
    if (each > 1) {
      return Count.of(
          stated.isPresent() && number > 1 && !eachInOpening() ? Math.max(number, each) : each,
          CountSource.EACH);
    }
    if (stated.isPresent()) {
      return Count.of(number, CountSource.NUMBER);
    }
    if (listed > 1 && kind != DemandKind.COMPARE && kind != DemandKind.PROPOSE) {
      return Count.of(listed, CountSource.LISTED);
    }
    if (kind == DemandKind.COMPARE) {
      return Count.ONE;
    }
    int of = numberOfThings();
    if (of > 1) {
      return Count.of(of, CountSource.NUMBER);
    }
    if (pointedAt() > 1) {
      return Count.of(pointedAt(), CountSource.EACH);
    }
    return Count.of(joinedObjects(), CountSource.JOINED);
  }

  /** The number of grounds: any number in the clause, or one for each claim before it. */
  private Count grounds() {
    for (int i = Math.max(start, from - 3); i < from; i++) {
      if (isEach(i) && i > 0 && line.form(i - 1).equals("for")) {
        return Count.of(claimsBefore(), CountSource.EACH); // "and for each one explain why"
      }
    }
    for (int i = from; i < end; i++) {
      if ((isEach(i) && i + 1 < line.size() && verbs.isIn("ownAnswer", line.form(i + 1)))
          || (isEach(i) && i + 1 >= end)
          || line.form(i).equals("both")) {
        return Count.of(claimsBefore(), CountSource.EACH);
      }
      if (line.form(i).equals("for") && i + 1 < end && line.form(i + 1).equals("each")) {
        return Count.of(claimsBefore(), CountSource.EACH);
      }
      OptionalInt number = numbers.at(line, i);
      boolean figure = Character.isDigit(line.form(i).charAt(0));
      if (number.isPresent()
          && i + 1 < line.size()
          && !line.form(i - 1).equals("the") // "tells the two apart"
          && !(figure && (!isWord(i + 1) || line.form(i + 1).equals("and")))) {
        return Count.of(number.getAsInt(), CountSource.NUMBER);
      }
    }
    return usedBefore()
        .map(number -> Count.of(number, CountSource.NUMBER))
        .or(() -> eachBefore().map(number -> Count.of(number, CountSource.EACH)))
        .orElse(Count.ONE);
  }

  private Optional<Integer> eachBefore() {
    OptionalInt each = openingEach();
    return each.isPresent() ? Optional.of(each.getAsInt()) : Optional.empty();
  }

  /** "Use two facts to support your answer": the number stands before the verb. */
  private Optional<Integer> usedBefore() {
    if (start >= from || !Set.of("use", "using").contains(line.form(start))) {
      return Optional.empty();
    }
    for (int i = start + 1; i + 1 < from; i++) {
      OptionalInt number = numbers.at(line, i);
      for (int k = i + 1; number.isPresent() && k < Math.min(from, i + 4); k++) {
        if (verbs.isIn("ground", line.form(k)) && !line.form(i - 1).equals("the")) {
          return Optional.of(number.getAsInt());
        }
      }
    }
    return Optional.empty();
  }

  private int claimsBefore() {
    int sum = 0;
    for (int i = before.size() - 1; i >= 0 && CLAIMS.contains(before.get(i).kind()); i--) {
      if (i < before.size() - 1 && before.get(i).kind() != before.get(before.size() - 1).kind()) {
        break;
      }
      sum += before.get(i).count();
    }
    return sum;
  }

  private int pair() {
    for (int i = from; i < Math.min(end, object + NEAR); i++) {
      OptionalInt pair = verbs.pair(line, i);
      if (pair.isPresent() && pair.getAsInt() <= end && kind != DemandKind.COMPARE) {
        return 2;
      }
    }
    return 1;
  }

  /** A number right at the object, and those joined to it: "two topics and one example". */
  private OptionalInt stated() {
    if (isChoiceOf() || verbs.isIn("oneReason", line.form(from))) {
      return OptionalInt.empty(); // "why are the two readings different" has one answer
    }
    int i = object;
    int limit = Math.min(end, object + 7);
    while (i < limit
        && numbers.at(line, i).isEmpty()
        && !line.form(i).equals("both")
        && !line.form(i).equals("several")
        && !line.form(i).equals("couple")
        && (verbs.isIn("beforeNumber", line.form(i))
            || verbs.isAdverb(line.form(i))
            || isPossessive(i))) {
      boolean choice = Set.of("which", "what").contains(line.form(i));
      if (choice && i + 1 < end && line.form(i + 1).equals("of")) {
        return OptionalInt.empty(); // "which of the three" is one
      }
      i++;
    }
    if (i >= limit) {
      return OptionalInt.empty();
    }
    if (line.form(i).equals("both") && kind != DemandKind.COMPARE) {
      return OptionalInt.of(2);
    }
    if (kind != DemandKind.COMPARE) {
      if (line.form(i).equals("several")
          || (line.form(i).equals("couple") && line.form(i - 1).equals("a"))) {
        return OptionalInt.of(2);
      }
    }
    OptionalInt number = numbers.at(line, i);
    if (number.isEmpty()
        || i + 1 >= line.size()
        || (line.form(i + 1).equals("of") && i + 2 >= end)) {
      return OptionalInt.empty();
    }
    int sum = number.getAsInt();
    for (int k = i + 1; k + 1 < end; k++) {
      if (line.form(k).equals("and") || line.form(k).equals(",")) {
        int next = line.form(k + 1).equals("and") || line.form(k + 1).equals("at") ? k + 2 : k + 1;
        OptionalInt more = next < end ? numbers.at(line, next) : OptionalInt.empty();
        sum += more.orElse(0);
        k = more.isPresent() ? next : k;
      }
    }
    return OptionalInt.of(sum);
  }

  /** "Compare the caves in two respects." */
  private OptionalInt respects() {
    for (int i = object; i + 2 < line.size() && i + 2 < end; i++) {
      if (line.form(i).equals("in") && verbs.isIn("respect", line.form(i + 2))) {
        return numbers.at(line, i + 1);
      }
    }
    return OptionalInt.empty();
  }

  /** "Which of the two islands ...?" wants one. */
  private boolean isChoiceOf() {
    return object > 0
        && object < end
        && line.form(object).equals("of")
        && Set.of("which", "who").contains(line.form(object - 1));
  }

  /** "the writer's three objections": the owner stands before the number. */
  private boolean isPossessive(int i) {
    String form = line.form(i);
    boolean parted = i + 1 < line.size() && line.form(i + 1).equals("'s");
    return form.endsWith("'s") || form.endsWith("s'") || form.equals("'") || parted;
  }

  private boolean isEach(int i) {
    return line.form(i).equals("each") || line.form(i).equals("every");
  }

  private boolean eachInOpening() {
    return openingEach().isPresent();
  }

  /** "For each of the mutants, ..." before the verb. */
  private OptionalInt openingEach() {
    if (start < line.size() && line.form(start).equals("for")) {
      for (int i = start + 1; i < Math.min(from, start + 4); i++) {
        if (isEach(i) || line.form(i).equals("both")) {
          int n =
              line.form(i).equals("both")
                  ? 2
                  : eachAt(i, Math.max(listInOpening(i), listedBehind), itemsBelow);
          return n > 1 ? OptionalInt.of(n) : OptionalInt.empty();
        }
      }
    }
    return OptionalInt.empty();
  }

  private int itemsBelow;
  private int listedBehind;

  private int listInOpening(int each) {
    int to = each;
    while (to < from && !verbs.verbAt(line, to).isPresent()) {
      to++;
    }
    return listLength(line, each + 1, Math.max(each + 1, to - 1));
  }

  private int each(int listed, int items) {
    itemsBelow = items;
    listedBehind = listed;
    if (kind == DemandKind.COMPARE || kind == DemandKind.REPRESENT) {
      return 1;
    }
    OptionalInt opening = openingEach();
    if (opening.isPresent()) {
      return opening.getAsInt();
    }
    for (int i = object; i < end; i++) {
      if (isEach(i)) {
        if (i + 1 < line.size() && verbs.isIn("period", line.form(i + 1))) {
          continue; // "each year"
        }
        if (kind == DemandKind.CALCULATE && line.form(i - 1).equals("for")) {
          boolean of = i + 1 < line.size() && line.form(i + 1).equals("of");
          if (!of) {
            continue; // "how much for each one": a rate
          }
        }
        int list = listed > 1 ? listed : 1;
        return eachAt(i, list, items);
      }
      if (line.form(i).equals("following") && Math.max(listed, items) > 1) {
        return Math.max(listed, items);
      }
      if (i + 1 < end
          && Set.of("of", "for").contains(line.form(i))
          && line.form(i + 1).equals("both")) {
        return 2;
      }
    }
    return 1;
  }

  /** How many "each" at a token stands for. */
  private int eachAt(int i, int listed, int items) {
    int next = i + 1;
    if (next < line.size() && line.form(next).equals("of")) {
      for (int k = next + 1; k < Math.min(line.size(), next + 5); k++) {
        OptionalInt number = numbers.at(line, k);
        if (number.isPresent() && number.getAsInt() > 1) {
          return number.getAsInt();
        }
        if (line.form(k).equals("following")) {
          return Math.max(Math.max(listed, items), 1);
        }
        if (Set.of("these", "them", "those").contains(line.form(k))
            && (k + 1 >= end || !numbers.of(line.stem(k + 1)).isPresent())) {
          return Math.max(items, fromBefore());
        }
      }
      if (listed > 1) {
        return listed;
      }
      next += 2;
    }
    if (Math.max(listed, items) > 1) {
      return Math.max(listed, items);
    }
    for (int k = next; k < Math.min(line.size(), next + 3); k++) {
      OptionalInt named = numbers.of(line.stem(k));
      if (named.isPresent() && isWord(k)) {
        return named.getAsInt();
      }
    }
    boolean alone =
        next >= line.size()
            || !isWord(next)
            || line.form(next).equals("one")
            || verbs.isIn("aux", line.form(next))
            || next >= end;
    return alone ? fromBefore() : 1;
  }

  private boolean isWord(int i) {
    return Character.isLetter(line.form(i).charAt(0));
  }

  /** "each one": of what the demand before asked for, else of the last number named. */
  private int fromBefore() {
    if (!before.isEmpty() && before.get(before.size() - 1).count() > 1) {
      return before.get(before.size() - 1).count();
    }
    return numbers.last().orElse(1);
  }

  /** "the functions of the three membranes". */
  private int numberOfThings() {
    if (isChoiceOf()) {
      return 1;
    }
    if (object < end && Set.of("which", "what").contains(line.form(object))) {
      return 1;
    }
    if (kind != DemandKind.DESCRIBE && kind != DemandKind.IDENTIFY && kind != DemandKind.DEFINE) {
      return 1;
    }
    for (int i = object; i + 2 < Math.min(end, object + NEAR); i++) {
      if (line.form(i).equals("of")
          && Set.of("the", "these", "those", "each").contains(line.form(i + 1))) {
        OptionalInt number = numbers.at(line, i + 2);
        if (number.isPresent()) {
          return number.getAsInt();
        }
      }
    }
    return 1;
  }

  /** "What are these classes", where "three classes" stands before. */
  private int pointedAt() {
    for (int i = object; i + 1 < Math.min(end, object + 4); i++) {
      if (Set.of("these", "those").contains(line.form(i)) && kind == DemandKind.IDENTIFY) {
        return numbers.of(line.stem(i + 1)).orElse(1);
      }
      if (line.form(i).equals("respectively")) {
        return 2;
      }
    }
    return 1;
  }

  /** "the loss of mass and the time taken", "what happens to X and to Y": one each. */
  private int joinedObjects() {
    if (object >= end || !LISTING.contains(kind)) {
      return 1;
    }
    if (line.form(end - 1).equals("respectively")
        || (end > object + 1 && line.form(end - 2).equals("respectively"))) {
      return 2;
    }
    boolean discrete = DISCRETE.contains(kind);
    boolean phrase = verbs.isIn("det", line.form(object));
    int joined = 1;
    boolean of = false;
    boolean closed = false;
    for (int i = object; i + 1 < end; i++) {
      String form = line.form(i);
      if (verbs.isIn("unsplit", form)) {
        break; // "the difference between those in the hills and in the valley"
      }
      if (verbs.isIn("endsObjects", form)) {
        closed = true;
      }
      of |= form.equals("of");
      boolean comma = form.equals(",");
      if (!form.equals("and") && !(comma && seriesGoesOn(i))) {
        continue;
      }
      int next = line.form(i + 1).equals("and") ? i + 2 : i + 1;
      if (next + 1 >= end) {
        continue;
      }
      String opens = line.form(next);
      boolean stands = opens.equals("that") && line.form(next + 1).equals("of");
      boolean same = verbs.isIn("det", opens) && opensAgain(next);
      boolean again = verbs.isIn("joinedPrep", opens) && hasBefore(opens, i);
      if (stands || same || again) {
        joined++;
      } else if (closed || !discrete) {
        continue;
      } else if (phrase
          && opensPhrase(next)
          && (kind != DemandKind.IDENTIFY || !of || hasComplement(next))) {
        joined++;
      } else if (kind == DemandKind.DEFINE && !of && isTermAt(next)) {
        joined++;
      }
      i = next - 1;
    }
    return joined;
  }

  private boolean opensPhrase(int i) {
    return verbs.isIn("phraseOpeners", line.form(i));
  }

  /** Tells whether a comma parts items of a series that "and" ends: "the mean, the median and". */
  private boolean seriesGoesOn(int comma) {
    if (!opensPhrase(comma + 1)) {
      return false;
    }
    for (int i = comma + 1; i + 1 < Math.min(end, comma + 8); i++) {
      if (line.form(i).equals("and")) {
        return opensPhrase(i + 1);
      }
    }
    return false;
  }

  /**
   * Tells whether a phrase begins with a determiner and a noun that were there: "the part ... the
   * part".
   */
  private boolean opensAgain(int at) {
    for (int i = object; i + 1 < at - 1; i++) {
      boolean start = i == object || line.form(i - 1).equals(",");
      if (start
          && line.form(i).equals(line.form(at))
          && (line.form(i + 1).equals(line.form(at + 1)) || sharesNoun(i, at))) {
        return true;
      }
    }
    return false;
  }

  /** "an economic effect and a social effect": the same noun behind another word. */
  private boolean sharesNoun(int one, int other) {
    return other + 2 < line.size()
        && one + 2 < other
        && line.stem(one + 2).equals(line.stem(other + 2))
        && isWord(one + 2);
  }

  /** Tells whether a noun has words of its own behind it: "the audience he speaks to". */
  private boolean hasComplement(int determiner) {
    return determiner + 2 < end && isWord(determiner + 2);
  }

  /** "Define norms and values": one or two words up to the end or a mark. */
  private boolean isTermAt(int i) {
    for (int k = i; k < Math.min(line.size(), i + 3); k++) {
      if (k > i && (k >= end || !isWord(k))) {
        return true;
      }
      if (k >= end || !isWord(k) || verbs.isAdverb(line.form(k))) {
        return false;
      }
    }
    return i + 3 > end;
  }

  private boolean hasBefore(String form, int place) {
    for (int i = object; i < place; i++) {
      if (line.form(i).equals(form)) {
        return true;
      }
    }
    return false;
  }

  /** Counts the items of a list in the sentence: "these terms: a, b, and c". */
  static int listedItems(AskedSentence at) {
    int colon = -1;
    boolean announced = false;
    for (int i = at.start(); i < at.size(); i++) {
      String form = at.form(i);
      if (form.equals(":")) {
        colon = i;
        break;
      }
      announced |= Set.of("following", "these", "each", "terms", "words").contains(form);
    }
    boolean usedOnly =
        at.verbs().isOpening(at.form(at.start())) && at.form(at.start()).startsWith("us");
    if (colon < 0 || !announced || usedOnly) {
      return 0;
    }
    return listLength(at.line(), colon + 1, at.size());
  }

  /** Returns how many items a list has, as in "main bronchus, trachea, alveoli, and acinus". */
  static int listLength(WordLine line, int from, int to) {
    int items = 0;
    boolean ink = false;
    for (int i = from; i < to; i++) {
      String form = line.form(i);
      if (form.equals(",") || form.equals("and") || form.equals(";")) {
        items += ink ? 1 : 0;
        ink = false;
      } else if (form.equals(".") || form.equals("?")) {
        break;
      } else {
        ink = true;
      }
    }
    return items + (ink ? 1 : 0);
  }
}
