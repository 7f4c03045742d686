package everypart.analyzer.judge;

import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.Span;
import everypart.analyzer.text.Token;
import java.util.List;
import java.util.Set;

/**
 * A clause, or a piece of one between marks, and its role beside its neighbours.
 *
 * @param sentence the sentence it is in
 * @param from its first token
 * @param to the token after its last one
 * @param role what it does in its sentence
 * @param sentenceIndex which sentence of the reading it is in
 * @param cut whether the text breaks off in it
 * @param content the keys of its words that say something specific
 * @param numbers the numbers in it, in figures or in words
 * @param classes the classes of words that are in it, a bit each
 */
record Clause(
    Sentence sentence,
    int from,
    int to,
    Role role,
    int sentenceIndex,
    boolean cut,
    Set<String> content,
    Set<String> numbers,
    long classes) {

  /** What a clause does in its sentence. */
  enum Role {
    /** It stands by itself. */
    MAIN,
    /** What comes behind it follows from it: "the lid was loose, so it leaked". */
    SUPPORT,
    /** A connective marks it as the ground or cause of another. */
    GROUND,
    /** It follows from what was said before it. */
    RESULT,
    /** It says under which condition another holds. */
    CONDITION
  }

  Clause {
    content = Set.copyOf(content);
    numbers = Set.copyOf(numbers);
  }

  List<Token> tokens() {
    return sentence.tokens().subList(from, to);
  }

  Span span() {
    return new Span(sentence.tokens().get(from).start(), sentence.tokens().get(to - 1).end());
  }

  /** Tells whether its wording marks it as a ground. */
  boolean isMarked() {
    return role == Role.GROUND || role == Role.SUPPORT;
  }

  Clause asCut() {
    return new Clause(sentence, from, to, role, sentenceIndex, true, content, numbers, classes);
  }

  Clause withRole(Role other) {
    return new Clause(sentence, from, to, other, sentenceIndex, cut, content, numbers, classes);
  }

  int size() {
    return to - from;
  }

  Token first() {
    return sentence.tokens().get(from);
  }
}
