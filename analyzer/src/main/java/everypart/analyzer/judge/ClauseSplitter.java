package everypart.analyzer.judge;

import everypart.analyzer.judge.Clause.Role;
import everypart.analyzer.judge.WordClasses.Form;
import everypart.analyzer.judge.WordClasses.Stem;
import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.Token;
import everypart.lexicon.Language;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/**
 * Splits sentences into clauses by marks and connectives, and says which of them are grounds,
 * results and conditions. It needs no parser: an answer's connectives stand where its clauses meet.
 */
final class ClauseSplitter {
  private static final Vocabulary BECAUSE = new Vocabulary(Language.english().words("because"));
  private static final Set<String> STRONG =
      Set.of(";", ":", "(", ")", "[", "]", "\u2013", "\u2014");
  private static final Set<String> ARROW = Set.of(">", "\u2192", "\u21d2");
  private static final Set<String> STOPS = Set.of(".", "!", "?");

  private static final Set<String> OPENS_NOUN_PHRASE =
      Language.english().words("opens_noun_phrase");
  private static final Set<String> NAMES_A_GROUND = Language.english().words("names_a_ground");
  private static final Set<String> COUNTED_BY_SO = Language.english().words("counted_by_so");
  private static final Set<String> PARTS_CLAUSES = Language.english().words("parts_clauses");
  private static final Set<String> BROKEN_OFF = Language.english().words("broken_off");

  private final WordClasses words;

  ClauseSplitter(WordClasses words) {
    this.words = words;
  }

  /** Splits a sentence. */
  List<Clause> split(Sentence sentence, int index) {
    List<Clause> clauses = new ArrayList<>();
    List<Token> tokens = sentence.tokens();
    int start = 0;
    Role role = Role.MAIN;
    boolean opened = false; // the sentence began with a ground or a condition
    int i = 0;
    while (i < tokens.size()) {
      Token token = tokens.get(i);
      if (!token.isWord() && !token.isNumber()) {
        boolean comma = token.form().equals(",");
        boolean dash = token.form().equals("-") && isSpaced(tokens, i);
        boolean arrow = ARROW.contains(token.form());
        boolean ratio =
            token.form().equals(":")
                && i > 0
                && i + 1 < tokens.size()
                && tokens.get(i - 1).isNumber()
                && tokens.get(i + 1).isNumber();
        boolean strong = !ratio && (STRONG.contains(token.form()) || STOPS.contains(token.form()));
        if (comma || dash || arrow || strong) {
          boolean goesOn = i + 1 < tokens.size() && continues(tokens.get(i + 1));
          if (comma && goesOn && role != Role.CONDITION) {
            i++;
            continue;
          }
          int length = i - start;
          add(clauses, sentence, start, i, role, index, false);
          start = i + 1;
          if (arrow) {
            role = Role.RESULT;
          } else if (comma) {
            boolean closes =
                role == Role.CONDITION || (role == Role.GROUND && opened && length >= 3);
            role = closes && !(opened && groundBefore(clauses, index)) ? Role.MAIN : role;
            opened = false;
          } else if (strong && !token.form().equals("(")) {
            role = role == Role.CONDITION || STOPS.contains(token.form()) ? Role.MAIN : role;
          }
        }
        i++;
        continue;
      }
      boolean answered =
          i == 0
              && tokens.size() > 2
              && (words.is(token, Form.YES) || words.is(token, Form.NO))
              && (words.is(tokens.get(1), Form.PRONOUN) || tokens.get(1).form().equals("the"));
      if (answered) {
        add(clauses, sentence, 0, 1, role, index, false);
        start = 1;
        i = 1;
        continue;
      }
      int marker = groundMarker(tokens, i, start);
      if (marker > 0) {
        if (i > start) {
          add(clauses, sentence, start, i, role, index, false);
        }
        opened = i == 0;
        role = Role.GROUND;
        start = i + marker;
        i = start;
        continue;
      }
      marker = resultMarker(tokens, i);
      if (marker > 0) {
        if (i > start) {
          add(clauses, sentence, start, i, role, index, false);
        }
        role = Role.RESULT;
        start = i + marker;
        i = start;
        continue;
      }
      if (words.is(token, Form.CONDITION) && isCondition(tokens, i)) {
        if (i > start) {
          add(clauses, sentence, start, i, role, index, false);
        }
        opened = i == 0 || opened;
        role = role == Role.GROUND ? Role.GROUND : Role.CONDITION;
        start = i;
        i++;
        continue;
      }
      boolean newSubject = i > start + 2 && role == Role.CONDITION && beginsConsequence(tokens, i);
      if (newSubject) {
        add(clauses, sentence, start, i, role, index, false);
        role = Role.MAIN;
        start = i;
      } else if (i > start && role == Role.CONDITION && token.form().equals("then")) {
        add(clauses, sentence, start, i, role, index, false);
        role = Role.MAIN;
        start = i + 1;
      } else if (i > start && coordinates(tokens, i)) {
        add(clauses, sentence, start, i, role, index, false);
        start = i + 1;
      }
      i++;
    }
    if (start < tokens.size()) {
      boolean cut = breaksOff(tokens);
      add(clauses, sentence, start, tokens.size(), role, index, cut);
      // What leads up to the place where the text breaks off is unfinished too.
      for (int k = clauses.size() - 2; cut && k >= 0 && clauses.get(k).role() != Role.MAIN; k--) {
        clauses.set(k, clauses.get(k).asCut());
      }
    }
    for (int k = 0; k + 1 < clauses.size(); k++) {
      boolean led = clauses.get(k).role() == Role.MAIN && clauses.get(k + 1).role() == Role.RESULT;
      if (led && clauses.get(k).size() > 1) {
        clauses.set(k, clauses.get(k).withRole(Role.SUPPORT));
      }
    }
    return clauses;
  }

