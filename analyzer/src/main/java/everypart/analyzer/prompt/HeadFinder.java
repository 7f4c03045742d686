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
import java.util.Set;

/** Finds the places in a sentence where demands begin. */
final class HeadFinder {
  private static final int LONGEST_INSERT = 14;

  /** Where a clause that may make a demand begins. */
  private enum Position {
    NONE,
    START,
    COMMA,
    CLAUSE,
    JOINED,
    LICENSED,
    TO,
    STRESSED
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

  private static Optional<Head> head(Head.Form form, int i) {
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
    if (heads.isEmpty() && bullet && listAnnounced && !closed.get(start)) {
      heads.add(new Head(Head.Form.VERB, start, start, verbs.verb("include"), Optional.empty()));
    }
    dropLead();
    return List.copyOf(heads);
  }

  /** "Write a paragraph in which you describe ..." asks for what the paragraph holds. */
  private void dropLead() {
    while (heads.size() > 1
        && heads
            .get(0)
            .verb()
            .map(v -> v.group().equals("writing") || v.group().equals("making"))
            .orElse(false)
        && leadsOnly(heads.get(0), heads.get(1))) {
      heads.remove(0);
    }
  }

  private boolean leadsOnly(Head lead, Head next) {
    for (int i = lead.object(); i < next.from(); i++) {
      if (verbs.isIn("join", line.form(i))
          || line.form(i).equals(",")
          || line.form(i).equals(":")) {
        return i + 1 >= next.from() && !verbs.isIn("join", line.form(i));
      }
    }
    return true;
  }

  private void findLicences() {
    for (int i = start; i < size; i++) {
      if (question
          && i > start
          && line.form(i).equals("you")
          && verbs.isIn("aux", line.form(i - 1))) {
        continue; // "what would you need to measure" asks, it does not command
      }
      OptionalInt end = verbs.licence(line, i);
      if (end.isPresent()) {
        licensed.set(end.getAsInt());
      }
    }
  }

  /** "Using a diagram, explain ..." asks for a drawing as well. */
  private void findDrawing() {
    for (int i = start; i < size && i <= start + 1; i++) {
      Optional<TaskMatch<TaskRule>> drawn = verbs.drawn(line, i);
      if (drawn.isPresent() && !closed.get(i)) {
        heads.add(Head.trailer(drawn.get()));
        return;
      }
    }
  }

  private boolean hasDemandBefore() {
    return !heads.isEmpty() && !(heads.size() == 1 && isDrawnOpening(heads.get(0)));
  }

  private boolean isDrawnOpening(Head head) {
    return head.form() == Head.Form.TRAILER && head.from() <= start + 1;
  }

  private Optional<Head> headAt(int i) {
    if (hasDemandBefore()) {
      Optional<TaskMatch<TaskRule>> trailer = verbs.trailer(line, i);
      if (trailer.isPresent() && !isDrawing(lastHead())) {
        return Optional.of(
            new Head(
                Head.Form.TRAILER,
                i,
                trailer.get().range().to(),
                Optional.empty(),
                Optional.of(trailer.get().found())));
      }
    }
    Position position = position(i);
    if (position == Position.NONE) {
      return hasDemandBefore() && lastIs("writing") ? participle(i) : Optional.empty();
    }
    if (i > start
        && !at.isQuestionWord(i)
        && verbs.isAside(line, i)
        && position != Position.TO
        && !isJoinedCommand(i, position)) {
      return Optional.empty();
    }
    Optional<Head> verb = i == start && aside ? Optional.empty() : verb(i, position);
    if (verb.isPresent()) {
      return verb;
    }
    Optional<Head> asked = question(i, position);
    if (asked.isPresent()) {
      return asked;
    }
    return position == Position.COMMA || position == Position.JOINED
        ? participle(i)
        : Optional.empty();
  }

  private Head lastHead() {
    return heads.get(heads.size() - 1);
  }

  private boolean lastIs(String group) {
    return lastHead().isIn(group);
  }

  private boolean isDrawing(Head head) {
    return head.verb().map(verb -> verb.kind() == DemandKind.REPRESENT).orElse(false);
  }

