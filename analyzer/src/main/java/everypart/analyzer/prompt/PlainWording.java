package everypart.analyzer.prompt;

import everypart.analyzer.text.Span;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A prompt's text with everything blanked out that is no wording: Markdown marks, marks in
 * brackets, word limits, hints. Blanks take the place of what is set aside, so every place in it is
 * the same place in the text as given.
 *
 * @param text the text, as long as the one given
 * @param quiet places from which no demand is read: quotations, tables, captions, headings
 * @param marks places of marks for bold and italic
 * @param setAside what was blanked out and says something: marks, word limits, hints
 */
record PlainWording(String text, BitSet quiet, BitSet marks, List<Remark> setAside) {
  /** What is said of marks. */
  static final String MARKS_SET_ASIDE = Sayings.of("remark.marks");

  private static final Pattern BOLD = Pattern.compile("(\\*\\*|__)(?=\\S)([^*_\\n]{1,200}?)\\1");
  private static final Pattern ITALIC =
      Pattern.compile("(?<![\\w*])([*_])(?=[^\\s*_])([^*_\\n]{1,400}?[^\\s*_])\\1(?![\\w*])");
  private static final Pattern HEADING = Pattern.compile("(?m)^[ \\t]{0,3}(#{1,6})[ \\t]+(\\S.*)$");
  private static final Pattern MARKS =
      Pattern.compile(
          "(?i)[\\[(]\\s*(?:total\\s*:?\\s*|worth\\s*)?\\d{1,3}\\s*[-\u2013]?\\s*"
              + "(?:marks?|points?|pts?\\.?)(?:\\s*(?:each|in total|total|for each[^)\\]]{0,30}))?\\s*[\\])]");
  private static final Pattern BARE_MARKS =
      Pattern.compile("(?m)(?<=[^\\s*])[ \\t*]+(?:\\(\\d{1,2}\\)|\\[\\d{1,2}\\])(?=[ \\t*]*$)");
  private static final Pattern SQUARE_MARKS =
      Pattern.compile("(?<=[\\p{L}.?!:;*,] ?)\\s*\\[\\d{1,2}\\]");
  private static final Pattern TRAILING_MARKS =
      Pattern.compile(
          "(?im)(?<=[.?!])[ \\t]*[-\u2013\u2014]?[ \\t]*\\d{1,2}[ \\t]+(?:marks?|points?|pts)\\.?[ \\t]*$");
  private static final Pattern WORD_LIMIT =
      Pattern.compile(
          "(?i)[\\[(][^()\\[\\]\\n]{0,40}\\d+\\s*(?:[-\u2013]|to)?\\s*\\d*\\s*(?:words?|sentences?|lines?|sides?|pages?|minutes?)\\b[^()\\[\\]\\n]{0,20}[\\])]");
  private static final Pattern HINT =
      Pattern.compile("(?i)\\((?:hint|tip|note|remember)\\b[^()\\n]{0,300}\\)");
  private static final Pattern PLURAL = Pattern.compile("(?<=\\p{L})\\((?:s|es|ies)\\)");
  private static final Pattern QUOTE =
      Pattern.compile(
          "(?s)\u201c[^\u201c\u201d]{1,2000}?\u201d|(?<![\\w\"])\"(?=\\S)(?:(?!\\n\\s*\\n)[^\"]){1,2000}?(?<=\\S)\"(?!\\w)");
  private static final Pattern CAPTION =
      Pattern.compile(
          "(?im)^[ \\t>*_]*(?:figure|fig\\.?|table|graph|diagram|map|image|photo|source|document|extract|passage|key)[ \\t]+[\\w.]{1,6}[ \\t]*[.:\u2013\u2014-][ \\t].*$");
  private static final Pattern SOURCE_LINE =
      Pattern.compile("(?m)^[ \\t>*_]*(?:SOURCE|DOCUMENT|EXTRACT|PASSAGE)\\b[^\\n]*$");
  private static final Pattern GAP =
      Pattern.compile("(?<=[^\\s.?!:])(?: {2,}|[ ]*\\t[ \\t]*)(?=\\S)");

