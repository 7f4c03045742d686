package everypart.analyzer.detect;

import everypart.analyzer.detect.WordClasses.Form;
import everypart.analyzer.detect.WordClasses.Stem;
import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.TextReader;
import everypart.analyzer.text.Token;
import everypart.lexicon.DemandKind;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.function.Predicate;
import java.util.regex.Pattern;
import java.util.stream.IntStream;

/**
 * A part of a prompt as the detectors see it: what its asking sentences say, what the set-up says,
 * and what choice, if any, it puts before the writer. Made once a part and shared.
 */
final class PartReading {
  /** What shape the answer to a part's first question has. */
  enum Choice {
    /** Yes or no. */
    YES_NO,
    /** One of the options that the question names. */
    OPTION,
    /** A thing to pick out: "which". */
    WHICH,
    /** A number. */
    QUANTITY,
    /** A place on a scale: "how hard". */
    DEGREE,
    /** Anything: "what". */
    OPEN,
    /** A thing to name: "identify". */
    NAME
  }

  private static final Set<String> WHY =
      Set.of("why", "evidence", "explain", "justify", "support", "reason", "reasons", "how");
  private static final Set<String> AMOUNTS =
      Set.of(
          "number",
          "ratio",
          "percentage",
          "value",
          "distance",
          "speed",
          "volume",
          "mass",
          "length",
          "height",
          "elevation",
          "temperature",
          "time",
          "rate",
          "probability",
          "fraction",
          "amount",
          "change",
          "increase",
          "decrease",
          "difference",
          "concentration",
          "ph",
          "energy",
          "many",
          "much");
  private static final Set<String> FRONTED =
      Set.of("if", "when", "after", "before", "in", "during");

  private static final Pattern PURPOSE =
      Pattern.compile(
          "(?i)\\bwhy\\b.*\\b(?:important|necessary|need(?:s|ed)?|matters?|useful|helpful|good idea|should|must)\\b"
              + "|\\bimportance\\b");
  private static final Pattern WAY =
      Pattern.compile(
          "(?i)\\bhow (?:will|would|can|could|do|does|did|should|might)\\b.*\\b(?:know|tell|find out|decide|test|check|help)\\b"
              + "|\\b(?:explain|describe) how \\w+ (?:can|could|would|will|should)\\b"
              + "|\\bways?\\b.*\\b(?:can|could)\\b");

  private static final Pattern KNOWING =
      Pattern.compile("(?i)\\b(?:why|how)\\b[^,;]*\\b(?:knew|know|knows|concluded?|could tell)\\b");
  private static final Pattern FUNCTION =
      Pattern.compile("(?i)\\b(?:jobs?|functions?|roles?|purpose|task)\\b");
  private static final Pattern PROOF =
      Pattern.compile("(?i)\\b(?:prove|verify|confirm|show that|check that)\\b");
  private static final Pattern METHOD_IN_USE =
      Pattern.compile(
          "(?i)\\b(?:methods?|procedures?)\\s+(?:that (?:is|are) |which (?:is|are) )?used\\b");
  private static final Pattern THEN =
      Pattern.compile("(?i)\\bdifferent\\b[^,;]*\\b(?:when|after|once|if)\\b");

  final Part part;
  final Vocabulary ask;
  final Vocabulary setup;
  final Vocabulary everything;
  final Set<String> numbers;
  final Set<Stem> directions;
  final Choice choice;
  final Set<String> options;
  final Sentence question;
  final Set<String> questionStems;
  final Vocabulary questionWords;
  final Set<String> questionTokens;
  final Set<String> names;
  final boolean wantsAction;

  /** Asks what something is good for: "why is it important". */
  final boolean wantsPurpose;

  /** Asks by what one knows or finds out: "how will she know", "how can you test". */
  final boolean wantsWay;

  /** Asks how somebody knew, so that what the set-up tells may be the ground. */
  final boolean wantsKnowing;

  /** Asks what something is there for: its job, its role. */
  final boolean wantsFunction;

  /** Gives the value and asks for the way to it. */
  final boolean wantsProof;

  /** Asks how a thing is different from what it was: "how was it different when". */
  final boolean wantsDifferenceThen;

