package everypart.analyzer.prompt;

import everypart.lexicon.TaskVerbs;
import everypart.lexicon.WordLine;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.regex.Pattern;

/**
 * How many of each thing a prompt has named so far, so that "each volunteer" can be counted where
 * "two volunteers" stands before it. Read in order, once.
 */
final class Numbers {
  private static final Pattern YEAR = Pattern.compile("1[0-9]{3}|20[0-9]{2}");
  private static final Pattern FIGURE = Pattern.compile("[0-9]{1,2}");

  /** So many words behind a number may be the noun that it counts. Chosen by eye. */
  private static final int WORDS_IN_NOUN_PHRASE = 3;

  private final TaskVerbs verbs;
  private final Map<String, Integer> byStem;
  private int last;
  private int amounts;
  private int worked;

  Numbers(TaskVerbs verbs) {
    this.verbs = verbs;
    this.byStem = new HashMap<>();
  }

  private Numbers(Numbers other) {
    this.verbs = other.verbs;
    this.byStem = new HashMap<>(other.byStem);
    this.last = other.last;
    this.amounts = other.amounts;
    this.worked = other.worked;
  }

  /** Returns numbers to go on from, so that a trial reading leaves no trace. */
  Numbers copy() {
    return new Numbers(this);
  }

  /**
   * Takes in a sentence.
   *
   * @param closed the words that stand in a table, caption or quotation; no amount is taken there,
   *     because it is there to be read off
   */
  void learn(WordLine line, BitSet closed) {
    learnAmounts(line, closed);
    for (int i = 0; i + 1 < line.size(); i++) {
      OptionalInt number = line.form(i).equals("both") ? OptionalInt.of(2) : at(line, i);
      if (number.isEmpty() || number.getAsInt() < 2) {
        continue;
      }
      last = number.getAsInt();
      int noun = i + 1;
      if (line.form(noun).equals("of")) {
        noun += 2; // "choose two of the animals"
      }
      int end = Math.min(line.size(), noun + WORDS_IN_NOUN_PHRASE);
      for (int k = noun; k < end && !verbs.isIn("nounPhraseEnd", line.form(k)); k++) {
        byStem.put(line.stem(k), number.getAsInt());
      }
    }
  }

  private void learnAmounts(WordLine line, BitSet closed) {
    for (int i = 0; i < line.size(); i++) {
      String form = line.form(i);
      if (closed.get(i) || !Character.isDigit(form.charAt(0))) {
        continue;
      }
      String before = i > 0 ? line.form(i - 1) : "";
      String next = i + 1 < line.size() ? line.form(i + 1) : "";
      boolean namedByIt = verbs.isIn("namedByNumber", before) || before.equals("-");
      worked += namedByIt || YEAR.matcher(form).matches() ? 0 : 1;
      if (verbs.isIn("money", before) || verbs.isIn("unit", next)) {
        amounts += next.equals("%") ? 2 : 1; // the rest of a share can be worked out from it alone
      }
    }
  }

  /** Tells whether amounts were given from which others can be worked out. */
  boolean areMeasured() {
    return amounts >= 2;
  }

  /** Tells whether two figures were given from which another can be worked out. */
  boolean areFigured() {
    return worked >= 2;
  }

  /** Returns how many of a thing were named, by the stem of its noun. */
  OptionalInt of(String stem) {
    Integer number = byStem.get(stem);
    return number == null ? OptionalInt.empty() : OptionalInt.of(number);
  }

  /** Returns the last number of things that was named, when there was one. */
  OptionalInt last() {
    return last == 0 ? OptionalInt.empty() : OptionalInt.of(last);
  }

  /** Returns the number of things that a token tells, in words or figures, 1 to 12. */
  OptionalInt at(WordLine line, int i) {
    String form = line.form(i);
    if (i + 1 < line.size() && line.form(i + 1).equals("-")) {
      return OptionalInt.empty(); // "a six-figure reference"
    }
    List<String> words = verbs.list("countingWord");
    int number = words.indexOf(form) + 1;
    if (FIGURE.matcher(form).matches()) {
      boolean named = i > 0 && verbs.isIn("namedByNumber", line.form(i - 1));
      boolean quantity = i + 1 < line.size() && verbs.isIn("behindFigure", line.form(i + 1));
      number = named || quantity ? 0 : Integer.parseInt(form);
    }
    return number == 0 || number > words.size() ? OptionalInt.empty() : OptionalInt.of(number);
  }
}
