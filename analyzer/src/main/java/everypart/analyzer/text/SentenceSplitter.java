package everypart.analyzer.text;

import everypart.lexicon.Language;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import opennlp.tools.sentdetect.SentenceDetectorME;
import opennlp.tools.sentdetect.SentenceModel;

/**
 * Splits a text into sentences: lines first, where a line break ends something, then OpenNLP's
 * sentence detector, then full stops before a small letter, which the detector passes over and
 * students write.
 */
final class SentenceSplitter {
  /** A piece of text that is one sentence. */
  record Piece(int start, int end, boolean lineStart, boolean paragraphStart) {}

  private static final String MODEL = "/opennlp-en-ud-ewt-sentence-1.3-2.5.4.bin";

  /** A line that begins like this begins something new, whatever the line before it ends with. */
  private static final Pattern NEW_ITEM =
      Pattern.compile(
          "^(?:[-*\u2022\u2013\u2014\u25e6\u2043]|[(\\[]?(?:\\d{1,2}|[A-Za-z]|[ivxIVX]{1,4})"
              + "(?:[)\\].:>]|\\s?[=\u2013\u2014]|[-/](?=\\s)|\\s-{1,2}\\s)|#|\\||(?i:part|question)\\b)");

  /**
   * Stops that the detector passes over: before a small letter, and behind a figure that it takes
   * for a list number.
   */
  private static final Pattern PASSED_OVER =
      Pattern.compile(
          "(?<=[\\p{L}\\d)%'\"\u201d\u2019][.!?]{1,3})\\s+(?=\\p{Ll})"
              + "|(?<=[\\p{Ll}=:] ?\\d{1,9}\\.)\\s+(?=\\p{Lu})");

  /** A list number or a small letter that labels a part: no sentence without what follows. */
  private static final Pattern LIST_NUMBER = Pattern.compile("\\(?(?:\\d{1,2}|[a-h])[.)]");

  private static final int LONGEST_NUMBER = 4;

  /** Abbreviations behind which a sentence always goes on. */
  private static final Set<String> NEVER_LAST = Language.english().words("abbreviation_never_last");

  /** Abbreviations behind which a small letter begins no sentence. */
  private static final Set<String> ABBREVIATIONS = Language.english().words("abbreviation");

  private static final class Model {
    static final SentenceModel INSTANCE = load();

    private static SentenceModel load() {
      try (InputStream in = SentenceSplitter.class.getResourceAsStream(MODEL)) {
        if (in == null) {
          throw new IllegalStateException("sentence model " + MODEL + " is not on the class path");
        }
        return new SentenceModel(in);
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }

  private final ThreadLocal<SentenceDetectorME> detectors =
      ThreadLocal.withInitial(() -> new SentenceDetectorME(Model.INSTANCE));

  List<Piece> split(String text) {
    List<Piece> pieces = new ArrayList<>();
    boolean paragraph = true;
    int at = 0;
    while (at < text.length()) {
      int end = blockEnd(text, at);
      if (text.substring(at, end).isBlank()) {
        paragraph = true;
      } else {
        addSentences(text, at, end, paragraph, pieces);
        paragraph = false;
      }
      at = end;
    }
    return pieces;
  }

  /**
   * Returns where the run of lines that belong together ends: at a line break that ends something.
   */
  private static int blockEnd(String text, int from) {
    int at = from;
    while (true) {
      int feed = text.indexOf('\n', at);
      if (feed < 0) {
        return text.length();
      }
      if (endsBlock(text, from, feed)) {
        return feed + 1;
      }
      at = feed + 1;
    }
  }

  private static boolean endsBlock(String text, int from, int feed) {
    int next = text.indexOf('\n', feed + 1);
    String after = text.substring(feed + 1, next < 0 ? text.length() : next).strip();
    int lineStart = text.lastIndexOf('\n', feed - 1) + 1;
    String line = text.substring(Math.max(from, lineStart), feed).strip();
    if (after.isEmpty() || line.isEmpty() || NEW_ITEM.matcher(after).find()) {
      return true;
    }
    char last = line.charAt(line.length() - 1);
    if (".!?:".indexOf(last) >= 0) {
      return true;
    }
    // A line that goes on in small letters is a wrapped one; a capital begins a new line, unless
    // the line before it is full, which is how a fixed-width text wraps.
    return !Character.isLowerCase(after.charAt(0)) && line.length() < 60;
  }

  private void addSentences(String text, int from, int to, boolean paragraph, List<Piece> pieces) {
    String block = text.substring(from, to);
    int start = -1;
    boolean first = true;
    for (Span span : spans(block)) {
      start = start < 0 ? span.start() : start;
      if (!goesOn(block, start, span.end())) {
        pieces.add(new Piece(from + start, from + span.end(), first, first && paragraph));
        first = false;
        start = -1;
      }
    }
    if (start >= 0) {
      int end = from + block.stripTrailing().length();
      pieces.add(new Piece(from + start, end, first, first && paragraph));
    }
  }

  /** Returns what the detector takes as sentences, cut again at stops before a small letter. */
  private List<Span> spans(String block) {
    List<Span> spans = new ArrayList<>();
    Matcher stop = PASSED_OVER.matcher(block).useTransparentBounds(true);
    for (Span found : detected(block)) {
      int start = found.start();
      // Only behind a stop can one be passed over, so nothing is tried at the other letters.
      for (int at = start; at < found.end(); at++) {
        if (!isSpaceBehindStop(block, at)) {
          continue;
        }
        stop.region(at, found.end());
        if (!stop.lookingAt()) {
          continue;
        }
        String word = wordBefore(block, at);
        // One letter is an initial or a shortened genus, as in "E. coli".
        if (word.length() != 1 && !ABBREVIATIONS.contains(word)) {
          spans.add(new Span(start, at));
          start = stop.end();
        }
        at = stop.end() - 1;
      }
      if (start < found.end()) {
        spans.add(new Span(start, found.end()));
      }
    }
    return spans;
  }

  private static boolean isSpaceBehindStop(String block, int at) {
    return at > 0
        && " \t\n\u000B\f\r".indexOf(block.charAt(at)) >= 0
        && ".!?".indexOf(block.charAt(at - 1)) >= 0;
  }

  /** Returns what the detector takes as sentences. */
  private List<Span> detected(String block) {
    LongRuns runs = new LongRuns(block);
    List<Span> found = new ArrayList<>();
    for (opennlp.tools.util.Span span : detectors.get().sentPosDetect(runs.shortened())) {
      found.add(new Span(runs.original(span.getStart()), runs.original(span.getEnd())));
    }
    return found;
  }

  /** Tells whether a piece is no sentence yet: a list number, or one cut behind "e.g.". */
  private static boolean goesOn(String block, int start, int end) {
    return (end - start <= LONGEST_NUMBER
            && LIST_NUMBER.matcher(block).region(start, end).matches())
        || NEVER_LAST.contains(wordBefore(block, end));
  }

  /** Returns the word with its inner stops before a full stop that ends at {@code end}, or "". */
  private static String wordBefore(String block, int end) {
    int dot = end - 1;
    if (block.charAt(dot) != '.') {
      return "";
    }
    int start = dot;
    while (start > 0
        && (Character.isLetter(block.charAt(start - 1)) || block.charAt(start - 1) == '.')) {
      start--;
    }
    return block.substring(start, dot).toLowerCase(Locale.ROOT);
  }
}
