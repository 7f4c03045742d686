package everypart.analyzer.prompt;

import everypart.lexicon.DemandKind;
import everypart.lexicon.TaskMatch;
import everypart.lexicon.TaskRule;
import everypart.lexicon.TaskVerb;
import everypart.lexicon.TaskVerbs;
import everypart.lexicon.WordLine;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;

/** Finds the places in a sentence where demands begin. */
final class HeadFinder {
  /** What stands between a verb and its object has at most so many words. Chosen by eye. */
  private static final int LONGEST_INSERT = 14;

  /** Where a clause that may make a demand begins. */
  private enum Position {
    NONE,
    START,
    COMMA,
    CLAUSE,
    JOINED,
    LICENSED,
    TO
  }

  private final AskedSentence at;
  private final TaskVerbs verbs;
  private final WordLine line;
  private final int size;
  private final int start;
  private final boolean question;
  private final boolean opening;
  private final boolean aside;
  private final boolean bullet;
  private final BitSet closed;
  private final List<Demand> demands;
  private final boolean listAnnounced;
  private final BitSet licensed = new BitSet();
  private final List<Head> heads = new ArrayList<>();

  /**
   * Makes a finder.
   *
   * @param demands those of the sentences before
   * @param listAnnounced whether a sentence before announced a list of what the answer has to hold
   */
  HeadFinder(AskedSentence at, List<Demand> demands, boolean listAnnounced) {
    this.at = at;
    this.verbs = at.verbs();
    this.line = at.line();
    this.size = at.size();
    this.start = at.start();
    this.question = at.isQuestion();
    this.opening = at.isOpening();
    this.aside = at.isAside();
    this.bullet = at.isBullet();
    this.closed = at.closed();
    this.demands = demands;
    this.listAnnounced = listAnnounced;
  }

  private static Optional<Head> head(Head.Opening form, int i) {
    return Optional.of(Head.of(form, i));
  }

  List<Head> find() {
    findLicences();
    findDrawing();
    for (int i = start; i < size; i++) {
      if (closed.get(i)) {
        continue;
      }
      Optional<Head> head = headAt(i);
      if (head.isPresent()) {
        heads.add(head.get());
        i = Math.max(i, head.get().object() - 1);
      }
    }
    if (heads.isEmpty() && question) {
      findLateQuestion();
    }
    if (heads.isEmpty() && bullet && listAnnounced) {
      heads.add(new Head(Head.Opening.VERB, start, start, verbs.verb("include"), Optional.empty()));
    }
    dropLead();
    return List.copyOf(heads);
  }

  /** "Write a paragraph in which you describe ..." asks for what the paragraph holds. */
  private void dropLead() {
    while (heads.size() > 1
        && heads.get(0).isIn("writing")
        && !at.is(heads.get(1).from() - 1, "join")) {
      heads.remove(0);
    }
  }

  private void findLicences() {
    for (int i = start; i < size; i++) {
      OptionalInt end = verbs.licence(line, i);
      // "what would you need to measure" asks, it does not command
      if (end.isPresent() && !(question && at.is(i - 1, "aux"))) {
        licensed.set(end.getAsInt());
      }
    }
  }

  /** "Using a diagram, explain ..." asks for a drawing as well. */
  private void findDrawing() {
    for (int i = start; i < size && i <= start + 1; i++) {
      Optional<TaskMatch<TaskRule>> drawn = verbs.drawn(line, i);
      if (drawn.isPresent()) {
        heads.add(Head.trailer(drawn.get()));
        return;
      }
    }
  }

  private boolean hasDemandBefore() {
    return !heads.isEmpty() && !(heads.size() == 1 && isDrawnOpening(heads.get(0)));
  }

  private boolean isDrawnOpening(Head head) {
    return head.form() == Head.Opening.TRAILER && head.from() <= start + 1;
  }

  private Optional<Head> headAt(int i) {
    if (hasDemandBefore()) {
      Optional<TaskMatch<TaskRule>> trailer = verbs.trailer(line, i);
      if (trailer.isPresent()) {
        return trailer.map(Head::trailer);
      }
    }
    Position position = position(i);
    if (position == Position.NONE) {
      return Optional.empty();
    }
    boolean joined = position == Position.JOINED && hasDemandBefore();
    boolean tells = i == start ? aside : !joined && verbs.isAside(line, i);
    return (tells ? Optional.<Head>empty() : verb(i, position)).or(() -> question(i, position));
  }

