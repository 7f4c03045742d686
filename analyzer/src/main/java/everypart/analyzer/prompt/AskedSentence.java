package everypart.analyzer.prompt;

import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.Span;
import everypart.analyzer.text.Token;
import everypart.lexicon.TaskVerbs;
import everypart.lexicon.WordLine;
import java.util.BitSet;
import java.util.OptionalInt;

/**
 * A sentence of a prompt's wording, with what every step of reading needs: in which words no demand
 * can begin, where its first word is, and whether it is a question or an instruction.
 */
final class AskedSentence {
  private final TaskVerbs verbs;
  private final Sentence sentence;
  private final PlainWording wording;
  private final int offset;
  private final WordLine line;
  private final int size;
  private final BitSet closed = new BitSet();
  private final int start;
  private final boolean question;
  private final boolean opening;
  private final boolean aside;

  /**
   * Looks at a sentence.
   *
   * @param offset where the text of the sentence's tokens begins in the wording
   */
  AskedSentence(TaskVerbs verbs, Sentence sentence, PlainWording wording, int offset) {
    this.verbs = verbs;
    this.sentence = sentence;
    this.wording = wording;
    this.offset = offset;
    this.line = new WordLine(sentence);
    this.size = line.size();
    closeQuietWords();
    this.start = firstWord();
    this.question = endsInQuestionMark();
    this.opening = verbs.isOpening(form(start));
    this.aside = start < size && verbs.isAside(line, start) && !isQuestionStart(start);
  }

  TaskVerbs verbs() {
    return verbs;
  }

  WordLine line() {
    return line;
  }

  int size() {
    return size;
  }

  /** The first word that is open to demands. */
  int start() {
    return start;
  }

  boolean isClosed(int i) {
    return closed.get(i);
  }

  BitSet closed() {
    return closed;
  }

  /** Whether it ends in a question mark. */
  boolean isQuestion() {
    return question;
  }

  /** Whether its first word may open a sentence whose demand stands behind a comma. */
  boolean isOpening() {
    return opening;
  }

  /** Whether it is an instruction to the candidate, unless a demand is found in it. */
  boolean isAside() {
    return aside;
  }

  boolean isBullet() {
    return Sentences.isBullet(verbs, sentence);
  }

  /** Returns a word in lower case; empty behind the end. */
  String form(int i) {
    return i >= 0 && i < size ? line.form(i) : "";
  }

  boolean is(int i, String list) {
    return verbs.isIn(list, form(i));
  }

  Token token(int i) {
    return sentence.tokens().get(i);
  }

  /** Returns the whole sentence's place in the wording. */
  Span whole() {
    return place(sentence.start(), sentence.end());
  }

  /** Returns words as the wording has them, on one line. */
  String raw(int from, int to) {
    return wording
        .text()
        .substring(offset + token(from).start(), offset + token(to - 1).end())
        .replaceAll("\\s+", " ")
        .strip();
  }

  String raw(Span span) {
    return span.of(wording.text()).replaceAll("\\s+", " ");
  }

  /** Tells whether it announces a list of what the answer has to hold. */
  boolean announcesList() {
    for (int i = start; i < size; i++) {
      if (verbs.announcesList(line, i)) {
        return true;
      }
    }
    return false;
  }

  /** Words in quotations, tables, captions and brackets begin no demand. */
  private void closeQuietWords() {
    int depth = 0;
    for (int i = 0; i < size; i++) {
      Token token = token(i);
      if (token.form().equals("(") || token.form().equals("[")) {
        depth++;
      }
      if ((depth > 0 && i > 0) || wording.isQuiet(offset + token.start(), offset + token.end())) {
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
            || !token(i).isWord()
            || verbs.isAdverb(form(i))
            || verbs.isIn("join", form(i)))) {
      i++;
    }
    OptionalInt behind = i < size ? verbs.optional(line, i) : OptionalInt.empty();
    return behind.isPresent() && behind.getAsInt() < size ? behind.getAsInt() : i;
  }

  private boolean endsInQuestionMark() {
    for (int i = 0; i < size; i++) {
      if (form(i).endsWith("?")) {
        return true;
      }
    }
    return false;
  }

  boolean isQuestionWord(int i) {
    return verbs.isIn("questionWord", form(i))
        || (verbs.isIn("beforeQuestionWord", form(i))
            && verbs.isIn("afterPreposition", form(i + 1)));
  }

  boolean isQuestionStart(int i) {
    return isQuestionWord(i) && (question || inverted(i));
  }

  /** "how does", "in what way would": a question even without its mark. */
  boolean inverted(int i) {
    if (is(i, "askingHow")) {
      return is(i + 1, "aux") || is(i + 1, "degreeWord");
    }
    for (int k = i + 1; k < Math.min(size, i + 7); k++) {
      if (verbs.isIn("aux", form(k))) {
        return true;
      }
      if (form(k).equals(",")) {
        return false;
      }
    }
    return false;
  }

  boolean isCapital(int i) {
    return Character.isUpperCase(wording.text().charAt(offset + token(i).start()));
  }

  boolean supposes() {
    for (int i = 0; i < size; i++) {
      if (verbs.isIn("supposing", form(i))) {
        return true;
      }
    }
    return false;
  }

  int trimEnd(int from, int end) {
    int to = end;
    while (to > from
        && (verbs.isIn("join", form(to - 1))
            || (verbs.isAdverb(form(to - 1)) && end < size)
            || form(to - 1).equals(",")
            || form(to - 1).equals(";"))) {
      to--;
    }
    return to;
  }

  String words(int from, int to) {
    StringBuilder words = new StringBuilder();
    for (int i = from; i < to; i++) {
      words.append(i > from ? " " : "").append(form(i));
    }
    return words.toString();
  }

  Span span(int from, int end) {
    int to = Math.max(end, from + 1);
    return place(token(from).start(), token(Math.min(to, size) - 1).end());
  }

  Span place(int from, int to) {
    return new Span(offset + from, offset + to);
  }
}