  private final CopiedWording copied;
  private final Set<String> distinct = new HashSet<>();
  final Set<String> askNumbers = new HashSet<>();
  private final List<Sentence> reported = new ArrayList<>();
  private final List<Vocabulary> told = new ArrayList<>();
  private final List<Vocabulary> segments = new ArrayList<>();

  /** The stems of all words of the part. */
  final Set<String> stems = new HashSet<>();

  PartReading(
      Prompt prompt, Part part, TextReader texts, ClauseSplitter clauses, WordClasses words) {
    this.part = part;
    List<Sentence> all = pieces(texts.read(part.text()).sentences());
    all.forEach(sentence -> sentence.tokens().forEach(token -> stems.add(token.stem())));
    List<Sentence> asking = new ArrayList<>();
    List<Sentence> setting = new ArrayList<>();
    for (Sentence sentence : all) {
      (asks(sentence, part.text()) ? asking : setting).add(sentence);
    }
    if (asking.isEmpty()) {
      asking.addAll(all);
      setting.clear();
    }
    cut(asking, clauses);
    Set<String> askWords = new LinkedHashSet<>();
    Set<String> setupWords = new LinkedHashSet<>();
    Set<String> seenNumbers = new HashSet<>();
    asking.forEach(s -> askWords.addAll(clauses.content(s.tokens())));
    asking.forEach(s -> askNumbers.addAll(NumberWords.in(s.tokens())));
    setting.forEach(s -> setupWords.addAll(clauses.content(s.tokens())));
    boolean refers =
        asking.stream()
            .anyMatch(
                x ->
                    containsAny(
                        x,
                        "prediction",
                        "claim",
                        "statement",
                        "conclusion",
                        "hypothesis",
                        "agree",
                        "idea"));
    if (refers) {
      setting.stream()
          .filter(
              x ->
                  containsAny(
                      x,
                      "predicted",
                      "predicts",
                      "claims",
                      "claimed",
                      "says",
                      "said",
                      "concludes",
                      "concluded",
                      "states",
                      "thinks",
                      "believes",
                      "hypothesized",
                      "suggests"))
          .forEach(reported::add);
      reported.forEach(x -> askWords.addAll(clauses.content(x.tokens())));
    }
    setting.forEach(s -> told.add(new Vocabulary(clauses.content(s.tokens()))));
    for (Sentence sentence : texts.read(prompt.stimulus()).sentences()) {
      told.add(new Vocabulary(clauses.content(sentence.tokens())));
      setupWords.addAll(clauses.content(sentence.tokens()));
    }
    List<Sentence> whole = texts.read(prompt.text()).sentences();
    for (Sentence sentence : whole) {
      seenNumbers.addAll(NumberWords.in(sentence.tokens()));
    }
    all.forEach(s -> seenNumbers.addAll(NumberWords.in(s.tokens())));
    this.ask = new Vocabulary(askWords);
    this.setup = new Vocabulary(setupWords);
    Set<String> both = new HashSet<>(askWords);
    both.addAll(setupWords);
    this.everything = new Vocabulary(both);
    this.numbers = Set.copyOf(seenNumbers);
    this.question = claimQuestion(asking);
    Set<Stem> seen = EnumSet.noneOf(Stem.class);
    Set<String> stems = new HashSet<>();
    List<Sentence> directing = new ArrayList<>(asking);
    directing.addAll(reported);
    for (Sentence sentence : directing) {
      for (Token token : sentence.tokens()) {
        for (Stem direction : EnumSet.of(Stem.UP, Stem.DOWN, Stem.LEVEL)) {
          if (words.is(token, direction)) {
            seen.add(direction);
          }
        }
      }
    }
    for (Token token : question.tokens()) {
      if (words.isContent(token)) {
        stems.add(words.key(token));
      }
    }
    this.questionTokens = new HashSet<>();
    asking.forEach(x -> x.tokens().forEach(token -> questionTokens.add(token.stem())));
    this.names = new HashSet<>();
    for (Sentence sentence : all) {
      for (int i = 1; i < sentence.size(); i++) {
        Token token = sentence.tokens().get(i);
        if (token.isWord() && Character.isUpperCase(part.text().charAt(token.start()))) {
          names.add(token.form().replace("'s", ""));
        }
      }
    }
    this.directions = seen;
    this.questionStems = stems;
    this.questionWords = new Vocabulary(stems);
    this.options = new LinkedHashSet<>();
    this.choice = choose(words, setting, part.text());
    // A method that others use is described like any other thing.
    String lower = METHOD_IN_USE.matcher(part.text().toLowerCase(Locale.ROOT)).replaceAll("");
    this.wantsAction =
        lower.contains("should do")
            || lower.contains("could ")
            || lower.contains("procedure")
            || lower.contains("method")
            || (lower.contains("steps") && !lower.contains("which step"));
    this.wantsPurpose = asks(asking, PURPOSE);
    this.wantsKnowing = asks(asking, KNOWING);
    this.wantsFunction = asks(asking, FUNCTION);
    this.wantsProof = asks(asking, PROOF);
    this.wantsDifferenceThen = asks(asking, THEN);
    this.wantsWay = asks(asking, WAY);
    List<Sentence> wordings = new ArrayList<>(pieces(whole));
    wordings.addAll(all);
    this.copied = new CopiedWording(wordings, words);
  }