  private static boolean groundBefore(List<Clause> clauses, int index) {
    return clauses.stream().anyMatch(c -> c.sentenceIndex() == index && c.role() == Role.GROUND)
        && clauses.get(clauses.size() - 1).role() == Role.CONDITION;
  }

  /** A list goes on after the comma: "gulls, terns, or crabs". */
  private static boolean continues(Token next) {
    return next.isWord() && next.form().equals("or");
  }

  private static boolean isSpaced(List<Token> tokens, int i) {
    boolean before = i == 0 || tokens.get(i - 1).end() < tokens.get(i).start();
    boolean after = i + 1 == tokens.size() || tokens.get(i).end() < tokens.get(i + 1).start();
    boolean beforeNumber = i + 1 < tokens.size() && tokens.get(i + 1).isNumber();
    return (before || after) && !(beforeNumber && i > 0);
  }

  /** Returns how many tokens mark what follows as a ground, 0 when none do. */
  private int groundMarker(List<Token> tokens, int i, int start) {
    String form = tokens.get(i).form();
    String next = form(tokens, i + 1);
    String before = i > 0 ? tokens.get(i - 1).form() : "";
    if (form.equals("because") || isMisspelledBecause(form)) {
      return next.equals("of") ? 2 : 1;
    }
    if ((form.equals("due") || form.equals("owing")) && next.equals("to")) {
      return 2;
    }
    boolean clauseFollows =
        i + 1 < tokens.size()
            && (words.is(tokens.get(i + 1), Form.PRONOUN) || OPENS_NOUN_PHRASE.contains(next));
    if (form.equals("since")) {
      return i == start || clauseFollows || before.equals(",") ? 1 : 0;
    }
    if (form.equals("as") && clauseFollows && !next.equals("you")) {
      return i == start || before.equals(",") ? 1 : 0;
    }
    if (form.equals("for") && before.equals(",") && clauseFollows) {
      return 1;
    }
    if (NAMES_A_GROUND.contains(form)
        && (next.equals("is") || next.equals(":") || next.equals("being"))) {
      return form(tokens, i + 2).equals("that") ? 3 : 2;
    }
    return 0;
  }

  private static boolean isMisspelledBecause(String form) {
    return form.startsWith("b") && form.length() >= 6 && form.length() <= 9 && BECAUSE.has(form);
  }