  private Head lastHead() {
    return heads.get(heads.size() - 1);
  }

  private Position position(int i) {
    if (i == start) {
      return Position.START;
    }
    if (licensed.get(i)) {
      return Position.LICENSED;
    }
    int p = i - 1;
    while (p > start && verbs.isAdverb(line.form(p))) {
      p--;
    }
    p = beforeForEach(p);
    String before = line.form(p);
    if (before.equals("to")) {
      return Position.TO;
    }
    if (before.equals(",")) {
      return Position.COMMA;
    }
    if (verbs.isIn("join", before)) {
      return Position.JOINED;
    }
    if (verbs.isIn("clauseMark", before) || (closed.get(p) && at.isCapital(i))) {
      return Position.CLAUSE;
    }
    // "Use two facts in support of your choice."
    boolean supports = before.equals("in") && line.form(i).equals("support");
    return supports ? Position.LICENSED : Position.NONE;
  }

  /**
   * Returns the place before "for each" or "for each one" where it is joined and ends at a place.
   */
  private int beforeForEach(int p) {
    int each = at.form(p).equals("each") ? p : p - 1;
    boolean forEach = at.form(each).equals("each") && at.form(each - 1).equals("for");
    return forEach && at.is(each - 2, "join") ? each - 2 : p;
  }

  private Optional<Head> verb(int i, Position position) {
    Optional<TaskMatch<TaskVerb>> match = verbs.verbAt(line, i);
    if (match.isEmpty()) {
      return position == Position.START && question ? askedVerb(i) : Optional.empty();
    }
    TaskVerb verb = match.get().found();
    int after = match.get().range().to();
    // "Your answer should include:" asks for what is listed below it.
    return mayBegin(verb, i, after, position)
            && !verbs.announcesList(line, start)
            && !addsToDrawing(verb)
        ? Optional.of(Head.of(verb, i, skipInserts(after)))
        : Optional.empty();
  }

  /** "Include an ammeter" behind a drawing is about the drawing. */
  private boolean addsToDrawing(TaskVerb verb) {
    return verbs.isIn("addingTo", verb.form())
        && !demands.isEmpty()
        && demands.get(demands.size() - 1).kind() == DemandKind.REPRESENT;
  }

  /** "Can you explain why ...?" asks what the verb asks. */
  private Optional<Head> askedVerb(int i) {
    return at.is(i, "polite") && at.form(i + 1).equals("you") && i + 2 < size
        ? verbs
            .verbAt(line, i + 2)
            .filter(match -> verbs.isObjectStart(at.form(match.range().to())))
            .map(match -> Head.of(match.found(), i + 2, skipInserts(match.range().to())))
        : Optional.empty();
  }

  private boolean mayBegin(TaskVerb verb, int from, int after, Position position) {
    String next = at.form(after);
    boolean object = verbs.isObjectStart(next);
    boolean anywhere = verb.place() == TaskVerb.Place.ANYWHERE;
    boolean first = !hasDemandBefore();
    return switch (position) {
      case START -> anywhere || !verbs.isIn("nounSign", next) || joinsVerb(after);
      case LICENSED -> true;
      case CLAUSE -> anywhere || object;
      case COMMA -> (anywhere || object) && (!first || opening);
      case TO -> first ? opensInfinitive(verb) : isUsedTo(from);
      case JOINED -> first ? aside : endsBehind(after) || mayBeJoined(from, object, anywhere);
      case NONE -> false;
    };
  }

  /** "Name and briefly explain": a verb behind the verb. */
  private boolean joinsVerb(int after) {
    int i = after + 1;
    while (i < size && verbs.isAdverb(line.form(i))) {
      i++;
    }
    return i < size && verbs.isIn("join", line.form(after)) && verbs.verbAt(line, i).isPresent();
  }

  /** "Use the graph to find ..." asks to find; "use arrows to show ..." asks nothing. */
  private boolean opensInfinitive(TaskVerb verb) {
    return verbs.isIn("toVerbOpener", line.form(start)) && !verb.group().equals("showing");
  }

