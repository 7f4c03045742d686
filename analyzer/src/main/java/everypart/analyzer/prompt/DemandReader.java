package everypart.analyzer.prompt;

import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.Span;
import everypart.analyzer.text.Tagger;
import everypart.analyzer.text.Text;
import everypart.analyzer.text.TextReader;
import everypart.analyzer.text.Token;
import everypart.lexicon.AnswerForm;
import everypart.lexicon.DemandKind;
import everypart.lexicon.TaskMatch;
import everypart.lexicon.TaskRule;
import everypart.lexicon.TaskVerb;
import everypart.lexicon.TaskVerbs;
import everypart.lexicon.TokenRange;
import everypart.lexicon.WordLine;
import everypart.lexicon.WordSequence;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;

/**
 * Reads the demands of a stretch of wording, sentence by sentence.
 *
 * <p>In each sentence it looks for the places where a demand may begin (the start of a clause,
 * words such as "you should", a question word or verb joined to another demand), decides what the
 * words there ask for by the rules of {@link TaskVerbs}, and lets each demand run on to the next.
 */
final class DemandReader {
  /** Kinds whose answer is an outcome, a choice or a judgement, for which a ground can be asked. */
  private static final Set<DemandKind> CLAIMS =
      EnumSet.of(
          DemandKind.IDENTIFY,
          DemandKind.PREDICT,
          DemandKind.EVALUATE,
          DemandKind.CALCULATE,
          DemandKind.PROPOSE);

  private static final Set<String> QUESTION_WORDS =
      Set.of("why", "how", "what", "which", "who", "whom", "whose", "where", "when", "what's");
  private static final Set<String> BEFORE_QUESTION_WORD =
      Set.of(
          "in", "to", "for", "by", "on", "at", "from", "under", "through", "of", "against", "with",
          "into", "upon");
  private static final Set<String> JOINED_QUESTION_WORDS =
      Set.of("why", "how", "what", "which", "who", "where", "when", "whether", "what's");
  private static final Set<String> JOINS = Set.of("and", "or", "then", "but", "&", "plus");
  private static final Set<String> CLAUSE_MARKS =
      Set.of(";", ":", "-", "\u2013", "\u2014", "?", ".", "!");
  private static final Set<String> DETERMINERS =
      Set.of(
          "the", "a", "an", "this", "that", "these", "those", "each", "no", "its", "their", "his",
          "her", "our", "my", "your", "of");
  private static final Set<String> NOUN_SIGNS =
      Set.of("of", "for", "is", "are", "was", "were", "by", ":", ",", "has", "had", "and");
  private static final Set<String> SUBJECT_STARTS =
      Set.of(
          "the", "a", "an", "it", "they", "he", "she", "this", "that", "these", "those", "there",
          "you", "we", "each", "your", "its", "their", "i", "one", "any");
  private static final Set<String> POINTING_BACK =
      Set.of("its", "their", "it", "them", "his", "her");
  private static final Set<String> TO_VERB_OPENERS =
      Set.of(
          "use",
          "using",
          "apply",
          "carry",
          "perform",
          "cross",
          "take",
          "refer",
          "draw",
          "with",
          "consider",
          "examine",
          "study",
          "look",
          "consult",
          "read",
          "review",
          "observe",
          "analyze",
          "analyse",
          "choose",
          "select",
          "write",
          "compose",
          "prepare",
          "make",
          "create",
          "produce",
          "complete");
  private static final Set<String> BLOCKING_ASIDES =
      Set.of("do", "don't", "never", "no", "there", "you");
  private static final Set<String> SUPPOSING =
      Set.of("if", "suppose", "supposing", "imagine", "assume", "assuming", "unless");
  private static final Set<String> CONDITIONS =
      Set.of(
          "if", "when", "suppose", "unless", "after", "without", "once", "under", "during", "in",
          "for", "at", "as");
  private static final Set<DemandKind> UNCOUNTED =
      EnumSet.of(DemandKind.REPRESENT, DemandKind.EVALUATE);
  private static final int LONGEST_INSERT = 14;
  private static final String ONE_OF_TWO = "; of the alternatives one is enough";
  private static final String ONE_BRANCH =
      "; only the branch that fits the writer's own answer is asked for";

  private final TaskVerbs verbs;
  private final TextReader texts;
  private final Tagger tagger = new Tagger();

  DemandReader(TaskVerbs verbs, TextReader texts) {
    this.verbs = verbs;
    this.texts = texts;
  }

  /**
   * What was read.
   *
   * @param demands the demands; spans count in the wording's text
   * @param remarks what was set aside
   * @param told the sentences that tell something and ask nothing
   */
  record Reading(List<Demand> demands, List<Remark> remarks, List<Span> told) {}

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

  private static Optional<Head> head(Form form, int i) {
    return Optional.of(new Head(form, i, i + 1, Optional.empty(), Optional.empty()));
  }

  private enum Form {
    VERB,
    QUESTION,
    YES_NO,
    INDIRECT,
    TRAILER
  }

  /** A place where a demand begins. */
  private record Head(
      Form form, int from, int object, Optional<TaskVerb> verb, Optional<TaskRule> rule) {}

  /**
   * Reads the demands of a stretch.
   *
   * @param wording the whole wording
   * @param from where the stretch begins
   * @param to where it ends
   * @param numbers how many of each thing the text before it names
   * @param items how many listed items follow the stretch, 0 when none
   */
  Reading read(PlainWording wording, int from, int to, Numbers numbers, int items) {
    Text text = texts.read(wording.text().substring(from, to));
    return new Pass(wording, from, numbers, items).run(text);
  }