  /** Cuts the asking sentences where a task verb or question opens: a segment for each demand. */
  private void cut(List<Sentence> asking, ClauseSplitter clauses) {
    List<List<Token>> runs = new ArrayList<>();
    for (Sentence sentence : asking) {
      List<Token> run = new ArrayList<>();
      runs.add(run);
      for (int i = 0; i < sentence.size(); i++) {
        boolean joined =
            i > 0 && (sentence.form(i - 1).equals("and") || sentence.form(i - 1).equals(","));
        if (joined && (isTask(sentence.form(i)) || sentence.form(i).equals("why"))) {
          run = new ArrayList<>();
          runs.add(run);
        }
        run.add(sentence.tokens().get(i));
      }
    }
    if (runs.size() == part.demands().size()) {
      runs.forEach(run -> segments.add(new Vocabulary(clauses.content(run))));
    }
  }

  /** Tells whether a sentence uses words in which this part asks and no other part does. */
  boolean isNamedIn(Sentence sentence) {
    int named = 0;
    for (Token token : sentence.tokens()) {
      if (distinct.contains(token.stem())) {
        named++;
      }
    }
    return named >= LEAST_NAMED;
  }

  /** Keeps what sets this part's asking apart from that of the others. */
  void setApartFrom(List<PartReading> others) {
    distinct.addAll(ask.words());
    others.forEach(other -> distinct.removeAll(other.ask.words()));
  }

  /**
   * Returns the clauses that answer one of several demands of the same kind in the part. A sentence
   * goes to the demand whose own words it uses; one that uses none goes with the sentence before.
   * When no sentence uses any, they are dealt out in order.
   */
  List<Clause> shareOf(int place, List<Clause> own) {
    List<Integer> siblings = new ArrayList<>();
    for (int i = 0; i < part.demands().size(); i++) {
      if (part.demands().get(i).kind() == part.demands().get(place).kind()) {
        siblings.add(i);
      }
    }
    if (siblings.size() < 2 || segments.isEmpty()) {
      return own;
    }
    List<Clause> share = new ArrayList<>();
    int at = siblings.get(0);
    boolean named = false;
    int sentence = -1;
    for (Clause clause : own) {
      int found = -1;
      for (int sibling : siblings) {
        if (found < 0 && names(sibling, siblings, clause)) {
          found = sibling;
        }
      }
      if (found >= 0) {
        at = found;
        named = true;
      } else if (!named && clause.sentenceIndex() != sentence && sentence >= 0) {
        int next = siblings.indexOf(at) + 1;
        at = siblings.get(Math.min(next, siblings.size() - 1));
      }
      sentence = clause.sentenceIndex();
      if (at == place) {
        share.add(clause);
      }
    }
    if (share.isEmpty()) {
      own.stream()
          .filter(
              clause ->
                  siblings.stream()
                      .noneMatch(other -> other != place && names(other, siblings, clause)))
          .forEach(share::add);
    }
    return share;
  }

