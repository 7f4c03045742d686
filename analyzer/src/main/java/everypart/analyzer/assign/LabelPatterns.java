package everypart.analyzer.assign;

import everypart.lexicon.Language;
import java.util.regex.Pattern;

/** How labels look. */
final class LabelPatterns {
  private static final String SIMPLE = "(?:[a-z]|[ivx]{1,4}|\\d{1,2})";

  /**
   * A letter or a figure, or several one below the other: "b", "2", "iv", "2b", "2(b)", "b.ii". A
   * question's number is part of it only where the letter is marked as a label, or close to it.
   */
  private static final String NESTED =
      "(?:(?:\\d{1,2}(?:[ .)]{0,2}(?=[(\\[{])|[ .)]{0,2}(?=[a-z][).:])|\\.?(?=[a-z])))?"
          + "[(\\[{]?(?:aa|bb|cc|dd|ee|[a-z]|[ivx]{1,4})[)\\]}]?(?:[ .]?[(\\[]?[ivx]{1,4})?"
          + "|\\d{1,2}(?:\\.[a-z\\d])?)";

  private static final String OPEN = "[\\s>#*_|\\u2022-]{0,6}";

  private static final String LEAD =
      "(?:(?:"
          + Language.english().either("before_label")
          + ") ){0,4}(?:(?:for|in|to|on|with) )?(?:the |my )?";

  private static final String CLOSE =
      "[*_]{0,2}\\s*(?:(?<close>[:.)\\]=/,>;|\\u2013\\u2014-]{1,3}|(?:is|was)\\b(?: that\\b)?[:,]?)"
          + "|(?=\\s|$))[*_]{0,2}";

  private static final String NUMBER_WORDS =
      Language.english().either("cardinal") + "|" + Language.english().either("heard_letter");

  private LabelPatterns() {}

  /**
   * Returns how a label looks that a word announces, at the start of a sentence.
   *
   * @param nested whether several labels may stand one below the other
   */
  static Pattern named(boolean nested) {
    return compile(
        OPEN
            + LEAD
            + "(?:(?:(?:answer|response|reply)s? (?:to|for)|regarding|concerning) (?:part |question )?"
            + "|q(?=[a-h][).:])|(?:part|question|pt|q|ques|qn|section|task"
            + "|(?<unsure>answer|ans|number|no(?=\\.? ?\\d)|letter|#(?=\\d)))"
            + "(?:[ .:#-]{1,3}|(?=[\\d(\\[])))[(\\[]?"
            + "(?:"
            + label(nested)
            + "|(?<word>"
            + NUMBER_WORDS
            + "))(?![\\p{L}\\d'\\u2019]|\\s+(?:of|lot|few|bit)\\b)[)\\]]?"
            + "(?: (?:answer|response)(?=\\s?[:=-]))?"
            + CLOSE);
  }

  /** Returns how a label in brackets looks, or before one, at the start of a sentence. */
  static Pattern bracketed(boolean nested) {
    return compile(
        OPEN
            + "(?:(?:starting|beginning|going on) with |now |next |then |first )?"
            + "(?:[(\\[{]\\s?"
            + label(nested)
            + "[.:]?\\s?[)\\]}]|"
            + label(nested).replace("?<label>", "?<bare>")
            + "\\.?\\s?[)\\]}])[*_]{0,2}[.:,;-]?");
  }

  /** Returns how a label with a stop or another mark looks, at the start of a sentence. */
  static Pattern stopped(boolean nested) {
    return compile(
        OPEN
            + "(?:(?<opened>[(\\[])(?![^)\\]\\n]{0,200}[)\\]]))?"
            + label(nested)
            + "(?![\\p{L}\\d'\\u2019])[*_]{0,2}"
            + "(?:(?<stop>[.:>;])[*_]{0,2}(?=\\s|$)|:-|\\s?[-=]>|\\s*[=|\\u2013\\u2014](?=\\s)"
            + "|\\s-{1,2}(?=\\s)|[-/](?=\\s)|\\t|(?<tight>[.:](?=\\p{L}{2}))|(?=\\s*(?:\\n|$))"
            + "|(?<=\\d[a-z]|\\d[a-z][ivx]{1,4}|[a-z]\\.[ivx]{1,3})(?=\\s)|(?<=[(\\[][a-z])(?=\\s))");
  }

  /** The place of a part in the prompt, told in words: "for the second question". */
  static final Pattern ORDINAL =
      compile(
          OPEN
              + "(?<lead>(?:(?:"
              + Language.english().either("before_ordinal_label")
              + ") )?(?:for|to|on to) )?(?:the )?(?:"
              + ordinals("nth")
              + "|(?<last>last|final)) (?:part|question|sub-question)\\b(?! of\\b)\\s*(?<close>[:,=\\u2013\\u2014-]|is\\b)?");

  /** A label inside a sentence that a word announces. */
  static final Pattern INSIDE_NAMED =
      compile(
          "\\b(?<lead>(?:(?:"
              + Language.english().either("before_label_inside")
              + ") ){0,4}(?:for )?)"
              + "(?:(?<sure>part|question|pt|letter|number) [(\\[]?(?:(?<label>[a-z]|\\d)|(?<word>"
              + NUMBER_WORDS
              + "))\\b[)\\]]?(?!\\s+(?:of|lot|few|bit)\\b)"
              + "|(?<=for )[(\\[]?(?<for>[a-h]|\\d)[)\\]]?,"
              + "|(?<=for )(?<verb>[b-h])(?= (?:i|it|the)\\b)"
              + ")");

  /** A label inside a sentence that brackets or a colon mark. */
  static final Pattern INSIDE_MARKED =
      compile(
          "(?<=[\\s,;])(?:[(\\[](?<round>[a-h])[)\\]]|(?<half>[a-h])\\)|(?<colon>[a-h]):(?=\\s))");

  /** A sentence that says at its end where it belongs: "..., that's for (d)." */
  static final Pattern POINTS_BACK =
      compile(
          "\\b(?:that|this|it|which)(?:['\\u2019]?s| is| was| goes| belongs)? (?:for|to|with|under|in) (?:part |question )?[(\\[]?(?<label>[a-h]|\\d)[)\\]]?[.!)]*$");

  /** Several labels of one answer at the start of a sentence: "a and b:", "(a)+(b)", "a/b)". */
  static final Pattern JOINT =
      compile(
          OPEN
              + "(?<word>(?:for )?(?:parts|questions) )?(?<list>[(\\[]?"
              + SIMPLE
              + "[)\\]]?(?:\\s?(?:,|and|&|\\+|/|-|\\u2013|to|, ?and)\\s?[(\\[]?"
              + SIMPLE
              + "[)\\]]?){1,4})(?![\\p{L}\\d'\\u2019])\\s?(?<close>[:)\\].,=\\u2013\\u2014-])?");

  private static String ordinals(String group) {
    return "(?<" + group + ">" + Language.english().either("ordinal") + "|\\d{1,2}(?:st|nd|rd|th))";
  }

  private static String label(boolean nested) {
    return "(?<label>" + (nested ? NESTED : SIMPLE) + ")";
  }

  private static Pattern compile(String pattern) {
    return Pattern.compile(pattern, Pattern.CASE_INSENSITIVE);
  }
}
