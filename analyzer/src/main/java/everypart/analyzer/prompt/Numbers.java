package everypart.analyzer.prompt;

import everypart.lexicon.WordLine;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.Set;

/**
 * How many of each thing a prompt has named so far, so that "each volunteer" can be counted where
 * "two volunteers" stands before it. Read in order, once.
 */
final class Numbers {
  private static final List<String> WORDS =
      List.of(
          "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
          "twelve");

  /** Words before a figure that name a thing by it: "Figure 2". */
  private static final Set<String> NAMED_BY_NUMBER =
      Set.of(
          "figure",
          "fig",
          "table",
          "source",
          "part",
          "question",
          "document",
          "passage",
          "section",
          "chapter",
          "equation",
          "step",
          "tube",
          "group",
          "treatment",
          "day",
          "experiment",
          "stage",
          "graph",
          "line",
          "phase",
          "unit",
          "page",
          "sample",
          "test",
          "trial",
          "trace",
          "paper",
          "problem",
          "extract",
          "element",
          "elements",
          "groups",
          "carbon",
          "level",
          "type",
          "at",
          "to",
          "than",
          "=",
          "by",
          "±");

  /** Words behind a figure that make it a quantity. */
  private static final Set<String> UNITS =
      Set.of(
          "%",
          "cm",
          "mm",
          "m",
          "km",
          "g",
          "kg",
          "mg",
          "s",
          "minutes",
          "minute",
          "hours",
          "hour",
          "days",
          "weeks",
          "months",
          "years",
          "year",
          "percent",
          "per",
          "degrees",
          "c",
          "ml",
          "l",
          "j",
          "kj",
          "n",
          "v",
          "a",
          "w",
          "mol",
          "points",
          "point",
          "marks",
          "mark",
          "pts",
          "words",
          "significant",
          "decimal",
          "cent",
          "dollars",
          "lines",
          "sentences",
          "paragraphs",
          "pages",
          "times",
          "th",
          "st",
          "nd",
          "rd",
          ".",
          ")",
          "x",
          "±",
          "-",
          "/");

  private static final Set<String> NOUN_PHRASE_ENDS =
      Set.of(
          ",", ".", ";", ":", "?", "of", "and", "or", "that", "which", "in", "to", "(", ")", "on",
          "for", "with", "is", "are", "were", "was", "have", "had");

  private static final int WORDS_IN_NOUN_PHRASE = 3;

  private final Map<String, Integer> byStem;
  private int last;

  Numbers() {
    this.byStem = new HashMap<>();
  }

  private Numbers(Numbers other) {
    this.byStem = new HashMap<>(other.byStem);
    this.last = other.last;
  }

  /** Returns numbers to go on from, so that a trial reading leaves no trace. */
  Numbers copy() {
    return new Numbers(this);
  }

  /** Takes in a sentence. */
  void learn(WordLine line) {
    for (int i = 0; i + 1 < line.size(); i++) {
      OptionalInt number = line.form(i).equals("both") ? OptionalInt.of(2) : at(line, i);
      if (number.isEmpty() || number.getAsInt() < 2) {
        continue;
      }
      if (!line.form(i).equals("both")) {
        last = number.getAsInt();
      }
      int noun = i + 1;
      if (noun + 1 < line.size()
          && line.form(noun).equals("of")
          && Set.of("the", "these", "those", "your").contains(line.form(noun + 1))) {
        noun += 2; // "choose two of the animals"
      }
      int end = Math.min(line.size(), noun + WORDS_IN_NOUN_PHRASE);
      for (int k = noun; k < end && !NOUN_PHRASE_ENDS.contains(line.form(k)); k++) {
        byStem.put(line.stem(k), number.getAsInt());
      }
    }
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
  static OptionalInt at(WordLine line, int i) {
    String form = line.form(i);
    if (i + 1 < line.size() && line.form(i + 1).equals("-")) {
      return OptionalInt.empty(); // "a six-figure reference"
    }
    int number = WORDS.indexOf(form) + 1;
    if (number == 0 && form.length() <= 2 && form.chars().allMatch(c -> c >= '0' && c <= '9')) {
      number = Integer.parseInt(form);
      boolean named = i > 0 && NAMED_BY_NUMBER.contains(line.form(i - 1));
      boolean quantity = i + 1 >= line.size() || UNITS.contains(line.form(i + 1));
      if (named || quantity || number > WORDS.size()) {
        return OptionalInt.empty();
      }
    }
    boolean unit =
        number > 0
            && i + 1 < line.size()
            && Set.of(
                    "significant",
                    "decimal",
                    "hours",
                    "minutes",
                    "days",
                    "years",
                    "weeks",
                    "months",
                    "marks",
                    "points",
                    "sentences",
                    "paragraphs",
                    "words",
                    "times",
                    "pages",
                    "lines")
                .contains(line.form(i + 1));
    return number == 0 || unit ? OptionalInt.empty() : OptionalInt.of(number);
  }
}