  /** Takes in the numbers of a sentence of the text before the first part. */
  void learn(Sentence sentence, PlainWording wording, Numbers numbers) {
    BitSet closed = new BitSet();
    for (int i = 0; i < sentence.size(); i++) {
      Token token = sentence.tokens().get(i);
      closed.set(i, wording.isQuiet(token.start(), token.end()));
    }
    numbers.learn(new WordLine(sentence), closed, word -> verbs.isIn("unit", word));
  }

  /**
   * Reads a stretch in which no demand was found once more, for a command whose verb the lexicon
   * does not know ("Transcribe the sequence."). Tags tell a command from a statement.
   */
  Optional<Demand> byUnknownVerb(PlainWording wording, int from, int to) {
    Text text = texts.read(wording.text().substring(from, to));
    for (Sentence sentence : text.sentences()) {
      Token first = sentence.tokens().get(0);
      boolean candidate =
          sentence.size() > 2
              && first.isWord()
              && !wording.isQuiet(from + first.start(), from + first.end())
              && !verbs.isAside(new WordLine(sentence), 0)
              && !verbs.isOpening(first.form())
              && verbs.verb(first.form()).isEmpty();
      if (candidate && isCommand(tagger.tags(text, sentence), first.form())) {
        WordLine line = new WordLine(sentence);
        return Optional.of(
            new Demand(
                DemandKind.IDENTIFY,
                first.form(),
                1,
                new Span(from + first.start(), from + sentence.end()),
                About.of(line, sentence, wording.text(), from, 1, sentence.size()),
                List.of(),
                "\"" + first.form() + "\" is a command that the program does not know"));
      }
    }
    return Optional.empty();
  }

  /**
   * Returns the sentence of a stretch without demands that a person should look at: a question,
   * else one that speaks to the writer or holds a task verb, else the last.
   */
  Span likeliest(PlainWording wording, int from, int to) {
    Text text = texts.read(wording.text().substring(from, to));
    Span best = new Span(from, to);
    int most = -1;
    for (Sentence sentence : text.sentences()) {
      int signs = signs(sentence);
      if (signs >= most) {
        most = signs;
        best = new Span(from + sentence.start(), from + sentence.end());
      }
    }
    return best;
  }

  private int signs(Sentence sentence) {
    WordLine line = new WordLine(sentence);
    int signs = 0;
    for (int i = 0; i < line.size(); i++) {
      String form = line.form(i);
      if (form.startsWith("?")) {
        return 2;
      }
      if (form.equals("you") || form.equals("your") || verbs.verbAt(line, i).isPresent()) {
        signs = 1;
      }
    }
    return signs;
  }

  private static boolean isCommand(List<String> tags, String form) {
    // A first word that the tagger takes for a name, joined to a verb, is a verb: "Transcribe and
    // translate".
    boolean joined = tags.get(1).equals("CCONJ") && tags.get(2).equals("VERB");
    return (tags.get(0).equals("VERB") || joined)
        && !form.endsWith("ed")
        && !form.endsWith("ing")
        && tags.stream().skip(1).noneMatch(tag -> tag.equals("AUX"));
  }

  /** The reading of one stretch. */
  private final class Pass {
    private final PlainWording wording;
    private final int offset;
    private final Numbers numbers;
    private final int itemsAfter;
    private final List<Demand> demands = new ArrayList<>();
    private final List<Remark> remarks = new ArrayList<>();
    private final List<Span> told = new ArrayList<>();
    private final List<Boolean> branches = new ArrayList<>();
    private boolean supposedBefore;
    private boolean listAnnounced;
    private boolean optional;

    Pass(PlainWording wording, int offset, Numbers numbers, int itemsAfter) {
      this.wording = wording;
      this.offset = offset;
      this.numbers = numbers;
      this.itemsAfter = itemsAfter;
    }

    Reading run(Text text) {
      List<Sentence> sentences = Sentences.joined(text, offset, wording);
      for (int i = 0; i < sentences.size(); i++) {
        int items = Sentences.bulletsAfter(sentences, i);
        boolean last = i == sentences.size() - 1;
        new SentenceReading(sentences.get(i), items > 0 ? items : last ? itemsAfter : 0, items > 0)
            .run();
      }
      return new Reading(List.copyOf(demands), List.copyOf(remarks), List.copyOf(told));
    }

    private final class SentenceReading {
      private final Sentence sentence;
      private final WordLine line;
      private final int items;
      private final boolean itemsAreBullets;
      private final boolean bullet;
      private final int size;
      private final BitSet closed = new BitSet();
      private final BitSet licensed = new BitSet();
      private final List<Head> heads = new ArrayList<>();
      private int start;
      private boolean question;
      private boolean opening;
      private boolean aside;
      private boolean inPassing;

      SentenceReading(Sentence sentence, int items, boolean itemsAreBullets) {
        this.sentence = sentence;
        this.line = new WordLine(sentence);
        this.items = items;
        this.itemsAreBullets = itemsAreBullets;
        this.bullet = Sentences.isBullet(sentence);
        this.size = line.size();
      }

