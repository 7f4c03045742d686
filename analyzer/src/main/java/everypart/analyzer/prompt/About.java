package everypart.analyzer.prompt;

import everypart.lexicon.TaskVerbs;
import java.util.Locale;

/** The words that say what a demand is about, cleaned for display and for matching. */
final class About {
  private About() {}

  static String of(AskedSentence at, int from, int to) {
    int first = from;
    while (first < to && at.is(first, "aboutLeading")) {
      first++;
    }
    int last = Math.min(to, at.size());
    while (last > first && at.is(last - 1, "aboutTrailing")) {
      last--;
    }
    if (first >= last) {
      return "";
    }
    if (at.form(from).equals("to") || (at.isQuestion() && last - first == 1 && from < first)) {
      return lowerFirst(at.raw(from, last)); // "to what extent ...", "what would you see"
    }
    if (first == from && from > 1 && at.is(from, "joinedPrep")) {
      return at.raw(from - 1, last); // "draw a conclusion" about "conclusion from her results"
    }
    String about = at.raw(first, last);
    boolean thing = at.is(from, "aboutThing") && !at.is(from + 1, "aboutLeading");
    boolean kept = (thing || at.is(from, "aboutKept")) && !isOwnAnswer(at.verbs(), about);
    return kept ? lowerFirst(at.raw(from, last)) : about;
  }

  private static String lowerFirst(String words) {
    return Character.toLowerCase(words.charAt(0)) + words.substring(1);
  }

  /** Returns the condition that a sentence opens with, "if the meltwater doubled". */
  static String condition(AskedSentence at, int from, int to) {
    int last = to;
    while (last > from && (at.is(last - 1, "aboutTrailing") || at.form(last - 1).equals("the"))) {
      last--;
    }
    return last <= from ? "" : lowerFirst(at.raw(from, last));
  }

  /** Tells whether the words are only about the writer's own answer: "your prediction". */
  static boolean isOwnAnswer(TaskVerbs verbs, String about) {
    for (String word : about.toLowerCase(Locale.ROOT).split("[^a-z]+")) {
      if (!word.isEmpty() && !verbs.isIn("aboutOwn", word)) {
        return false;
      }
    }
    return true;
  }
}