  static PlainWording of(String text) {
    Blanker blanker = new Blanker(text);
    BitSet quiet = new BitSet();
    BitSet marks = new BitSet();
    List<Remark> setAside = new ArrayList<>();

    Matcher bold = BOLD.matcher(text);
    while (bold.find()) {
      marks.set(bold.start(), bold.start(2));
      marks.set(bold.end(2), bold.end());
    }
    blankAll(blanker, marks);
    Matcher italic = ITALIC.matcher(blanker.text());
    while (italic.find()) {
      marks.set(italic.start(), italic.start(2));
      marks.set(italic.end(2), italic.end());
    }
    blankAll(blanker, marks);
    Matcher heading = HEADING.matcher(text);
    while (heading.find()) {
      blanker.blank(heading.start(1), heading.end(1));
    }
    blankAll(blanker, MARKS, MARKS_SET_ASIDE, setAside);
    blankAll(blanker, BARE_MARKS, MARKS_SET_ASIDE, setAside);
    blankAll(blanker, SQUARE_MARKS, MARKS_SET_ASIDE, setAside);
    blankAll(blanker, TRAILING_MARKS, MARKS_SET_ASIDE, setAside);
    blankAll(blanker, WORD_LIMIT, Sayings.of("remark.length"), setAside);
    blankAll(blanker, HINT, Sayings.of("remark.hint"), setAside);
    Matcher plural = PLURAL.matcher(blanker.text());
    while (plural.find()) {
      blanker.blank(plural.start(), plural.end());
    }

    String plain = blanker.text();
    for (Pattern pattern : List.of(QUOTE, CAPTION, SOURCE_LINE)) {
      Matcher matcher = pattern.matcher(plain);
      while (matcher.find()) {
        quiet.set(matcher.start(), matcher.end());
      }
    }
    quietTables(text, quiet);
    return new PlainWording(plain, quiet, marks, setAside);
  }

  /**
   * Returns a stretch of the prompt as it was written, but for the marks of bold and italic and
   * space at the ends.
   */
  String shown(String prompt, Span span) {
    StringBuilder shown = new StringBuilder();
    for (int i = span.start(); i < span.end(); i++) {
      if (!marks.get(i)) {
        shown.append(prompt.charAt(i));
      }
    }
    return shown.toString().strip();
  }

  private static void blankAll(Blanker blanker, BitSet marks) {
    for (int from = marks.nextSetBit(0); from >= 0; ) {
      int to = marks.nextClearBit(from);
      blanker.blank(from, to);
      from = marks.nextSetBit(to);
    }
  }

  /** A row of a table is a line that begins with a bar or has two wide gaps in it. */
  private static void quietTables(String text, BitSet quiet) {
    int start = 0;
    while (start < text.length()) {
      int end = text.indexOf('\n', start);
      end = end < 0 ? text.length() : end;
      String line = text.substring(start, end).strip();
      if (line.startsWith("|") || GAP.matcher(line).results().limit(2).count() == 2) {
        quiet.set(start, end);
      }
      start = end + 1;
    }
  }

  private static void blankAll(
      Blanker blanker, Pattern pattern, String message, List<Remark> setAside) {
    Matcher matcher = pattern.matcher(blanker.text());
    while (matcher.find()) {
      int start = matcher.start();
      while (start < matcher.end() && !isInk(blanker.text().charAt(start))) {
        start++;
      }
      blanker.blank(start, matcher.end());
      setAside.add(new Remark(Remark.Kind.SET_ASIDE, new Span(start, matcher.end()), message));
    }
  }

  private static boolean isInk(char c) {
    return !Character.isWhitespace(c) && c != '*';
  }

  boolean isQuiet(int from, int to) {
    int next = quiet.nextClearBit(from);
    return next >= to;
  }

  /** Blanks out stretches of a text; line breaks stay. */
  private static final class Blanker {
    private final StringBuilder text;
    private String made;

    Blanker(String text) {
      this.text = new StringBuilder(text);
      this.made = text;
    }

    void blank(int from, int to) {
      for (int i = from; i < to; i++) {
        if (text.charAt(i) != '\n') {
          text.setCharAt(i, ' ');
        }
      }
      made = "";
    }

    String text() {
      if (made.isEmpty()) {
        made = text.toString();
      }
      return made;
    }
  }
}