  private int resultMarker(List<Token> tokens, int i) {
    Token token = tokens.get(i);
    String form = token.form();
    String next = form(tokens, i + 1);
    if ((form.equals("that") || form.equals("which") || form.equals("this"))
        && next.equals("is")
        && form(tokens, i + 2).equals("why")) {
      return 3;
    }
    if ((form.equals("that's") || form.equals("thats")) && next.equals("why")) {
      return 2;
    }
    if (form.equals("which") && (next.equals("means") || next.equals("makes"))) {
      return 2;
    }
    if (!words.is(token, Form.RESULT)) {
      return 0;
    }
    if (form.equals("so")) {
      boolean degree = COUNTED_BY_SO.contains(next);
      boolean linked =
          i == 0
              || (!words.is(tokens.get(i - 1), Form.AUXILIARY)
                  && !tokens.get(i - 1).form().equals("think"));
      if (degree || !linked || next.equals("is") || i + 1 >= tokens.size()) {
        return 0;
      }
      return next.equals("that") ? 2 : 1;
    }
    return 1;
  }

  /** A pronoun with its auxiliary, or "the tide would", begins what a condition leads to. */
  private boolean beginsConsequence(List<Token> tokens, int i) {
    if (words.is(tokens.get(i), Form.PRONOUN)) {
      return i + 1 < tokens.size() && words.is(tokens.get(i + 1), Form.AUXILIARY);
    }
    if (!tokens.get(i).form().equals("the")) {
      return false;
    }
    for (int j = i + 2; j < Math.min(tokens.size(), i + 5); j++) {
      if (words.is(tokens.get(j), Form.MODAL)) {
        return true;
      }
      if (words.is(tokens.get(j), Form.FUNCTION)) {
        return false;
      }
    }
    return false;
  }

  private boolean isCondition(List<Token> tokens, int i) {
    String form = tokens.get(i).form();
    if (form.equals("should")) {
      return i == 0;
    }
    if (form.equals("once")) {
      return i == 0 || !tokens.get(i - 1).form().equals("at");
    }
    return i + 1 < tokens.size();
  }

  private boolean coordinates(List<Token> tokens, int i) {
    Token token = tokens.get(i);
    String form = token.form();
    if (i + 1 >= tokens.size()) {
      return false;
    }
    Token next = tokens.get(i + 1);
    if (form.equals("and") || form.equals("or")) {
      return words.is(next, Form.PRONOUN) || next.form().equals("the") || next.form().equals("i'd");
    }
    return PARTS_CLAUSES.contains(form);
  }

  private boolean breaksOff(List<Token> tokens) {
    Token last = tokens.get(tokens.size() - 1);
    if (!last.isWord() || tokens.size() < 3) {
      return false;
    }
    return BROKEN_OFF.contains(last.form());
  }

  private static String form(List<Token> tokens, int i) {
    return i < tokens.size() ? tokens.get(i).form() : "";
  }

  private void add(
      List<Clause> clauses,
      Sentence sentence,
      int from,
      int to,
      Role role,
      int index,
      boolean cut) {
    int start = from;
    int end = to;
    List<Token> tokens = sentence.tokens();
    while (start < end && isMark(tokens.get(start))) {
      start++;
    }
    while (end > start && isMark(tokens.get(end - 1))) {
      end--;
    }
    if (start == end) {
      return;
    }
    clauses.add(
        new Clause(
            sentence,
            start,
            end,
            role,
            index,
            cut,
            content(tokens.subList(start, end)),
            NumberWords.in(tokens.subList(start, end)),
            words.classes(tokens.subList(start, end))));
  }

  private static boolean isMark(Token token) {
    return !token.isWord()
        && !token.isNumber()
        && !token.form().equals("%")
        && !token.form().equals("-")
        && !token.form().equals("=")
        && !token.form().equals("(");
  }

  /** Returns the keys of the words that say something specific. */
  Set<String> content(List<Token> tokens) {
    Set<String> content = new LinkedHashSet<>();
    for (int i = 0; i < tokens.size(); i++) {
      Token token = tokens.get(i);
      boolean measured = words.is(token, Stem.UNIT) && i > 0 && tokens.get(i - 1).isNumber();
      if (!measured
          && words.isContent(token)
          && !words.is(token, Stem.EMPTY)
          && !words.isMisspelledEmpty(token)
          && !words.is(token, Stem.PURE)
          && !words.is(token, Stem.CHANGE)) {
        content.add(words.key(token));
      }
    }
    return content;
  }
}
