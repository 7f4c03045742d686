package everypart.analyzer.detect;

import everypart.analyzer.detect.Clause.Role;
import everypart.analyzer.detect.PartReading.Choice;
import everypart.analyzer.detect.WordClasses.Form;
import everypart.analyzer.detect.WordClasses.Stem;
import everypart.analyzer.text.Token;
import everypart.lexicon.DemandKind;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/** Tells which move a clause makes. Knows words and clauses, and nothing of demands' verdicts. */
final class Moves {
  private static final Set<Stem> DIRECTIONS = EnumSet.of(Stem.UP, Stem.DOWN, Stem.LEVEL);

  /** "If it falls the ...": fewer words are no condition with something behind it. */
  private static final int LEAST_CONDITION = 4;

  private static final Set<String> WILL = Set.of("will", "would", "won't", "wouldn't");

  /** With more words than this that the set-up has too, an outcome is the set-up over again. */
  private static final int MOST_NAMED = 2;

  private static final int LONGEST_NAME = 3;

  /** What may stand before the thing that is picked out. */
  private static final Set<String> ARTICLES = Set.of("the", "a", "an", "it", "is", "it's", "its");

  /** So many words on either side of a clause are read with it. */
  private static final int NEIGHBOURS = 30;

  private static final Set<String> PACE =
      Set.of("long", "slow", "slowli", "fast", "quick", "quickli", "longer", "faster", "slower");

  private static final Vocabulary NOTHING = new Vocabulary(Set.of());

  private final WordClasses words;

  Moves(WordClasses words) {
    this.words = words;
  }

  WordClasses words() {
    return words;
  }

  /** Returns the directions a clause names: more, less, the same. */
  Set<Stem> directions(Clause clause) {
    return directions(clause, NOTHING);
  }

  /** Tells whether a part asks about pace, so that "slower" and "longer" say it again. */
  boolean speaksOfPace(PartReading part) {
    return PACE.stream().anyMatch(part.questionTokens::contains);
  }

  /** Returns the directions a clause names in words that are not among those known. */
  Set<Stem> directions(Clause clause, Vocabulary known) {
    Set<Stem> found = EnumSet.noneOf(Stem.class);
    boolean named = DIRECTIONS.stream().anyMatch(direction -> has(clause, direction));
    if (!named && !has(clause, "than")) {
      return found;
    }
    List<Token> tokens = clause.tokens();
    for (int i = 0; i < tokens.size(); i++) {
      Token token = tokens.get(i);
      for (Stem direction : DIRECTIONS) {
        if (words.is(token, direction)
            && !isAnyMore(tokens, i)
            && !known.words().contains(words.key(token))) {
          found.add(direction);
        }
      }
      String form = token.form();
      boolean comparative =
          form.length() > 4 && form.endsWith("er") && !words.is(token, Form.FUNCTION);
      if (comparative && form(tokens, i + 1).equals("than")) {
        found.add(Stem.UP);
      }
    }
    return found;
  }

  /** Says that something is absent: "there is no", "it does not have any", "without". */
  boolean lacks(Clause clause) {
    if (!has(clause, Form.NEGATION) && !has(clause, Form.NO)) {
      return false;
    }
    List<Token> tokens = clause.tokens();
    for (int i = 0; i + 1 < tokens.size(); i++) {
      String form = tokens.get(i).form();
      if (form.equals("no") || form.equals("without")) {
        return true;
      }
      if (words.is(tokens.get(i), Form.NEGATION) && words.is(tokens.get(i + 1), Form.HOLDS)) {
        return true;
      }
      if (words.is(tokens.get(i), Form.HOLDS) && words.is(tokens.get(i + 1), Form.NEGATION)) {
        return true;
      }
    }
    return false;
  }

  /** Denies something where the question does not. */
  boolean denies(PartReading part, Clause clause) {
    return has(clause, Form.NEGATION)
        && part.question.tokens().stream().noneMatch(token -> words.is(token, Form.NEGATION));
  }

  /** Sets one thing against another: "smaller than the sand", "too small". */
  boolean setsAgainst(Clause clause) {
    return has(clause, "than", "too");
  }

