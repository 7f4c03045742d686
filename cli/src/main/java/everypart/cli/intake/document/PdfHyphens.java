package everypart.cli.intake.document;

import everypart.lexicon.Lexicon;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/**
 * Undoes the hyphens at the ends of lines.
 *
 * <p>"photo-" and "synthesis" are one word where that word stands elsewhere in the text or in the
 * word list. "sea-" and "level" keep their hyphen where the two stand elsewhere with it, or where
 * both are words and both together are none.
 */
final class PdfHyphens {
  private static final char SOFT = '\u00AD';
  private static final String HYPHENS = "-\u2010" + SOFT;
  private static final int LEAST_OF_COMPOUND = 3;
  private static final int MOST_SEEN = 200_000;

  private final Set<String> seen = new HashSet<>();

  /** Takes the words that stand whole in some lines. */
  PdfHyphens(List<PdfPage> pages, Meter meter) {
    for (PdfPage page : pages) {
      for (PdfLine line : page.lines()) {
        meter.step();
        for (String word : line.text().split("[^\\p{L}\\u2010-]+")) {
          if (!word.isEmpty()
              && seen.size() < MOST_SEEN
              && HYPHENS.indexOf(word.charAt(word.length() - 1)) < 0) {
            seen.add(lower(word));
          }
        }
      }
    }
  }

  /** Tells whether a line ends inside a word that the next one ends. */
  static boolean isParted(CharSequence line, String next) {
    int last = line.length() - 1;
    return last > 0
        && !next.isEmpty()
        && HYPHENS.indexOf(line.charAt(last)) >= 0
        && Character.isLetter(line.charAt(last - 1))
        && Character.isLetter(next.charAt(0));
  }

  /** Adds a line to a paragraph whose last word it ends. */
  void join(StringBuilder paragraph, String next) {
    int end = paragraph.length() - 1;
    if (!keepsHyphen(paragraph, next)) {
      paragraph.setLength(end);
    }
    paragraph.append(next);
  }

  private boolean keepsHyphen(StringBuilder paragraph, String next) {
    int end = paragraph.length() - 1;
    if (paragraph.charAt(end) == SOFT) {
      return false;
    }
    int from = end;
    while (from > 0 && Character.isLetter(paragraph.charAt(from - 1))) {
      from--;
    }
    int to = 0;
    while (to < next.length() && Character.isLetter(next.charAt(to))) {
      to++;
    }
    String one = lower(paragraph.substring(from, end));
    String other = lower(next.substring(0, to));
    // "mother-in-" and "law", "Anglo-" and "Saxon"
    boolean compound = from > 0 && HYPHENS.indexOf(paragraph.charAt(from - 1)) >= 0;
    if (compound || Character.isUpperCase(next.charAt(0))) {
      return true;
    }
    String whole = one + other;
    if (seen.contains(whole)) {
      return false;
    }
    if (seen.contains(one + "-" + other) || seen.contains(one + "\u2010" + other)) {
      return true;
    }
    return !Lexicon.isWord(whole)
        && one.length() >= LEAST_OF_COMPOUND
        && other.length() >= LEAST_OF_COMPOUND
        && Lexicon.isWord(one)
        && Lexicon.isWord(other);
  }

  private static String lower(String word) {
    return word.toLowerCase(Locale.ROOT);
  }
}