  /** "... and use the data to justify your choice". */
  private boolean isUsedTo(int from) {
    for (int i = from - 2; i > lastHead().from(); i--) {
      if (at.is(i, "join")) {
        return at.form(i + 1).startsWith("us");
      }
    }
    return false;
  }

  /** "... and justify.", "... and explain it.": nothing stands behind the verb that is joined. */
  private boolean endsBehind(int after) {
    return (at.is(after, "pointingBack") ? after + 1 : after) >= size - 1;
  }

  private boolean mayBeJoined(int from, boolean object, boolean anywhere) {
    if (!anywhere) {
      return object && !at.form(from + 1).equals("of"); // "the volume and color of the dye"
    }
    // "... can be used to find the gene and predict its function": one infinitive with the one
    // before it.
    boolean pointsBack = at.is(from + 1, "pointingBack");
    for (int i = lastHead().object(); i < from && pointsBack; i++) {
      object &= !line.form(i).equals("to");
    }
    return object || at.form(from - 2).equals(",");
  }

  /**
   * Returns where a verb's object begins, past "briefly", ", in terms of particles," and the like.
   */
  private int skipInserts(int from) {
    int i = from;
    boolean moved = true;
    while (moved && i < size) {
      moved = false;
      OptionalInt insert = verbs.insert(line, i);
      if (insert.isPresent()) {
        i = insert.getAsInt();
        moved = true;
      } else if (verbs.isAdverb(line.form(i)) && !line.form(i).equals("both")) {
        i++;
        moved = true;
      } else if (verbs.isIn("indirect", line.form(i)) && verbs.isObjectStart(at.form(i + 1))) {
        i++; // "tell her how ..."
        moved = true;
      } else if (line.form(i).equals(",")) {
        for (int k = i + 1; k < Math.min(size, i + LONGEST_INSERT); k++) {
          if (line.form(k).equals(",")) {
            i = k + 1;
            moved = true;
            break;
          }
        }
      }
    }
    return i;
  }

  private Optional<Head> question(int i, Position position) {
    boolean asked = at.isQuestionWord(i);
    return switch (position) {
      case START ->
          asked && (question ? startsQuestion(i) : startsBareQuestion(i))
              ? head(Head.Opening.QUESTION, i)
              : yesNo(i);
      case CLAUSE -> asked && question ? head(Head.Opening.QUESTION, i) : yesNo(i);
      case COMMA -> question ? behindComma(i, asked) : Optional.empty();
      case JOINED -> joinedQuestion(i, asked);
      default -> Optional.empty();
    };
  }

  private Optional<Head> yesNo(int i) {
    return question && at.is(i, "aux") ? head(Head.Opening.YES_NO, i) : Optional.empty();
  }

  /** "When a plant is kept in the dark, ..." is no question by its first word. */
  private boolean startsQuestion(int i) {
    return !at.is(i, "whenOrWhere") || at.inverted(i);
  }

  /** A question that its writer left without a mark: "How does the heart beat". */
  private boolean startsBareQuestion(int i) {
    boolean why = size - i <= 3 && at.form(i).equals("why");
    return why || (at.is(i + 1, "bareAux") && !at.form(i).equals("what"));
  }

  private Optional<Head> behindComma(int i, boolean asked) {
    if (!hasDemandBefore() && opening && at.is(i, "aux")) {
      return head(Head.Opening.YES_NO, i);
    }
    boolean asks = hasDemandBefore() ? at.is(i, "askingOn") : asked;
    return asks && at.inverted(i) ? head(Head.Opening.QUESTION, i) : Optional.empty();
  }

  private Optional<Head> joinedQuestion(int i, boolean asked) {
    if (at.is(i - 2, "questionWord")) {
      return Optional.empty(); // "why or why not"
    }
    if (asked && question) {
      return head(Head.Opening.QUESTION, i);
    }
    return hasDemandBefore() && at.is(i, "joinedQuestion")
        ? head(Head.Opening.INDIRECT, i)
        : Optional.empty();
  }

  /** "The enzyme stops working at which temperature?" */
  private void findLateQuestion() {
    for (int i = size - 1; i >= start; i--) {
      if (at.is(i, "questionWord")) {
        heads.add(Head.of(Head.Opening.QUESTION, i));
        return;
      }
    }
  }
}