  /** Names a size or a degree that the question does not: "small". */
  boolean grades(PartReading part, Clause clause) {
    return clause.tokens().stream()
        .anyMatch(token -> words.is(token, Stem.PURE) && !part.stems.contains(token.stem()));
  }

  private static boolean isAnyMore(List<Token> tokens, int i) {
    return tokens.get(i).form().equals("more") && i > 0 && form(tokens, i - 1).equals("any");
  }

  private static String form(List<Token> tokens, int i) {
    return i < tokens.size() ? tokens.get(i).form() : "";
  }

  boolean has(Clause clause, Form form) {
    return (clause.classes() & WordClasses.bit(form)) != 0;
  }

  boolean has(Clause clause, Stem stem) {
    return (clause.classes() & WordClasses.bit(stem)) != 0;
  }

  static boolean has(Clause clause, String... forms) {
    for (int i = clause.from(); i < clause.to(); i++) {
      String form = clause.sentence().form(i);
      for (String wanted : forms) {
        if (form.equals(wanted)) {
          return true;
        }
      }
    }
    return false;
  }

  /** How much a clause says that the known words do not: words, and directions at half a word. */
  double novelty(Clause clause, Vocabulary known, Vocabulary halfKnown, Set<Stem> directions) {
    double sum = 0;
    for (String word : clause.content()) {
      if (known.has(word)) {
        continue;
      }
      sum += halfKnown.has(word) ? 0.4 : 1;
    }
    for (Stem direction : directions(clause)) {
      if (!directions.contains(direction)) {
        sum += 0.5;
      }
    }
    return sum;
  }

  /**
   * Tells whether a clause sets two things apart or makes them one, where the question does not.
   */
  boolean setsApart(PartReading part, Clause clause) {
    return has(clause, Stem.POLAR)
        && clause.tokens().stream()
            .anyMatch(
                token ->
                    words.is(token, Stem.POLAR)
                        && !words.is(token, Form.NO)
                        && !part.questionTokens.contains(token.stem()));
  }

  /** A bare list of words, without a verb or anything that joins them. */
  static boolean isWordList(List<Clause> sentence, WordClasses words) {
    return sentence.size() >= 3
        && sentence.stream()
            .allMatch(
                clause ->
                    clause.size() <= 2
                        && clause.tokens().stream().noneMatch(t -> words.is(t, Form.FUNCTION))
                        && clause.numbers().isEmpty());
  }

  /** Begins with a subject: a pronoun, an article, or a noun phrase before an auxiliary. */
  boolean hasSubject(Clause clause) {
    Token first = clause.first();
    if (words.is(first, Form.PRONOUN)
        || Set.of("the", "a", "an", "some", "all", "no", "my", "its", "one")
            .contains(first.form())) {
      return true;
    }
    List<Token> tokens = clause.tokens();
    for (int i = 1; i < Math.min(6, tokens.size()); i++) {
      if (words.is(tokens.get(i), Form.AUXILIARY)) {
        return true;
      }
    }
    return false;
  }

  /** Tells what somebody does or should do: an instruction, or a person with a verb. */
  boolean isAction(PartReading part, Clause clause) {
    List<Token> tokens = clause.tokens();
    Token first = tokens.get(0);
    boolean agent =
        words.is(first, Form.AGENT)
            || part.names.contains(first.form())
            || (tokens.size() > 1
                && words.is(first, Form.RESULT)
                && words.is(tokens.get(1), Form.AGENT));
    if (agent) {
      return !has(clause, "observe", "notice", "expect");
    }
    if (has(clause, "look") && has(clause, "for")) {
      return false;
    }
    int i = 0;
    while (i < tokens.size()
        && (Set.of("then", "first", "next", "and", "or", "to", "also", "finally", "after", "by")
                .contains(tokens.get(i).form())
            || tokens.get(i).isNumber()
            || !tokens.get(i).isWord())) {
      i++;
    }
    if (i == tokens.size()) {
      return false;
    }
    Token verb = tokens.get(i);
    boolean opens = !words.is(verb, Form.FUNCTION) && !words.is(verb, Form.PRONOUN);
    return opens && !hasSubject(clause) && tokens.size() - i >= 2;
  }