  private Position position(int i) {
    if (i == start) {
      return Position.START;
    }
    if (licensed.get(i)) {
      return Position.LICENSED;
    }
    int p = i - 1;
    while (p > start && verbs.isAdverb(line.form(p)) && !verbs.isIn("join", line.form(p))) {
      if (licensed.get(p)) {
        return Position.LICENSED;
      }
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
    if (aside
        && before.equals("in")
        && line.form(i).equals("support")
        && at.form(i + 1).equals("of")) {
      return Position.LICENSED; // "Use two facts in support of your choice."
    }
    if (at.isStressed(i) && !verbs.isIn("determiner", before)) {
      return Position.STRESSED;
    }
    return Position.NONE;
  }

  /** "... and consider the effect of the last line": joined to a demand it is one. */
  private boolean isJoinedCommand(int i, Position position) {
    return (position == Position.JOINED || position == Position.COMMA)
        && hasDemandBefore()
        && lastHead().verb().isPresent()
        && Set.of("consider", "examine", "review").contains(line.form(i));
  }

  /** Returns the place before "for each", "for each one" and the like when they end at a place. */
  private int beforeForEach(int p) {
    int each = line.form(p).equals("each") ? p : p - 1;
    boolean ends = each == p || verbs.verbAt(line, p).isEmpty();
    if (!ends
        || each - 2 <= start
        || !line.form(each).equals("each")
        || !line.form(each - 1).equals("for")) {
      return p;
    }
    String join = line.form(each - 2);
    return verbs.isIn("join", join) || join.equals(",") ? each - 2 : p;
  }

  private Optional<Head> verb(int i, Position position) {
    Optional<TaskMatch<TaskVerb>> match = verbs.verbAt(line, i);
    if (match.isEmpty()) {
      return position == Position.START && question ? askedVerb(i) : Optional.empty();
    }
    TaskVerb verb = match.get().found();
    int after = match.get().range().to();
    if (!mayBegin(verb, i, after, position) || leadsToList(verb, i) || addsToDrawing(verb)) {
      return Optional.empty();
    }
    return Optional.of(
        new Head(Head.Form.VERB, i, skipInserts(after), Optional.of(verb), Optional.empty()));
  }

  /** "Your answer should include:" asks for what is listed below it. */
  private boolean leadsToList(TaskVerb verb, int i) {
    return verb.group().equals("giving")
        && (verbs.announcesList(line, i) || verbs.announcesList(line, start));
  }

  /** "Include an ammeter" behind a drawing is about the drawing. */
  private boolean addsToDrawing(TaskVerb verb) {
    return Set.of("include", "add").contains(verb.form())
        && heads.isEmpty()
        && !demands.isEmpty()
        && demands.get(demands.size() - 1).kind() == DemandKind.REPRESENT;
  }

  /** "Can you explain why ...?" asks what the verb asks. */
  private Optional<Head> askedVerb(int i) {
    boolean polite =
        i + 2 < size
            && Set.of("can", "could", "would", "will").contains(line.form(i))
            && line.form(i + 1).equals("you");
    if (!polite) {
      return Optional.empty();
    }
    return verbs
        .verbAt(line, i + 2)
        .filter(match -> verbs.isObjectStart(at.form(match.range().to())))
        .filter(match -> match.found().place() != TaskVerb.Place.START)
        .filter(match -> !line.form(i).equals("would"))
        .map(
            match ->
                new Head(
                    Head.Form.VERB,
                    i + 2,
                    skipInserts(match.range().to()),
                    Optional.of(match.found()),
                    Optional.empty()));
  }

  private boolean mayBegin(TaskVerb verb, int from, int after, Position position) {
    String next = at.form(after);
    boolean object = verbs.isObjectStart(next);
    boolean anywhere = verb.place() == TaskVerb.Place.ANYWHERE;
    boolean first = !hasDemandBefore();
    return switch (position) {
      case START ->
          !(question && !anywhere && !object)
              && (anywhere
                  || verb.form().contains(" ")
                  || !verbs.isIn("nounSign", next)
                  || joinsVerb(after)
                  || after >= size);
      case STRESSED, LICENSED -> true;
      case CLAUSE -> object || (anywhere && (opening || aside || !first));
      case COMMA ->
          first
              ? (opening || aside) && (anywhere || object)
              : object || (anywhere && lastHead().form() == Head.Form.VERB);
      case TO ->
          (anywhere || object)
              && (first ? opensInfinitive(verb) : lastIs("writing") || isUsedTo(from));
      case JOINED ->
          (anywhere && !first && !question && endsBehind(after))
              || mayBeJoined(verb, from, object, anywhere, first);
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
    return verbs.isIn("toVerbOpener", line.form(start))
        && !verb.group().equals("showing")
        && !verb.group().equals("drawing");
  }

  /** "... and use the data to justify your choice". */
  private boolean isUsedTo(int from) {
    for (int i = from - 2; i > lastHead().from(); i--) {
      if (verbs.isIn("join", line.form(i)) || line.form(i).equals(",")) {
        return line.form(i + 1).startsWith("us");
      }
    }
    return false;
  }

  /** "... and justify.", "... and explain it.": nothing stands behind the verb that is joined. */
  private boolean endsBehind(int after) {
    int end = verbs.isIn("pointingBack", at.form(after)) ? after + 1 : after;
    return end >= size - 1 && (end >= size || !at.token(end).isWord());
  }

  private boolean mayBeJoined(
      TaskVerb verb, int from, boolean object, boolean anywhere, boolean first) {
    int join = from - 1;
    while (join > start && !verbs.isIn("join", line.form(join))) {
      join--;
    }
    boolean comma = join > start && line.form(join - 1).equals(",");
    if (first) {
      return ((opening && comma) || aside) && (anywhere || object);
    }
    Head last = lastHead();
    if (last.form() == Head.Form.VERB && last.object() >= join) {
      return true;
    }
    if (!anywhere) {
      return object && !at.form(from + 1).equals("of"); // "the volume and color of the dye"
    }
    if (comma || (object && !verbs.isIn("pointingBack", at.form(from + 1)))) {
      return true;
    }
    // "... can be used to find the gene and predict its function": one infinitive with the one
    // before it. "... collect and compare data": a verb beside a verb.
    for (int i = last.object(); i < join; i++) {
      if (line.form(i).equals("to")) {
        return false;
      }
    }
    return verb.form().contains(" ") || object;
  }

  private Optional<Head> participle(int i) {
    if (!hasDemandBefore()) {
      return Optional.empty();
    }
    return verbs
        .participleAt(line, i)
        .filter(match -> verbs.isObjectStart(at.form(match.range().to())))
        .filter(match -> match.found().place() == TaskVerb.Place.ANYWHERE)
        .filter(match -> match.found().kind() != DemandKind.REPRESENT)
        .map(
            match ->
                new Head(
                    Head.Form.VERB,
                    i,
                    skipInserts(match.range().to()),
                    Optional.of(match.found()),
                    Optional.empty()));
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
      if (insert.isPresent() && insert.getAsInt() < size) {
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
    String form = line.form(i);
    return switch (position) {
      case START ->
          asked && (question ? startsQuestion(i) : startsBareQuestion(i))
              ? head(Head.Form.QUESTION, i)
              : yesNo(i);
      case CLAUSE -> asked && (question || at.inverted(i)) ? head(Head.Form.QUESTION, i) : yesNo(i);
      case COMMA -> question ? behindComma(i, asked, form) : Optional.empty();
      case JOINED -> joinedQuestion(i, asked, form);
      default -> Optional.empty();
    };
  }

  private Optional<Head> yesNo(int i) {
    return question && verbs.isIn("aux", line.form(i))
        ? head(Head.Form.YES_NO, i)
        : Optional.empty();
  }

  /** "When a plant is kept in the dark, ..." is no question by its first word. */
  private boolean startsQuestion(int i) {
    return !Set.of("when", "where").contains(line.form(i)) || at.inverted(i);
  }

  /** A question that its writer left without a mark: "How does the heart beat". */
  private boolean startsBareQuestion(int i) {
    String next = at.form(i + 1);
    boolean stop = at.form(size - 1).equals(".");
    if (size - i <= 3 && line.form(i).equals("why")) {
      return true;
    }
    return stop
        ? Set.of("do", "does", "did", "would", "might").contains(next)
            && !line.form(i).equals("what")
        : Set.of("why", "how", "what", "which", "who", "where", "when").contains(line.form(i))
            && (verbs.isIn("aux", next) || (line.form(i).equals("which") && at.inverted(i)))
            && !bullet;
  }

  private Optional<Head> behindComma(int i, boolean asked, String form) {
    if (!hasDemandBefore()) {
      if (asked) {
        boolean relative = Set.of("which", "who", "where", "when", "whose").contains(form);
        return opening || aside || !relative || at.inverted(i)
            ? head(Head.Form.QUESTION, i)
            : Optional.empty();
      }
      return verbs.isIn("aux", form) && (opening || aside)
          ? head(Head.Form.YES_NO, i)
          : Optional.empty();
    }
    return asked && Set.of("how", "why", "what").contains(form) && at.inverted(i)
        ? head(Head.Form.QUESTION, i)
        : Optional.empty();
  }

  private Optional<Head> joinedQuestion(int i, boolean asked, String form) {
    boolean first = !hasDemandBefore();
    if (first && !(opening || aside)) {
      return Optional.empty();
    }
    int join = i - 1;
    while (join > start && !verbs.isIn("join", line.form(join))) {
      join--;
    }
    boolean twin = join > start && verbs.isIn("questionWord", line.form(join - 1));
    if (line.form(join).equals("or")) {
      return Optional.empty();
    }
    if (asked && !twin && (question || (!first && lastHead().form() != Head.Form.VERB))) {
      return head(Head.Form.QUESTION, i);
    }
    if (first) {
      return Optional.empty();
    }
    if (verbs.isIn("joinedQuestion", form) && !twin && lastHead().form() != Head.Form.TRAILER) {
      return head(Head.Form.INDIRECT, i);
    }
    return question && verbs.isIn("aux", form) && verbs.isIn("subjectStart", at.form(i + 1))
        ? head(Head.Form.YES_NO, i)
        : Optional.empty();
  }

  /** "The enzyme stops working at which temperature?" */
  private void findLateQuestion() {
    for (int i = size - 1; i >= start; i--) {
      if (verbs.isIn("questionWord", line.form(i)) && !closed.get(i)) {
        heads.add(new Head(Head.Form.QUESTION, i, i + 1, Optional.empty(), Optional.empty()));
        return;
      }
    }
    if (!closed.get(start)) {
      heads.add(new Head(Head.Form.YES_NO, start, start, Optional.empty(), Optional.empty()));
    }
  }
}