      void run() {
        closeQuietWords();
        numbers.learn(line, closed, word -> verbs.isIn("unit", word));
        findOptional();
        start = firstWord();
        if (start >= size) {
          return;
        }
        question = endsInQuestionMark();
        String first = line.form(start);
        opening = verbs.isOpening(first) || (start > 0 && verbs.isOpening(line.form(0)));
        findLicences();
        aside = !closed.get(start) && verbs.isAside(line, start) && !isQuestionStart(start);
        if (aside && BLOCKING_ASIDES.contains(first)) {
          setAside();
          return;
        }
        findHeads();
        resolve();
        if (aside && heads.isEmpty()) {
          setAside();
        } else if (heads.isEmpty()) {
          told.add(place(sentence.start(), sentence.end()));
        }
        supposedBefore = supposes();
        if (verbs.announcesList(line, start) || announcesIn()) {
          listAnnounced = true;
        } else if (!bullet) {
          listAnnounced = false;
        }
      }

      private boolean announcesIn() {
        for (int i = start; i < size; i++) {
          if (line.form(i).startsWith("includ") && verbs.announcesList(line, i)) {
            return true;
          }
        }
        return false;
      }

      private void setAside() {
        remarks.add(
            new Remark(
                Remark.Kind.SET_ASIDE,
                place(sentence.start(), sentence.end()),
                "an instruction to the candidate, not a demand"));
      }

      /** Words in quotations, tables, captions and brackets begin no demand. */
      private void closeQuietWords() {
        int depth = 0;
        for (int i = 0; i < size; i++) {
          Token token = sentence.tokens().get(i);
          if (token.form().equals("(") || token.form().equals("[")) {
            depth++;
          }
          if ((depth > 0 && i > 0)
              || wording.isQuiet(offset + token.start(), offset + token.end())) {
            closed.set(i);
          }
          if (depth > 0 && (token.form().endsWith(")") || token.form().endsWith("]"))) {
            depth--;
          }
        }
      }

      private int firstWord() {
        int i = 0;
        while (i < size
            && (closed.get(i)
                || !sentence.tokens().get(i).isWord()
                || verbs.isAdverb(line.form(i))
                || JOINS.contains(line.form(i)))) {
          if (sentence.tokens().get(i).isNumber() && i > 0) {
            return i;
          }
          i++;
        }
        OptionalInt behind = i < size ? verbs.optional(line, i) : OptionalInt.empty();
        return behind.isPresent() && behind.getAsInt() < size ? behind.getAsInt() : i;
      }

      /** Looks for "bonus:", "(optional)" and the like. */
      private void findOptional() {
        for (int i = 0; i < size; i++) {
          boolean bracket = line.form(i).equals("(") || line.form(i).equals("[");
          OptionalInt end =
              bracket || i == 0 || line.form(i - 1).equals("and")
                  ? verbs.optional(line, i)
                  : OptionalInt.empty();
          if (end.isPresent()) {
            inPassing = true;
            int last = end.getAsInt() - 1;
            optional |= last >= size - 1 || line.form(last).equals(":") || (bracket && i == 0);
            return;
          }
        }
      }

      private boolean endsInQuestionMark() {
        for (int i = size - 1; i >= 0 && !sentence.tokens().get(i).isWord(); i--) {
          if (line.form(i).startsWith("?") || line.form(i).endsWith("?")) {
            return true;
          }
        }
        return false;
      }

      private void findLicences() {
        for (int i = start; i < size; i++) {
          if (question && i > start && line.form(i).equals("you") && isAux(line.form(i - 1))) {
            continue; // "what would you need to measure" asks, it does not command
          }
          OptionalInt end = verbs.licence(line, i);
          if (end.isPresent()) {
            licensed.set(end.getAsInt());
          }
        }
      }

      private void findHeads() {
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
          heads.add(new Head(Form.VERB, start, start, verbs.verb("include"), Optional.empty()));
        }
      }

      /** "Using a diagram, explain ..." asks for a drawing as well. */
      private void findDrawing() {
        for (int i = start; i < size && i <= start + 1; i++) {
          Optional<TaskMatch<TaskRule>> drawn = verbs.drawn(line, i);
          if (drawn.isPresent() && !closed.get(i)) {
            heads.add(
                new Head(
                    Form.TRAILER,
                    i,
                    drawn.get().range().to(),
                    Optional.empty(),
                    Optional.of(drawn.get().found())));
            return;
          }
        }
      }

      private boolean hasDemandBefore() {
        return !heads.isEmpty() && !(heads.size() == 1 && isDrawnOpening(heads.get(0)));
      }

      private boolean isDrawnOpening(Head head) {
        return head.form() == Form.TRAILER && head.from() <= start + 1;
      }