  /**
   * Says nothing of the matter: that the writer does not know, or about the task, the teacher, or
   * what people ought to do.
   */
  boolean isPadding(Clause clause) {
    return has(clause, Form.UNSURE)
        || has(clause, "teacher", "marks", "mark", "asked", "exam", "calculator")
        || (clause.role() != Role.GROUND
            && has(clause, Form.NORM)
            && has(clause, "people", "someone"));
  }

  /** Says that the writer does not know. */
  boolean isUnsure(Clause clause) {
    return has(clause, Form.UNSURE)
        || (has(clause, Form.NEGATION)
            && has(clause, "know", "sure")
            && has(clause, "i", "im", "i'm"));
  }

  /** Uses a word, however general, that the question does not. */
  private boolean isFresh(PartReading part, Clause clause) {
    return clause.tokens().stream()
        .anyMatch(token -> words.isContent(token) && !part.questionTokens.contains(token.stem()));
  }

  /** Says what comes of it, where the part asks what it is good for: "so others will know". */
  boolean tellsPurpose(PartReading part, Clause clause) {
    boolean later =
        has(clause, Form.MODAL)
            || has(clause, Form.FUTURE)
            || clause.role() == Role.RESULT
            || (clause.role() != Role.CONDITION && isOnDenial(clause))
            || (has(clause, "to") && has(clause, "have", "has", "need", "needs"));
    return part.wantsPurpose && later && isFresh(part, clause);
  }

  /** Returns a clause with what stands around it in its sentence, which may be a whole book. */
  static List<Token> around(Clause clause) {
    List<Token> tokens = clause.sentence().tokens();
    return tokens.subList(
        Math.max(0, clause.from() - NEIGHBOURS), Math.min(tokens.size(), clause.to() + NEIGHBOURS));
  }

  /** Stands in a sentence with a condition that denies: "if you do not ..., you get it wrong". */
  private boolean isOnDenial(Clause clause) {
    boolean condition = false;
    for (Token token : around(clause)) {
      condition |= token.form().equals("if") || token.form().equals("without");
      if (condition && (words.is(token, Form.NEGATION) || token.form().equals("without"))) {
        return true;
      }
    }
    return false;
  }

  /** "By making", "by the colour": a way or a sign. */
  private static boolean saysBy(Clause clause) {
    for (int i = 0; i + 1 < clause.size(); i++) {
      String next = clause.tokens().get(i + 1).form();
      if (clause.tokens().get(i).form().equals("by") && next.length() > 4 && next.endsWith("ing")) {
        return true;
      }
    }
    return false;
  }

  /** "The longer it is, the lower it sounds": one grows with the other. */
  boolean goesTogether(Clause clause) {
    int grades = 0;
    List<Token> tokens = around(clause);
    for (int i = 0; i + 1 < tokens.size(); i++) {
      Token next = tokens.get(i + 1);
      boolean graded =
          next.form().equals("more")
              || next.form().equals("less")
              || (next.form().length() > 4
                  && next.form().endsWith("er")
                  && (words.is(next, Stem.PURE)
                      || words.is(next, Stem.UP)
                      || words.is(next, Stem.DOWN)));
      grades += tokens.get(i).form().equals("the") && graded ? 1 : 0;
    }
    return grades >= 2;
  }

  /** Says what a thing is there for, where the part asks for it: "its job is to move". */
  boolean tellsFunction(PartReading part, Clause clause) {
    if (!part.wantsFunction) {
      return false;
    }
    List<Token> tokens = clause.tokens();
    for (int i = 0; i + 1 < tokens.size(); i++) {
      Token next = tokens.get(i + 1);
      if (tokens.get(i).form().equals("to")
          && words.isContent(next)
          && !part.questionTokens.contains(next.stem())) {
        return true;
      }
    }
    return false;
  }

  /** Makes something more or less: "make the slope steeper". */
  boolean turns(Clause clause) {
    return has(clause, "make", "get", "put", "turn", "keep") && !directions(clause).isEmpty();
  }