  /** Tells whether a clause uses words that, of some demands, only one uses. */
  private boolean names(int place, List<Integer> places, Clause clause) {
    return clause.content().stream()
        .anyMatch(
            word ->
                segments.get(place).words().contains(word)
                    && places.stream()
                        .noneMatch(
                            other -> other != place && segments.get(other).words().contains(word)));
  }

  /** Tells whether a clause uses words that only one of the part's demands uses. */
  boolean speaksOf(int place, Clause clause) {
    return !segments.isEmpty()
        && names(place, IntStream.range(0, segments.size()).boxed().toList(), clause);
  }

  /** Tells whether a clause only says again what one sentence of the set-up told. */
  boolean retells(Clause clause, Predicate<String> said) {
    return clause.content().size() >= 1
        && told.stream()
            .anyMatch(
                known ->
                    clause.content().stream().allMatch(w -> known.has(w) || said.test(w))
                        && clause.content().stream().anyMatch(known::has));
  }

  /** Tells whether a word is a comparative of one the prompt uses: "rounder". */
  boolean isGraded(Token token) {
    return token.form().endsWith("er")
        && !everything.words().contains(token.stem())
        && everything.has(token.form());
  }

  /** Returns the words in which a demand asks; all of the asking ones when that is not clear. */
  Vocabulary askOf(int place) {
    return segments.isEmpty() ? ask : segments.get(place);
  }

  /** Cuts sentences behind question marks, which the splitter may leave inside. */
  private static List<Sentence> pieces(List<Sentence> sentences) {
    List<Sentence> pieces = new ArrayList<>();
    for (Sentence sentence : sentences) {
      int from = 0;
      for (int i = 0; i < sentence.size(); i++) {
        if (sentence.form(i).equals("?") || i + 1 == sentence.size()) {
          List<Token> tokens = sentence.tokens().subList(from, i + 1);
          pieces.add(
              new Sentence(
                  tokens.get(0).start(),
                  tokens.get(tokens.size() - 1).end(),
                  tokens,
                  from == 0 && sentence.lineStart(),
                  from == 0 && sentence.paragraphStart()));
          from = i + 1;
        }
      }
    }
    return pieces;
  }

  private static final int LEAST_NAMED = 3;

  /** Tells whether a sentence is handed back from the prompt, word for word or nearly so. */
  boolean isCopied(Sentence sentence) {
    return copied.holds(sentence);
  }

  /** Tells whether a sentence of the prompt asks for something. */
  private static boolean asks(Sentence sentence, String text) {
    String surface = sentence.span().of(text);
    if (surface.strip().endsWith("?")) {
      return true;
    }
    for (int i = 0; i < sentence.size(); i++) {
      String form = sentence.form(i);
      boolean opens =
          i == 0 || form(sentence, i - 1).equals(",") || form(sentence, i - 1).equals("and");
      if (opens && (isTask(form) || (WHY.contains(form) && !form.equals("evidence")))) {
        return true;
      }
    }
    return false;
  }

  private static boolean isTask(String form) {
    for (DemandKind kind : DemandKind.values()) {
      if (kind.word().equals(form)) {
        return true;
      }
    }
    return Set.of(
            "state",
            "name",
            "give",
            "suggest",
            "determine",
            "discuss",
            "list",
            "outline",
            "design",
            "estimate",
            "show",
            "write",
            "use",
            "support")
        .contains(form);
  }

  private static String form(Sentence sentence, int i) {
    return i < sentence.size() && i >= 0 ? sentence.form(i) : "";
  }

  /** Returns the asking sentence that a claim would answer: the first that is not about grounds. */
  private static Sentence claimQuestion(List<Sentence> asking) {
    for (Sentence sentence : asking) {
      String first = sentence.form(0);
      boolean aboutGrounds =
          first.equals("why")
              || first.equals("explain")
              || first.equals("justify")
              || first.equals("support")
              || (first.equals("what") && containsAny(sentence, "evidence", "reason", "reasons"));
      if (!aboutGrounds) {
        return sentence;
      }
    }
    return asking.get(0);
  }

