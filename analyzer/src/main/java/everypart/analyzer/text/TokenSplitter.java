package everypart.analyzer.text;

import everypart.analyzer.text.Token.Shape;
import everypart.lexicon.Language;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import opennlp.tools.tokenize.SimpleTokenizer;

/**
 * Splits a sentence into tokens with OpenNLP's rule tokenizer and joins again what that tears apart
 * and a reader takes as one: "don't", "3.40", "1,600", "b/c".
 */
final class TokenSplitter {
  /** Short forms that students write for a word the cue patterns know. */
  private static final Map<String, String> SPELLED_OUT = spelledOut();

  private static final int LONGEST_SPELLED_OUT = 7;

  private static final Set<String> SLASHED =
      SPELLED_OUT.keySet().stream()
          .filter(form -> form.indexOf('/') > 0)
          .collect(Collectors.toUnmodifiableSet());

  private final UnaryOperator<String> stemmer;

  private static Map<String, String> spelledOut() {
    Map<String, String> words = new HashMap<>();
    for (String meant : Language.english().list("shortened")) {
      Language.english().list("means_" + meant).forEach(form -> words.put(form, meant));
    }
    return Map.copyOf(words);
  }

  TokenSplitter(UnaryOperator<String> stemmer) {
    this.stemmer = stemmer;
  }

  /** Returns the tokens of {@code text} between two places. */
  List<Token> split(String text, int from, int to) {
    String piece = text.substring(from, to);
    var spans = SimpleTokenizer.INSTANCE.tokenizePos(piece);
    List<Token> tokens = new ArrayList<>(spans.length);
    int i = 0;
    while (i < spans.length) {
      int start = spans[i].getStart();
      int last = i;
      while (last + 1 < spans.length
          && spans[last].getEnd() == spans[last + 1].getStart()
          && joins(piece, start, spans[last].getEnd(), spans[last + 1].getEnd(), last, spans)) {
        last++;
      }
      int end = spans[last].getEnd();
      tokens.add(token(piece.substring(start, end), from + start, from + end));
      i = last + 1;
    }
    return tokens;
  }

  /**
   * Tells whether the token that ends at {@code end} goes on with the one that ends at {@code
   * nextEnd}.
   */
  private static boolean joins(
      String piece, int start, int end, int nextEnd, int index, opennlp.tools.util.Span[] spans) {
    char last = piece.charAt(end - 1);
    char next = piece.charAt(end);
    if (Character.isHighSurrogate(last) && Character.isLowSurrogate(next)) {
      return true;
    }
    if (Character.isLetterOrDigit(last) && Character.isLetterOrDigit(next)) {
      // A formula or a name such as H2O, CO2 or 4g: one token unless figures come first.
      return !Character.isDigit(piece.charAt(start));
    }
    boolean hasFollower =
        index + 2 < spans.length && spans[index + 1].getEnd() == spans[index + 2].getStart();
    char after = hasFollower ? piece.charAt(spans[index + 2].getStart()) : ' ';
    boolean single = nextEnd - end == 1;
    if (Character.isLetter(last) && single && isApostrophe(next)) {
      return Character.isLetter(after);
    }
    if (isApostrophe(last)) {
      return end - start > 1 && Character.isLetter(next);
    }
    if (Character.isDigit(last) && single && (next == '.' || next == ',')) {
      return Character.isDigit(after);
    }
    if ((last == '.' || last == ',') && Character.isDigit(next)) {
      return end - start > 1 && Character.isDigit(piece.charAt(start));
    }
    if (next == '/' && single) {
      String shortForm = piece.substring(start, nextEnd).toLowerCase(Locale.ROOT);
      return (shortForm.equals("b/") && after == 'c') || shortForm.equals("w/");
    }
    if (last == '/') {
      return SLASHED.contains(piece.substring(start, nextEnd).toLowerCase(Locale.ROOT));
    }
    return false;
  }

  private static boolean isApostrophe(char c) {
    return c == '\'' || c == '\u2019' || c == '\u02bc' || c == '\u2018';
  }

  private Token token(String surface, int start, int end) {
    String form = isPlain(surface) ? surface : form(surface);
    if (form.length() <= LONGEST_SPELLED_OUT) {
      form = SPELLED_OUT.getOrDefault(form, form);
    }
    Shape shape = shapeOf(form);
    return new Token(start, end, form, shape == Shape.WORD ? stemmer.apply(form) : form, shape);
  }

  /** Tells whether a token is of small letters of English only, as most are. */
  private static boolean isPlain(String surface) {
    for (int i = 0; i < surface.length(); i++) {
      char c = surface.charAt(i);
      if (c < 'a' || c > 'z') {
        return false;
      }
    }
    return true;
  }

  private static String form(String surface) {
    return surface
        .toLowerCase(Locale.ROOT)
        .replace('\u2019', '\'')
        .replace('\u2018', '\'')
        .replace('\u02bc', '\'');
  }

  private static Shape shapeOf(String form) {
    char first = form.charAt(0);
    if (Character.isDigit(first)) {
      return Shape.NUMBER;
    }
    if (first >= 'a' && first <= 'z') {
      return Shape.WORD;
    }
    return form.codePoints().anyMatch(Character::isLetter) ? Shape.WORD : Shape.MARK;
  }
}