  /** Says by what one knows or finds out, where the part asks for it: "if it works", "compare". */
  boolean tellsWay(PartReading part, Clause clause) {
    return part.wantsWay
        && isFresh(part, clause)
        && (clause.role() == Role.CONDITION || has(clause, Form.METHOD) || saysBy(clause));
  }

  /** Commits to an answer to the part's first question. */
  boolean commits(PartReading part, Clause clause) {
    return switch (part.choice) {
      case YES_NO -> saysYesOrNo(clause) || states(part, clause);
      case OPTION -> names(part, clause);
      case WHICH -> names(part, clause) || picksOut(part, clause);
      case QUANTITY ->
          clause.role() != Role.GROUND
              && !has(clause, "with")
              && !clause.numbers().isEmpty()
              && (!part.questionTokens.contains("ratio") || isRatio(clause));
      case DEGREE ->
          clause.role() != Role.GROUND
              && clause.role() != Role.CONDITION
              && (!directions(clause).isEmpty()
                  || mentions(part, clause)
                  || has(clause, Form.COMPARE)
                  || namesLetter(clause)
                  || has(clause, "tied"));
      case OPEN ->
          clause.role() != Role.GROUND
              && clause.role() != Role.CONDITION
              && (saysMore(clause, 2) || clause.content().stream().anyMatch(w -> !part.ask.has(w)));
      case NAME -> isNamed(part, clause);
    };
  }

  /**
   * Picks a thing out where the question gives no list: "DNA ligase", "the tall one", "the brass
   * rod gets hotter". What is picked is no word of the question.
   */
  private boolean picksOut(PartReading part, Clause clause) {
    if (clause.role() != Role.MAIN || !opens(clause)) {
      return false;
    }
    List<Token> tokens = clause.tokens();
    int first = 0;
    while (first < tokens.size() && ARTICLES.contains(tokens.get(first).form())) {
      first++;
    }
    if (first == tokens.size() || !isPicked(part, tokens.get(first))) {
      return false;
    }
    boolean bare =
        tokens.size() - first <= LONGEST_NAME
            && tokens.stream()
                .skip(first)
                .noneMatch(t -> words.is(t, Form.FUNCTION) && !t.form().equals("one"));
    return bare || clause.content().stream().anyMatch(part.questionStems::contains);
  }

  private boolean isPicked(PartReading part, Token token) {
    return words.isContent(token)
        && !words.is(token, Stem.EMPTY)
        && !part.questionTokens.contains(token.stem());
  }

  /** Opens its sentence; the writer's label does not count. */
  private static boolean opens(Clause clause) {
    for (Token token : clause.sentence().tokens().subList(0, clause.from())) {
      if (token.isWord() && token.form().length() > 1 && !token.form().equals("part")) {
        return false;
      }
    }
    return true;
  }

  /** Numbers set against each other: "7:5", "seven to five". */
  private static boolean isRatio(Clause clause) {
    return has(clause, ":") || (has(clause, "to") && NumberWords.find(clause.tokens()).size() >= 2);
  }

  /** Puts a name to the thing asked for: a new word, alone or said of it. */
  private boolean isNamed(PartReading part, Clause clause) {
    if (clause.role() == Role.GROUND || clause.role() == Role.CONDITION) {
      return false;
    }
    boolean fresh = clause.content().stream().anyMatch(w -> !part.everything.has(w));
    boolean linked =
        clause.size() <= 5
            || Set.of("it", "this", "that", "they").contains(clause.first().form())
            || clause.content().stream().anyMatch(part.ask::has);
    if (fresh && linked) {
      return true;
    }
    boolean counted =
        part.questionTokens.contains("number") || part.questionTokens.contains("valu");
    if (counted && !clause.numbers().isEmpty()) {
      return true;
    }
    // "The length must be the same" names a variable by a word that says little elsewhere.
    return has(clause, Stem.LEVEL)
        && clause.tokens().stream()
            .filter(words::isContent)
            .findFirst()
            .filter(token -> !words.is(token, Stem.LEVEL))
            .filter(token -> !part.questionTokens.contains(token.stem()))
            .isPresent();
  }