  /** Tells whether one of the asking sentences has a pattern. */
  private boolean asks(List<Sentence> asking, Pattern pattern) {
    return asking.stream().anyMatch(s -> pattern.matcher(s.span().of(part.text())).find());
  }

  private static boolean containsAny(Sentence sentence, String... forms) {
    Set<String> wanted = Set.of(forms);
    return sentence.tokens().stream().anyMatch(token -> wanted.contains(token.form()));
  }

  private Choice choose(WordClasses words, List<Sentence> told, String text) {
    int from = 0;
    if (FRONTED.contains(question.form(0))) {
      for (int i = 0; i < question.size(); i++) {
        if (question.form(i).equals(",")) {
          from = i + 1;
        }
      }
    }
    for (int i = 0; i < question.size(); i++) {
      if (question.form(i).equals("or") && !form(question, i + 1).equals("why")) {
        option(words, i - 1, -1);
        option(words, i + 1, 1);
      }
    }
    String first = form(question, from);
    boolean imperative = isTask(first);
    boolean which = containsAny(question, "which");
    if (which && !imperative) {
      if (options.isEmpty()) {
        names(words, told, text);
        return Choice.WHICH;
      }
      return Choice.OPTION;
    }
    if (words.is(question.tokens().get(Math.min(from, question.size() - 1)), Form.AUXILIARY)) {
      return options.isEmpty() ? Choice.YES_NO : Choice.OPTION;
    }
    int how = position("how");
    if (how >= 0 && how + 1 < question.size()) {
      String next = question.form(how + 1);
      if (next.equals("many") || next.equals("much") || next.equals("far") || next.equals("long")) {
        return Choice.QUANTITY;
      }
      if (!words.is(question.tokens().get(how + 1), Form.FUNCTION)) {
        return Choice.DEGREE;
      }
    }
    if (imperative || first.equals("what")) {
      for (int i = from; i < Math.min(question.size(), from + 5); i++) {
        if (AMOUNTS.contains(question.form(i)) && !first.equals("predict")) {
          return imperative && !form(question, i).equals("ratio") ? Choice.NAME : Choice.QUANTITY;
        }
        if (question.form(i).equals("of")) {
          break;
        }
      }
    }
    return imperative ? Choice.NAME : Choice.OPEN;
  }

  private int position(String form) {
    for (int i = 0; i < question.size(); i++) {
      if (question.form(i).equals(form)) {
        return i;
      }
    }
    return -1;
  }

  /** Takes the words beside "or" up to a mark or a word that joins. */
  private void option(WordClasses words, int at, int step) {
    int i = at;
    int taken = 0;
    while (i >= 0 && i < question.size() && taken < 3) {
      Token token = question.tokens().get(i);
      if (token.isWord()) {
        boolean letter = token.form().length() == 1;
        if (letter || words.isContent(token)) {
          if (taken > 0 && !startsUpper(token) && !words.is(token, Stem.PURE)) {
            break;
          }
          options.add(letter ? token.form() : words.key(token));
          taken++;
          if (!startsUpper(token)) {
            break;
          }
        } else if (words.is(token, Form.AUXILIARY) || taken > 0) {
          break;
        }
      } else if (taken > 0) {
        break;
      }
      i += step;
    }
    // Options in a list before the last one, as in "north, south, or inland".
    if (step < 0) {
      for (int j = 0; j < at; j++) {
        Token token = question.tokens().get(j);
        if (words.is(token, Stem.PURE) && form(question, j + 1).equals("than")) {
          options.add(words.key(token));
        }
      }
    }
  }

  private boolean startsUpper(Token token) {
    return Character.isUpperCase(part.text().charAt(token.start()));
  }

  private void names(WordClasses words, List<Sentence> told, String text) {
    for (Sentence sentence : told) {
      for (int i = 0; i < sentence.size(); i++) {
        Token token = sentence.tokens().get(i);
        if (token.isWord() && Character.isUpperCase(text.charAt(token.start()))) {
          String form = token.form().replace("'s", "");
          if (i > 0 || (sentence.size() > 1 && sentence.form(1).equals("and"))) {
            options.add(form);
            options.add(words.key(token));
          }
        }
      }
    }
  }
}