      private Optional<Head> headAt(int i) {
        if (hasDemandBefore()) {
          Optional<TaskMatch<TaskRule>> trailer = verbs.trailer(line, i);
          if (trailer.isPresent() && !isDrawing(lastHead())) {
            return Optional.of(
                new Head(
                    Form.TRAILER,
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
            && !isQuestionWord(i)
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
        return lastHead().verb().map(verb -> verb.group().equals(group)).orElse(false);
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
        while (p > start && verbs.isAdverb(line.form(p)) && !JOINS.contains(line.form(p))) {
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
        if (JOINS.contains(before)) {
          return Position.JOINED;
        }
        if (CLAUSE_MARKS.contains(before) || (closed.get(p) && isCapital(i))) {
          return Position.CLAUSE;
        }
        if (aside
            && before.equals("in")
            && line.form(i).equals("support")
            && formAt(i + 1).equals("of")) {
          return Position.LICENSED; // "Use two facts in support of your choice."
        }
        Token token = sentence.tokens().get(i);
        if (wording.stressed().get(offset + token.start()) && !DETERMINERS.contains(before)) {
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

      /**
       * Returns the place before "for each", "for each one" and the like when they end at a place.
       */
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
        return JOINS.contains(join) || join.equals(",") ? each - 2 : p;
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
            new Head(Form.VERB, i, skipInserts(after), Optional.of(verb), Optional.empty()));
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
            .filter(match -> verbs.isObjectStart(formAt(match.range().to())))
            .filter(match -> match.found().place() != TaskVerb.Place.START)
            .filter(match -> !line.form(i).equals("would"))
            .map(
                match ->
                    new Head(
                        Form.VERB,
                        i + 2,
                        skipInserts(match.range().to()),
                        Optional.of(match.found()),
                        Optional.empty()));
      }

      private String formAt(int i) {
        return i < size ? line.form(i) : "";
      }

      private boolean mayBegin(TaskVerb verb, int from, int after, Position position) {
        String next = formAt(after);
        boolean object = verbs.isObjectStart(next);
        boolean anywhere = verb.place() == TaskVerb.Place.ANYWHERE;
        boolean first = !hasDemandBefore();
        return switch (position) {
          case START ->
              !(question && !anywhere && !object)
                  && (anywhere
                      || verb.form().contains(" ")
                      || !NOUN_SIGNS.contains(next)
                      || joinsVerb(after)
                      || after >= size);
          case STRESSED, LICENSED -> true;
          case CLAUSE -> object || (anywhere && (opening || aside || !first));
          case COMMA ->
              first
                  ? (opening || aside) && (anywhere || object)
                  : object || (anywhere && lastHead().form() == Form.VERB);
          case TO -> (anywhere || object) && (first ? opensInfinitive(verb) : lastIs("writing") || isUsedTo(from));
          case JOINED -> mayBeJoined(verb, from, object, anywhere, first);
          case NONE -> false;
        };
      }

      /** "Name and briefly explain": a verb behind the verb. */
      private boolean joinsVerb(int after) {
        int i = after + 1;
        while (i < size && verbs.isAdverb(line.form(i))) {
          i++;
        }
        return i < size && JOINS.contains(line.form(after)) && verbs.verbAt(line, i).isPresent();
      }

      /** "Use the graph to find ..." asks to find; "use arrows to show ..." asks nothing. */
      private boolean opensInfinitive(TaskVerb verb) {
        return TO_VERB_OPENERS.contains(line.form(start))
            && !verb.group().equals("showing")
            && !verb.group().equals("drawing");
      }

      /** "... and use the data to justify your choice". */
      private boolean isUsedTo(int from) {
        for (int i = from - 2; i > lastHead().from(); i--) {
          if (JOINS.contains(line.form(i)) || line.form(i).equals(",")) {
            return line.form(i + 1).startsWith("us");
          }
        }
        return false;
      }

      private boolean mayBeJoined(
          TaskVerb verb, int from, boolean object, boolean anywhere, boolean first) {
        int join = from - 1;
        while (join > start && !JOINS.contains(line.form(join))) {
          join--;
        }
        boolean comma = join > start && line.form(join - 1).equals(",");
        if (first) {
          return ((opening && comma) || aside) && (anywhere || object);
        }
        Head last = lastHead();
        if (last.form() == Form.VERB && last.object() >= join) {
          return true;
        }
        if (!anywhere) {
          return object && !formAt(from + 1).equals("of"); // "the volume and color of the dye"
        }
        if (comma || (object && !POINTING_BACK.contains(formAt(from + 1)))) {
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
            .filter(match -> verbs.isObjectStart(formAt(match.range().to())))
            .filter(match -> match.found().place() == TaskVerb.Place.ANYWHERE)
            .filter(match -> match.found().kind() != DemandKind.REPRESENT)
            .map(
                match ->
                    new Head(
                        Form.VERB,
                        i,
                        skipInserts(match.range().to()),
                        Optional.of(match.found()),
                        Optional.empty()));
      }

      /**
       * Returns where a verb's object begins, past "briefly", ", in terms of particles," and the
       * like.
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
          } else if (verbs.isIn("indirect", line.form(i)) && verbs.isObjectStart(formAt(i + 1))) {
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

      private boolean isQuestionWord(int i) {
        return QUESTION_WORDS.contains(line.form(i))
            || (BEFORE_QUESTION_WORD.contains(line.form(i))
                && i + 1 < size
                && Set.of("what", "which", "whom", "whose").contains(line.form(i + 1)));
      }

      private boolean isQuestionStart(int i) {
        return isQuestionWord(i) && (question || inverted(i));
      }

      private boolean isAux(String form) {
        return verbs.isIn("aux", form);
      }

      /** "how does", "in what way would": a question even without its mark. */
      private boolean inverted(int i) {
        String form = line.form(i);
        if (form.equals("when")) {
          return isAux(formAt(i + 1));
        }
        if (form.equals("why") || form.equals("how")) {
          return isAux(formAt(i + 1))
              || Set.of("many", "much", "far", "well", "long").contains(formAt(i + 1));
        }
        if (form.equals("what's")) {
          return true;
        }
        for (int k = i + 1; k < Math.min(size, i + 7); k++) {
          if (isAux(line.form(k))) {
            return true;
          }
          if (line.form(k).equals(",")) {
            return false;
          }
        }
        return false;
      }

      private Optional<Head> question(int i, Position position) {
        boolean asked = isQuestionWord(i);
        String form = line.form(i);
        return switch (position) {
          case START ->
              asked && (question ? startsQuestion(i) : startsBareQuestion(i))
                  ? head(Form.QUESTION, i)
                  : yesNo(i);
          case CLAUSE -> asked && (question || inverted(i)) ? head(Form.QUESTION, i) : yesNo(i);
          case COMMA -> question ? behindComma(i, asked, form) : Optional.empty();
          case JOINED -> joinedQuestion(i, asked, form);
          default -> Optional.empty();
        };
      }

      private Optional<Head> yesNo(int i) {
        return question && isAux(line.form(i)) ? head(Form.YES_NO, i) : Optional.empty();
      }

      /** "When a plant is kept in the dark, ..." is no question by its first word. */
      private boolean startsQuestion(int i) {
        return !Set.of("when", "where").contains(line.form(i)) || inverted(i);
      }

      /** A question that its writer left without a mark: "How does the heart beat". */
      private boolean startsBareQuestion(int i) {
        String next = formAt(i + 1);
        boolean stop = formAt(size - 1).equals(".");
        if (size - i <= 3 && line.form(i).equals("why")) {
          return true;
        }
        return stop
            ? Set.of("do", "does", "did", "would", "might").contains(next)
                && !line.form(i).equals("what")
            : Set.of("why", "how", "what", "which", "who", "where", "when").contains(line.form(i))
                && (isAux(next) || (line.form(i).equals("which") && inverted(i)))
                && !bullet;
      }

      private Optional<Head> behindComma(int i, boolean asked, String form) {
        if (!hasDemandBefore()) {
          if (asked) {
            boolean relative = Set.of("which", "who", "where", "when", "whose").contains(form);
            return opening || aside || !relative || inverted(i)
                ? head(Form.QUESTION, i)
                : Optional.empty();
          }
          return isAux(form) && (opening || aside) ? head(Form.YES_NO, i) : Optional.empty();
        }
        return asked && Set.of("how", "why", "what").contains(form) && inverted(i)
            ? head(Form.QUESTION, i)
            : Optional.empty();
      }

      private Optional<Head> joinedQuestion(int i, boolean asked, String form) {
        boolean first = !hasDemandBefore();
        if (first && !(opening || aside)) {
          return Optional.empty();
        }
        int join = i - 1;
        while (join > start && !JOINS.contains(line.form(join))) {
          join--;
        }
        boolean twin = join > start && QUESTION_WORDS.contains(line.form(join - 1));
        if (line.form(join).equals("or")) {
          return Optional.empty();
        }
        if (asked && !twin && (question || (!first && lastHead().form() != Form.VERB))) {
          return head(Form.QUESTION, i);
        }
        if (first) {
          return Optional.empty();
        }
        if (JOINED_QUESTION_WORDS.contains(form) && !twin && lastHead().form() != Form.TRAILER) {
          return head(Form.INDIRECT, i);
        }
        return question && isAux(form) && SUBJECT_STARTS.contains(formAt(i + 1))
            ? head(Form.YES_NO, i)
            : Optional.empty();
      }

      /** "The enzyme stops working at which temperature?" */
      private void findLateQuestion() {
        for (int i = size - 1; i >= start; i--) {
          if (QUESTION_WORDS.contains(line.form(i)) && !closed.get(i)) {
            heads.add(new Head(Form.QUESTION, i, i + 1, Optional.empty(), Optional.empty()));
            return;
          }
        }
        if (!closed.get(start)) {
          heads.add(new Head(Form.YES_NO, start, start, Optional.empty(), Optional.empty()));
        }
      }

      private boolean supposes() {
        for (int i = 0; i < size; i++) {
          if (SUPPOSING.contains(line.form(i))) {
            return true;
          }
        }
        return false;
      }

      // ---- what the heads ask for

      private void resolve() {
        dropLead();
        int listed = listedItems();
        Optional<TaskVerb> verb = Optional.empty();
        for (int h = 0; h < heads.size(); h++) {
          Head head = heads.get(h);
          int end = h + 1 < heads.size() ? heads.get(h + 1).from() : size;
          end = trimEnd(head.object(), end);
          if (head.form() == Form.VERB && end <= head.object() && sharesObject(h)) {
            Head next = heads.get(h + 1);
            int shared = h + 2 < heads.size() ? heads.get(h + 2).from() : size;
            head = new Head(Form.VERB, head.from(), next.object(), head.verb(), Optional.empty());
            end = trimEnd(next.object(), shared);
          }
          if (head.form() == Form.VERB) {
            verb = head.verb();
          }
          resolve(h, head, end, listed, verb);
        }
      }

      /** "Name and briefly explain the two laws": one object for both verbs. */
      private boolean sharesObject(int h) {
        return h + 1 < heads.size()
            && heads.get(h + 1).form() == Form.VERB
            && JOINS.contains(formAt(heads.get(h).object()));
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
          if (JOINS.contains(line.form(i))
              || line.form(i).equals(",")
              || line.form(i).equals(":")) {
            return i + 1 >= next.from() && !JOINS.contains(line.form(i));
          }
        }
        return true;
      }

      private int trimEnd(int from, int end) {
        int to = end;
        while (to > from
            && (JOINS.contains(line.form(to - 1))
                || (verbs.isAdverb(line.form(to - 1)) && end < size)
                || line.form(to - 1).equals(",")
                || line.form(to - 1).equals(";"))) {
          to--;
        }
        return to;
      }

      private void resolve(int index, Head head, int end, int listed, Optional<TaskVerb> verb) {
        Optional<TaskMatch<TaskRule>> match = rule(head, end, verb);
        Optional<TaskRule> rule = match.map(TaskMatch::found);
        if (rule.map(r -> r.reading() == TaskRule.Reading.SET_ASIDE).orElse(false)) {
          setAside();
          return;
        }
        DemandKind kind;
        if (rule.map(r -> r.reading() == TaskRule.Reading.FOLLOW_UP).orElse(false)) {
          kind = claimBefore() ? DemandKind.JUSTIFY : DemandKind.EXPLAIN;
        } else if (rule.map(r -> r.reading() == TaskRule.Reading.AGAIN).orElse(false)) {
          kind = demands.isEmpty() ? DemandKind.IDENTIFY : demands.get(demands.size() - 1).kind();
        } else {
          kind =
              rule.flatMap(TaskRule::kind)
                  .orElseGet(() -> verb.map(TaskVerb::kind).orElse(DemandKind.IDENTIFY));
        }
        if (saysAgain(head, end, kind)) {
          return;
        }
        if (kind == DemandKind.JUSTIFY
            && head.form() == Form.TRAILER
            && !demands.isEmpty()
            && index > 0
            && demands.get(demands.size() - 1).kind() == DemandKind.JUSTIFY) {
          int last = demands.size() - 1;
          Counter.Count grounds =
              new Counter(
                      verbs, line, numbers, demands, kind, head.from(), head.object(), end, start)
                  .count(rule, 0, 0, false);
          if (grounds.number() > 1) {
            demands.set(last, demands.get(last).times(grounds.number(), grounds.source(), ""));
          }
          return;
        }
        Counter counter =
            new Counter(
                verbs, line, numbers, demands, kind, head.from(), head.object(), end, start);
        Counter.Count counted =
            counter.count(
                rule, listed, itemsAreBullets || items > 0 ? items : 0, head.form() != Form.VERB);
        boolean ordering = verb.map(v -> v.group().equals("ordering")).orElse(false);
        if (UNCOUNTED.contains(kind)
            || head.form() == Form.YES_NO
            || (head.form() == Form.VERB && ordering)) {
          counted = Counter.Count.ONE;
        }
        String about = about(head, end, kind);
        String name = name(head, match);
        String why = why(head, spoken(head, name, match), rule, verb);
        Demand demand =
            new Demand(
                    kind, name, counted.number(), spanOf(head.from(), end), about, List.of(), why)
                .worded(asking(head, end, kind, counted.source()));
        add(demand, head);
      }

      /** "How does it get there? Explain." and "What do you see? Describe it." ask once. */
      private boolean saysAgain(Head head, int end, DemandKind kind) {
        if (demands.isEmpty() || head.form() != Form.VERB || head.from() > start) {
          return false;
        }
        boolean bare = true;
        for (int i = head.object(); i < end; i++) {
          bare &= !sentence.tokens().get(i).isWord() || line.form(i).equals("it");
        }
        return bare
            && (kind == DemandKind.DESCRIBE || demands.get(demands.size() - 1).kind() == kind);
      }

      private Asking asking(Head head, int end, DemandKind kind, CountSource counted) {
        int from =
            head.form() == Form.VERB || head.form() == Form.TRAILER ? head.object() : head.from();
        List<Span> options =
            Options.in(verbs, line, from, end, this::isCapital).spans(sentence, offset);
        AnswerForm form = Asking.of(kind).form();
        if (head.form() == Form.YES_NO) {
          form = AnswerForm.YES_NO;
        } else if (from < end) {
          form = verbs.answerForm(line, from, end).orElse(form);
        }
        boolean open = form == AnswerForm.OPEN || form == AnswerForm.NAME;
        List<String> choices =
            (open && kind != DemandKind.IDENTIFY && kind != DemandKind.PREDICT)
                    || form == AnswerForm.QUANTITY
                ? List.of()
                : options.stream()
                    .map(span -> span.of(wording.text()).replaceAll("\\s+", " "))
                    .toList();
        Asking asking =
            Asking.of(
                choices.isEmpty() ? form : AnswerForm.OPTION,
                choices,
                condition(head, end),
                verbs.aspects(line, head.from(), end),
                counted);
        return options.size() > 1 && isEither(head.from(), from)
            ? asking.withAlternatives(options.subList(1, options.size()))
            : asking;
      }

      private boolean isEither(int from, int object) {
        for (int i = from; i <= Math.min(object, size - 1); i++) {
          if (line.form(i).equals("either")) {
            return true;
          }
        }
        return false;
      }

      private boolean isCapital(int i) {
        return Character.isUpperCase(
            wording.text().charAt(offset + sentence.tokens().get(i).start()));
      }

      /** The case that a demand supposes, before or behind its words. */
      private Optional<Span> condition(Head head, int end) {
        if (head.equals(heads.get(0))
            && head.from() > start
            && CONDITIONS.contains(line.form(start))) {
          return Optional.of(spanOf(start, trimEnd(start, head.from())));
        }
        for (int i = head.from() + 1; i < end; i++) {
          if (SUPPOSING.contains(line.form(i))
              && !(line.form(i).equals("if") && i == head.object())) {
            int last = end;
            while (last > i + 1 && !sentence.tokens().get(last - 1).isWord()) {
              last--;
            }
            return Optional.of(spanOf(i, last));
          }
        }
        return Optional.empty();
      }

      private void add(Demand demand, Head head) {
        boolean branch = inOwnBranch(head.from());
        int last = demands.size() - 1;
        if (branch
            && last >= 0
            && branches.get(last)
            && demands.get(last).kind() == demand.kind()) {
          demands.set(last, alternative(demands.get(last).saying(ONE_BRANCH), demand));
          return;
        }
        if (last >= 0
            && demands.get(last).kind() == demand.kind()
            && demand.count() > 1
            && demands.get(last).count() == 1
            && onlyCounts(head)) {
          demands.set(last, demands.get(last).times(demand.count(), demand.asking().counted(), ""));
          return;
        }
        boolean other = last >= 0 && (alternative(head) || (branch && branches.get(last)));
        if (other && demands.get(last).kind() == demand.kind()) {
          demands.set(last, alternative(demands.get(last).saying(ONE_OF_TWO), demand));
          return;
        }
        branches.add(branch);
        if (optional || inPassing) {
          demands.add(demand.as(Standing.OPTIONAL, "; it may be left out"));
        } else if (other) {
          demands.add(demand.as(Standing.ALTERNATIVE, "; it may take the place of the one before"));
        } else {
          demands.add(isEither(head, demand) ? demand.saying(ONE_OF_TWO) : demand);
        }
      }

      private static Demand alternative(Demand demand, Demand other) {
        List<Span> others = new ArrayList<>(demand.asking().alternatives());
        others.add(other.span());
        return demand.worded(demand.asking().withAlternatives(others));
      }

      /** "Write about three differences" says how many of what was asked before. */
      private boolean onlyCounts(Head head) {
        String verb = head.verb().map(TaskVerb::form).orElse("");
        return Set.of("write about", "mention", "include", "consider", "talk about", "discuss")
                .contains(verb)
            && size - head.object() <= 5;
      }

      /** "Describe either the coast or the hills". */
      private boolean isEither(Head head, Demand demand) {
        if (head.form() != Form.VERB) {
          return false;
        }
        boolean either = false;
        for (int i = head.from(); i < size; i++) {
          if (offset + sentence.tokens().get(i).start() >= demand.span().end()) {
            return false;
          }
          either |= line.form(i).equals("either");
          if (either && line.form(i).equals("or")) {
            return true;
          }
        }
        return false;
      }

      private boolean alternative(Head head) {
        return head.from() > start && line.form(head.from() - 1).equals("or");
      }

      /** "If you predicted a fall, explain ...": one of the branches of the writer's own answer. */
      private boolean inOwnBranch(int from) {
        for (int i = from - 1; i >= 0; i--) {
          if (line.form(i).equals(";")) {
            return false;
          }
          if (line.form(i).equals("if") && i + 1 < size) {
            return Set.of("you", "your", "yes", "no", "not", "so").contains(line.form(i + 1));
          }
        }
        return false;
      }

      private boolean claimBefore() {
        for (int i = demands.size() - 1; i >= 0; i--) {
          DemandKind kind = demands.get(i).kind();
          if (CLAIMS.contains(kind)) {
            return true;
          }
          if (kind != DemandKind.REPRESENT && kind != DemandKind.JUSTIFY) {
            return false;
          }
        }
        return false;
      }

      private Optional<TaskMatch<TaskRule>> rule(Head head, int end, Optional<TaskVerb> verb) {
        return switch (head.form()) {
          case TRAILER ->
              head.rule()
                  .map(rule -> new TaskMatch<>(rule, new TokenRange(head.from(), head.object())));
          case VERB ->
              head.verb()
                  .flatMap(
                      v -> verbs.object(v, line, head.object(), end, settings(head.object())));
          case INDIRECT ->
              verb.flatMap(v -> verbs.object(v, line, head.from(), end, settings(head.from())))
                  .or(() -> verbs.question(line, head.from(), end, settings(head.from())));
          case QUESTION -> askedFor(head.from(), end);
          case YES_NO -> verbs.yesNo(line, head.from(), end, settings(head.from()));
        };
      }

      /** Reads a question; "do you think" is left out of it, which is about the rest. */
      private Optional<TaskMatch<TaskRule>> askedFor(int from, int end) {
        Set<TaskRule.Setting> settings = settings(from);
        for (int i = from + 1; i + 3 < Math.min(end, from + 8); i++) {
          if (Set.of("do", "would", "might").contains(line.form(i))
              && line.form(i + 1).equals("you")
              && Set.of("think", "suppose", "believe", "imagine").contains(line.form(i + 2))
              && Set.of("what", "which", "how", "where", "who").contains(line.form(from))
              && !Set.of("of", "about").contains(line.form(i + 3))) {
            WordLine rest = new WordLine(new Leaving(line, i, 3));
            TokenRange asked = new TokenRange(from, i);
            return verbs
                .question(rest, from, end - 3, settings)
                .map(match -> new TaskMatch<>(match.found(), asked));
          }
        }
        return verbs.question(line, from, end, settings);
      }

      private Set<TaskRule.Setting> settings(int from) {
        Set<TaskRule.Setting> settings = EnumSet.noneOf(TaskRule.Setting.class);
        if (supposedBefore || supposes()) {
          settings.add(TaskRule.Setting.SUPPOSED);
        }
        if (!demands.isEmpty()) {
          DemandKind last = demands.get(demands.size() - 1).kind();
          if (last == DemandKind.PROPOSE) {
            settings.add(TaskRule.Setting.PROPOSED);
          } else if (last == DemandKind.COMPARE) {
            settings.add(TaskRule.Setting.COMPARED);
          }
        }
        if (isNameIn(from + 1, from + 4)) {
          settings.add(TaskRule.Setting.NAMED);
        }
        if (numbers.areFigured()) {
          settings.add(TaskRule.Setting.FIGURED);
        }
        if (numbers.areMeasured()) {
          settings.add(TaskRule.Setting.MEASURED);
        }
        if (from + 2 < size && numbers.haveCounted(line.stem(from + 2))) {
          settings.add(TaskRule.Setting.COUNTED);
        }
        return settings;
      }

      private boolean isNameIn(int from, int to) {
        for (int i = from; i < Math.min(to, size); i++) {
          if (isCapital(i) && line.form(i).length() > 1) {
            return true;
          }
        }
        return false;
      }

      /** A run of words without some of them. */
      private record Leaving(WordSequence words, int at, int length) implements WordSequence {
        @Override
        public int size() {
          return words.size() - length;
        }

        @Override
        public String form(int i) {
          return words.form(i < at ? i : i + length);
        }

        @Override
        public String stem(int i) {
          return words.stem(i < at ? i : i + length);
        }
      }

      /** Counts the items of a list in the sentence: "these terms: a, b, and c". */
      private int listedItems() {
        int colon = -1;
        boolean announced = false;
        for (int i = start; i < size; i++) {
          String form = line.form(i);
          if (form.equals(":")) {
            colon = i;
            break;
          }
          announced |= Set.of("following", "these", "each", "terms", "words").contains(form);
        }
        boolean usedOnly = verbs.isOpening(line.form(start)) && line.form(start).startsWith("us");
        if (colon < 0 || !announced || usedOnly) {
          return 0;
        }
        return Counter.listLength(line, colon + 1, size);
      }

      private String about(Head head, int end, DemandKind kind) {
        int from =
            head.form() == Form.VERB || head.form() == Form.TRAILER ? head.object() : head.from();
        int to = end;
        String about = About.of(line, sentence, wording.text(), offset, from, to);
        boolean pointsBack =
            about.isEmpty() || (kind == DemandKind.JUSTIFY && About.isOwnAnswer(about));
        if (pointsBack && !demands.isEmpty()) {
          return demands.get(demands.size() - 1).about();
        }
        if (head.equals(heads.get(0))
            && opening
            && head.from() > start
            && CONDITIONS.contains(line.form(start))) {
          String condition =
              About.condition(line, sentence, wording.text(), offset, start, head.from());
          return condition.isEmpty() ? about : about + ", " + condition;
        }
        return about;
      }

      private String name(Head head, Optional<TaskMatch<TaskRule>> match) {
        if (head.form() == Form.VERB) {
          return head.verb().map(TaskVerb::form).orElse("");
        }
        if (head.form() == Form.TRAILER) {
          return words(head.from(), Math.min(head.object(), head.from() + 4));
        }
        int to = head.from() + 1;
        if (match.isPresent() && match.get().range().length() <= 4) {
          to = Math.max(to, match.get().range().to());
        } else if (isAux(formAt(to)) || BEFORE_QUESTION_WORD.contains(line.form(head.from()))) {
          to = Math.min(size, to + 1);
        }
        while (to > head.from() + 1 && !sentence.tokens().get(to - 1).isWord()) {
          to--;
        }
        return words(head.from(), to);
      }

      /** Returns the words a rule was matched by, as in "how would ... affect". */
      private String spoken(Head head, String name, Optional<TaskMatch<TaskRule>> match) {
        if (head.form() == Form.VERB || match.isEmpty() || match.get().range().length() <= 4) {
          return name;
        }
        int last = Math.min(match.get().range().to(), size) - 1;
        while (last > head.from() && !sentence.tokens().get(last).isWord()) {
          last--;
        }
        return name + " ... " + words(last, last + 1);
      }

      private String words(int from, int to) {
        StringBuilder words = new StringBuilder();
        for (int i = from; i < to; i++) {
          words.append(i > from ? " " : "").append(line.form(i));
        }
        return words.toString().toLowerCase(Locale.ROOT);
      }

      private String why(Head head, String name, Optional<TaskRule> rule, Optional<TaskVerb> verb) {
        String asks =
            rule.map(TaskRule::why)
                .filter(why -> !why.isEmpty())
                .or(() -> verb.filter(v -> head.form() == Form.VERB).map(TaskVerb::why))
                .orElse("asks for a fact");
        return asks.startsWith("asks") ? "\"" + name + "\" " + asks : "\"" + name + "\": " + asks;
      }

      private Span spanOf(int from, int end) {
        int to = Math.max(end, from + 1);
        return place(
            sentence.tokens().get(from).start(),
            sentence.tokens().get(Math.min(to, size) - 1).end());
      }

      private Span place(int from, int to) {
        return new Span(offset + from, offset + to);
      }
    }
  }
}