  private boolean saysMore(Clause clause, int least) {
    return clause.content().size() + directions(clause).size() >= least || clause.size() > 3;
  }

  private boolean mentions(PartReading part, Clause clause) {
    return clause.content().stream().anyMatch(part.questionWords::has);
  }

  private static boolean namesLetter(Clause clause) {
    for (int i = 0; i < clause.size(); i++) {
      if (clause.tokens().get(i).form().length() == 1
          && clause.tokens().get(i).isWord()
          && isLetterName(clause, i)) {
        return true;
      }
    }
    return false;
  }

  /** Opens with yes, no or a stand. */
  boolean saysYesOrNo(Clause clause) {
    if (clause.role() == Role.GROUND || clause.role() == Role.CONDITION) {
      return false;
    }
    List<Token> tokens = clause.tokens();
    for (int i = 0; i < Math.min(4, tokens.size()); i++) {
      Token token = tokens.get(i);
      boolean opening =
          i == 0
              || Set.of(
                      "say",
                      "said",
                      "chose",
                      "choose",
                      "think",
                      "picked",
                      "is",
                      "basically",
                      "well")
                  .contains(tokens.get(i - 1).form());
      if (opening && (words.is(token, Form.YES) || words.is(token, Form.NO))) {
        return true;
      }
    }
    boolean thinksSo =
        clause.first().form().equals("i")
            && has(clause, "think")
            && clause.tokens().get(clause.size() - 1).form().equals("so");
    return thinksSo || has(clause, "agree", "disagree", "agreed", "disagreed");
  }

  /** Says the question's sentence over again as a statement, with a yes or no in its verb. */
  private boolean states(PartReading part, Clause clause) {
    if (clause.role() == Role.GROUND || clause.role() == Role.CONDITION) {
      return false;
    }
    String wanted = "";
    for (Token token : part.question.tokens()) {
      if (words.is(token, Form.AUXILIARY)) {
        wanted = family(token.form());
        break;
      }
    }
    boolean same = false;
    for (Token token : clause.tokens()) {
      if (words.is(token, Form.AUXILIARY) || words.is(token, Form.MODAL)) {
        same |= family(token.form()).equals(wanted) || family(token.form()).equals("do");
      }
    }
    boolean subject =
        has(clause, Form.PRONOUN)
            || clause.content().stream().anyMatch(part.questionStems::contains);
    if (!same || !subject) {
      return false;
    }
    boolean bare =
        clause.content().isEmpty()
            && !has(clause, Stem.PURE)
            && clause.size() <= 5
            && clause.size() > 1
            && (!wanted.equals("be") || hasRaw(part, clause));
    boolean overlap = false;
    Set<String> predicate = new HashSet<>(part.questionStems);
    for (Token token : clause.tokens()) {
      overlap |=
          predicate.contains(words.key(token)) || Set.of("work", "works").contains(token.form());
    }
    return bare
        || (overlap && family(first(clause)).equals(wanted))
        || (overlap && hasFamily(clause, wanted));
  }

  private boolean hasRaw(PartReading part, Clause clause) {
    return clause.tokens().stream()
        .anyMatch(token -> words.isContent(token) && part.questionStems.contains(words.key(token)));
  }

  private String first(Clause clause) {
    for (Token token : clause.tokens()) {
      if (words.is(token, Form.AUXILIARY)) {
        return token.form();
      }
    }
    return "";
  }

  private boolean hasFamily(Clause clause, String wanted) {
    return clause.tokens().stream().anyMatch(t -> family(t.form()).equals(wanted));
  }

  private static String family(String form) {
    return switch (form) {
      case "is",
          "are",
          "was",
          "were",
          "am",
          "isn't",
          "aren't",
          "it's",
          "they're",
          "that's",
          "its" ->
          "be";
      case "do", "does", "did", "don't", "doesn't", "didn't" -> "do";
      case "has", "have", "had" -> "have";
      case "can", "could", "can't", "cannot", "couldn't" -> "can";
      case "will", "would", "won't", "wouldn't", "it'll", "'ll" -> "will";
      case "should", "shouldn't" -> "should";
      default -> form;
    };
  }

