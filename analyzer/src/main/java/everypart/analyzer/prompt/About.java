package everypart.analyzer.prompt;

import everypart.analyzer.text.Sentence;
import everypart.lexicon.WordLine;
import java.util.Set;

/** The words that say what a demand is about, cleaned for display and for matching. */
final class About {
  private static final Set<String> LEADING =
      Set.of(
          "how",
          "why",
          "what",
          "which",
          "whether",
          "who",
          "whom",
          "whose",
          "where",
          "when",
          "that",
          "is",
          "are",
          "was",
          "were",
          "do",
          "does",
          "did",
          "would",
          "will",
          "could",
          "might",
          "may",
          "can",
          "should",
          "has",
          "have",
          "had",
          "you",
          "we",
          "think",
          "expect",
          "happen",
          "happens",
          "happened",
          "be",
          "to",
          "of",
          "for",
          "about",
          "there",
          "and",
          "not",
          "or",
          "then",
          "also",
          "briefly",
          "don't",
          "doesn't",
          "didn't",
          "isn't",
          "aren't",
          "can't",
          "won't",
          "what's",
          "by",
          "in",
          "on",
          "with",
          "as",
          "well");

  /** What follows these reads wrongly without them: "how it could harm the pools". */
  private static final Set<String> KEPT = Set.of("how", "why", "whether");

  /** So do these before anything but a verb: "what the keeper would find". */
  private static final Set<String> THINGS = Set.of("what", "which", "who", "where", "when");

  private static final Set<String> TRAILING =
      Set.of(".", "?", "!", ",", ";", ":", "and", "or", "then", "below", "briefly", "-", "(");
  private static final Set<String> OWN =
      Set.of(
          "your",
          "answer",
          "answers",
          "each",
          "both",
          "of",
          "prediction",
          "predictions",
          "choice",
          "reasoning",
          "thinking",
          "claim",
          "conclusion",
          "decision",
          "this",
          "that",
          "these",
          "with",
          "reference",
          "to",
          "evidence",
          "from",
          "the",
          "a",
          "reason",
          "reasons",
          "for",
          "two",
          "one",
          "three",
          "know",
          "tell",
          "view",
          "so",
          "response",
          "fully",
          "support",
          "at",
          "least",
          "observations",
          "figures",
          "pieces",
          "use",
          "using",
          "data",
          "suggestion");

  private About() {}

  static String of(WordLine line, Sentence sentence, String text, int offset, int from, int to) {
    int first = from;
    while (first < to && LEADING.contains(line.form(first))) {
      first++;
    }
    int last = Math.min(to, sentence.size());
    while (last > first && TRAILING.contains(line.form(last - 1))) {
      last--;
    }
    if (first >= last) {
      return "";
    }
    String about = words(sentence, text, offset, first, last);
    boolean thing = THINGS.contains(line.form(from)) && !LEADING.contains(line.form(from + 1));
    boolean kept = (thing || KEPT.contains(line.form(from))) && !isOwnAnswer(about);
    return kept ? lowerFirst(words(sentence, text, offset, from, last)) : about;
  }

  private static String words(Sentence sentence, String text, int offset, int from, int to) {
    return text.substring(
            offset + sentence.tokens().get(from).start(),
            offset + sentence.tokens().get(to - 1).end())
        .replaceAll("\\s+", " ")
        .strip();
  }

  private static String lowerFirst(String words) {
    return Character.toLowerCase(words.charAt(0)) + words.substring(1);
  }

  /** Returns the condition that a sentence opens with, "if the meltwater doubled". */
  static String condition(
      WordLine line, Sentence sentence, String text, int offset, int from, int to) {
    int last = to;
    while (last > from
        && (TRAILING.contains(line.form(last - 1)) || line.form(last - 1).equals("the"))) {
      last--;
    }
    if (last <= from) {
      return "";
    }
    return lowerFirst(words(sentence, text, offset, from, last));
  }

  /** Tells whether the words are only about the writer's own answer: "your prediction". */
  static boolean isOwnAnswer(String about) {
    for (String word : about.toLowerCase(java.util.Locale.ROOT).split("[^a-z]+")) {
      if (!word.isEmpty() && !OWN.contains(word)) {
        return false;
      }
    }
    return true;
  }
}