  /** Names one of the options, bare or in the question's own sentence. */
  private boolean names(PartReading part, Clause clause) {
    if (clause.role() == Role.GROUND || clause.role() == Role.CONDITION) {
      return false;
    }
    boolean named = false;
    boolean other = false;
    List<Token> tokens = clause.tokens();
    for (int i = 0; i < tokens.size(); i++) {
      Token token = tokens.get(i);
      String form = token.form().replace("'s", "");
      boolean letter = form.length() == 1 && token.isWord();
      boolean option =
          letter
              ? isLetterName(clause, i)
              : part.options.contains(words.key(token))
                  || part.options.contains(form)
                  || (words.is(token, Form.ALL) && i == 0);
      if (option) {
        named = true;
      } else if (words.isContent(token)
          && !words.is(token, Stem.EMPTY)
          && !words.is(token, Stem.PURE)) {
        other = true;
      }
    }
    if (!named) {
      return has(clause, Stem.LEVEL)
          && clause.role() == Role.MAIN
          && part.choice == Choice.OPTION
          && !other;
    }
    if (!other) {
      return tokens.size() <= 8;
    }
    Set<String> predicate = new HashSet<>(part.questionStems);
    predicate.removeAll(part.options);
    boolean overlap =
        clause.content().stream().anyMatch(w -> predicate.contains(w) && !part.options.contains(w));
    return overlap;
  }

  private static boolean isLetterName(Clause clause, int i) {
    Token token = clause.tokens().get(i);
    String form = token.form();
    if (form.equals("i")) {
      return false;
    }
    if (!form.equals("a")) {
      return true;
    }
    if (i + 1 == clause.size()) {
      return true;
    }
    Token next = clause.tokens().get(i + 1);
    return !next.isWord()
        || Set.of("is", "was", "has", "had", "will", "would", "and", "or").contains(next.form());
  }

  /** Takes a stand on a claim, a plan or a method. */
  boolean judges(PartReading part, Clause clause) {
    if (clause.role() == Role.CONDITION || has(clause, "if", "whether", "depends", "maybe")) {
      return false;
    }
    if (clause.role() != Role.GROUND && saysYesOrNo(clause)) {
      return true;
    }
    return has(clause, Form.JUDGE) && clause.role() != Role.GROUND;
  }

  /** Says what will or would come about. */
  boolean predicts(PartReading part, Clause clause) {
    if (part.wantsAction && watches(part, clause)) {
      return true;
    }
    if (clause.role() == Role.CONDITION) {
      return endsInOutcome(part, clause);
    }
    if (clause.role() == Role.GROUND || isOpen(clause)) {
      return false;
    }
    if (part.choice == Choice.YES_NO && saysYesOrNo(clause)) {
      return true;
    }
    boolean directed =
        !directions(clause).isEmpty()
            || goes(clause)
            || staysPut(clause)
            || clause.tokens().stream().anyMatch(token -> part.isGraded(token));
    if (part.wantsAction) {
      boolean fresh = clause.content().stream().anyMatch(w -> !part.ask.has(w));
      return !isAction(part, clause)
          && (hasSubject(clause) || has(clause, "look"))
          && (directed || fresh)
          && !has(clause, "if");
    }
    boolean fresh = clause.content().stream().anyMatch(w -> !part.everything.has(w));
    boolean future =
        has(clause, Form.FUTURE)
            || has(clause, "can't", "cannot", "predict", "might", "may", "could");
    if (future && directed) {
      return true;
    }
    if (!future && has(clause, "was", "were", "had")) {
      return false;
    }
    boolean pronoun = words.is(clause.first(), Form.PRONOUN) && !has(clause, Stem.CHANGE);
    boolean onTarget = clause.content().stream().anyMatch(part.ask::has);
    boolean ofSetup =
        clause.content().size() <= MOST_NAMED
            && clause.content().stream().anyMatch(w -> part.setup.has(w) && !part.ask.has(w));
    boolean vague = has(clause, Stem.CHANGE);
    boolean told = future && !vague && clause.size() >= 3 && (onTarget || ofSetup || pronoun);
    boolean fragment = words.is(clause.first(), Form.PRONOUN) || isFragment(part, clause);
    return told
        || (directed && (fragment || onTarget || ofSetup))
        || (fresh && future && !vague && (fragment || onTarget))
        || (fresh && clause.size() <= 4 && fragment)
        || (!clause.numbers().isEmpty() && clause.size() <= 3);
  }

  /** A condition that runs on into its outcome: "when she pulls the rope the lamp will turn on". */
  private boolean endsInOutcome(PartReading part, Clause clause) {
    List<Token> tokens = clause.tokens();
    int modal = LEAST_CONDITION;
    while (modal < tokens.size() && !WILL.contains(tokens.get(modal).form())) {
      modal++;
    }
    return modal + 1 < tokens.size()
        && clause.content().stream().anyMatch(key -> !part.ask.has(key));
  }

  /** Has no verb of its own to speak of: "far wider", "gets rounder", "about 9". */
  private boolean isFragment(PartReading part, Clause clause) {
    List<Token> tokens = clause.tokens();
    if (words.is(tokens.get(0), Stem.EMPTY) || tokens.size() <= 3) {
      return true;
    }
    for (int i = 0; i < Math.min(3, tokens.size()); i++) {
      Token token = tokens.get(i);
      boolean degree =
          words.is(token, Stem.UP) || words.is(token, Stem.DOWN) || words.is(token, Stem.LEVEL);
      if (degree || (token.isNumber() && tokens.size() <= 5) || part.isGraded(token)) {
        return true;
      }
    }
    return false;
  }

  /** Leaves the outcome open: "it depends", "wider or narrower". */
  boolean isOpen(Clause clause) {
    if (has(clause, "depends", "depending", "depend")) {
      return true;
    }
    Set<Stem> named = directions(clause);
    return has(clause, "or") && named.contains(Stem.UP) && named.contains(Stem.DOWN);
  }

  /** "Goes up", "turns off": a direction in two words. */
  private boolean goes(Clause clause) {
    List<Token> tokens = clause.tokens();
    for (int i = 1; i < tokens.size(); i++) {
      String form = tokens.get(i).form();
      boolean direction =
          Set.of("up", "down", "back", "away").contains(form)
              && words.is(tokens.get(i - 1), Form.GOES);
      boolean switched =
          (Set.of("on", "off", "out").contains(form) && words.is(tokens.get(i - 1), Form.SWITCHES))
              || (form.equals("on") && words.is(tokens.get(i - 1), Form.GOES));
      if (direction || switched) {
        return true;
      }
    }
    return false;
  }

  /** "Does not change": no change is an outcome. */
  private boolean staysPut(Clause clause) {
    return has(clause, Form.NEGATION) && has(clause, Stem.CHANGE);
  }

  /** Says what to look for, or names an observation as a condition: "if it floats". */
  private boolean watches(PartReading part, Clause clause) {
    boolean fresh = clause.content().stream().anyMatch(w -> !part.ask.has(w));
    if (clause.role() == Role.CONDITION) {
      return fresh && clause.size() > 1 && !words.is(clause.tokens().get(1), Form.AGENT);
    }
    for (int i = 0; i + 1 < clause.size(); i++) {
      String form = clause.tokens().get(i).form();
      if ((form.equals("look") || form.equals("watch"))
          && clause.tokens().get(i + 1).form().equals("for")) {
        return fresh;
      }
    }
    return false;
  }

  /** The claim that a justification in this part belongs to. */
  boolean claims(PartReading part, DemandKind kind, Clause clause) {
    return switch (kind) {
      case IDENTIFY -> commits(part, clause);
      case EVALUATE -> judges(part, clause);
      case PREDICT -> predicts(part, clause);
      case CALCULATE -> clause.numbers().stream().anyMatch(n -> !part.numbers.contains(n));
      case PROPOSE -> clause.content().stream().anyMatch(w -> !part.ask.has(w));
      case DESCRIBE -> !directions(clause).isEmpty();
      default -> false;
    };
  }
}
