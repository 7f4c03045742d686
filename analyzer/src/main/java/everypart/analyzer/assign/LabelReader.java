package everypart.analyzer.assign;

import everypart.analyzer.assign.LabelMark.Style;
import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.Span;
import everypart.analyzer.text.Text;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Finds the labels that a writer put, and tells them from what only looks like one: a choice ("A.
 * It heats up faster"), the steps of a list, a mention ("as I said in part b").
 */
final class LabelReader {
  private static final String LABEL =
      "(?<label>\\d{0,2}[ .]?[(\\[]?(?:[a-z]|[ivx]{1,4})[)\\]]?(?:[ .]?[(\\[]?[ivx]{1,4})?|\\d{1,2}(?:\\.[a-z\\d])?)";

  private static final String OPEN = "\\G[\\s>#*_\\u2022-]{0,6}";

  private static final String CLOSE =
      "[*_]{0,2}\\s*(?:[:.)\\]=/,>\\u2013\\u2014-]{1,3}|(?=\\s|$))[*_]{0,2}";

  private static final Pattern NAMED =
      Pattern.compile(
          OPEN
              + "(?:(?:ok |so |then |and |as |now |um )*(?:for|in|to|on) )?(?:the )?(?:part|question|number|section|task|answer to|q)[ .:#-]{0,2}[(\\[]?"
              + LABEL
              + "(?![\\p{L}\\d'\\u2019])[)\\]]?"
              + CLOSE,
          Pattern.CASE_INSENSITIVE);

  private static final Pattern BRACKETED =
      Pattern.compile(
          OPEN
              + "(?:(?:starting|beginning|going on) with |now |next |then |first )?"
              + "(?:[(\\[]"
              + LABEL
              + "[.:]?[)\\]]|"
              + LABEL.replace("?<label>", "?<bare>")
              + "[)\\]])[*_]{0,2}[.:,-]?",
          Pattern.CASE_INSENSITIVE);

  private static final Pattern STOPPED =
      Pattern.compile(
          OPEN
              + LABEL
              + "(?![\\p{L}\\d'\\u2019])[*_]{0,2}"
              + "(?:(?<stop>[.:>])[*_]{0,2}(?=\\s|$)|\\s*[=\\u2013\\u2014](?=\\s)|\\s-{1,2}(?=\\s)|[-/](?=\\s)|(?=\\s*(?:\\n|$)))",
          Pattern.CASE_INSENSITIVE);

  private static final String CORE =
      "\\b(?:part (?<named>[a-h]|\\d)\\b(?! of)"
          + "|(?:as )?for [(\\[]?(?<for>[a-h]|\\d)[)\\]]?,"
          + "|(?:as )?for (?<verb>[b-h]) (?=i\\b|it\\b|the\\b))";

  /** What is looked for in a sentence; the word before it is then read backwards from there. */
  private static final Pattern INLINE_CORE = Pattern.compile(CORE, Pattern.CASE_INSENSITIVE);

  private static final Pattern INLINE =
      Pattern.compile("(?<before>[\\p{L}'\\u2019]+)?[\\s,;:.]*" + CORE, Pattern.CASE_INSENSITIVE);

  /** A sentence that says at its end where it belongs: "..., that's for (d)." */
  private static final Pattern POINTS_BACK =
      Pattern.compile(
          "\\b(?:that|this|it|which)(?:['\\u2019]?s| is| was| goes| belongs)? (?:for|to|with|under|in) (?:part |question )?[(\\[]?(?<label>[a-h]|\\d)[)\\]]?[.!)]*$",
          Pattern.CASE_INSENSITIVE);

  private static final Set<Style> SURE = Set.of(Style.NAMED, Style.BRACKETED);

  private final Labels labels;

  LabelReader(Labels labels) {
    this.labels = labels;
  }

  /** Returns the labels in a text, in reading order. */
  List<LabelMark> read(Text text) {
    if (labels.parts().size() < 2) {
      return List.of();
    }
    List<LabelMark> found = new ArrayList<>();
    String last = labels.parts().get(0);
    int reach = 0;
    for (Sentence sentence : text.sentences()) {
      Optional<LabelMark> mark = at(text.raw(), sentence, last);
      if (mark.isPresent()) {
        found.add(mark.get());
        reach = Math.max(reach, mark.get().span().end());
      }
      last = mark.flatMap(LabelMark::part).orElse(last);
      reach = inline(text.raw(), sentence, found, reach);
    }
    return settle(found);
  }

  /** Returns the part that a sentence says at its end it belongs to. */
  Optional<String> pointsBack(String raw, Sentence sentence) {
    Matcher matcher = POINTS_BACK.matcher(sentence.span().of(raw));
    return matcher.find() ? labels.own(matcher.group("label")) : Optional.empty();
  }

  private Optional<LabelMark> at(String raw, Sentence sentence, String last) {
    for (Style style : List.of(Style.NAMED, Style.BRACKETED, Style.STOPPED)) {
      Pattern pattern =
          switch (style) {
            case NAMED -> NAMED;
            case BRACKETED -> BRACKETED;
            default -> STOPPED;
          };
      Matcher matcher = pattern.matcher(raw).region(sentence.start(), raw.length());
      matcher.useTransparentBounds(true);
      if (matcher.lookingAt()) {
        String written = written(matcher, style);
        if (style == Style.STOPPED && !sentence.lineStart() && !goesOnLine(matcher, written)) {
          continue;
        }
        if (style == Style.BRACKETED
            && !sentence.lineStart()
            && Character.isDigit(written.charAt(0))) {
          continue;
        }
        Optional<String> named = labels.below(last, written).or(() -> labels.own(written));
        Optional<String> part = named.or(() -> labels.standIn(written));
        if (part.isPresent() || (SURE.contains(style) && labels.isForeign(written))) {
          return Optional.of(
              new LabelMark(
                  new Span(sentence.start(), matcher.end()),
                  written,
                  part,
                  style,
                  form(matcher.group(), written),
                  sentence.lineStart(),
                  part.isPresent() && named.isEmpty()));
        }
      }
    }
    return Optional.empty();
  }

  /**
   * Inside a line, a full stop behind a capital is how a choice looks: only "b." and "B:" are not.
   */
  private static boolean goesOnLine(Matcher matcher, String written) {
    String stop = matcher.group("stop");
    boolean colon = ":".equals(stop) || ">".equals(stop);
    return colon || (".".equals(stop) && Character.isLowerCase(written.charAt(0)));
  }

  private static String form(String mark, String written) {
    String stand = Character.isUpperCase(written.charAt(0)) ? "X" : "x";
    return mark.strip().replace(written, stand);
  }

  private static String written(Matcher matcher, Style style) {
    String label = matcher.group("label");
    return label == null && style == Style.BRACKETED ? matcher.group("bare") : label;
  }

  /**
   * Adds the labels inside a sentence.
   *
   * @param marked where the last of the labels found so far ends
   * @return the same with those added
   */
  private int inline(String raw, Sentence sentence, List<LabelMark> found, int marked) {
    int reach = marked;
    int from = sentence.start();
    Matcher core = INLINE_CORE.matcher(raw);
    Matcher matcher = INLINE.matcher(raw);
    while (hasCue(raw, from, sentence.end())
        && core.region(from, sentence.end()).find()
        && matcher.region(wordBefore(raw, from, core.start()), sentence.end()).lookingAt()) {
      from = matcher.end();
      String before = matcher.group("before");
      String written = matcher.group("named");
      boolean named = written != null;
      if (written == null) {
        written = matcher.group("for") != null ? matcher.group("for") : matcher.group("verb");
      }
      if (named && before != null && Labels.MENTION.contains(before.toLowerCase(Locale.ROOT))) {
        continue;
      }
      int start = matcher.start();
      if (before != null) {
        start = matcher.end("before");
      }
      while (start < matcher.end() && !Character.isLetter(raw.charAt(start))) {
        start++;
      }
      if (start > sentence.start() || !named) {
        Span span = new Span(start, matcher.end());
        boolean known =
            start < reach && found.stream().anyMatch(mark -> mark.span().overlaps(span));
        String label = written;
        Optional<String> part =
            labels.own(label).or(() -> found.isEmpty() ? Optional.empty() : labels.standIn(label));
        if (!known && part.isPresent()) {
          found.add(
              new LabelMark(
                  span, written, part, Style.INLINE, "", false, labels.own(label).isEmpty()));
          reach = Math.max(reach, span.end());
        }
      }
    }
    return reach;
  }

  /** Tells whether "part " or "for " is there at all, without which there is no label inside. */
  private static boolean hasCue(String raw, int from, int to) {
    for (int at = from + 3; at < to; at++) {
      if (raw.charAt(at) == ' '
          && (raw.regionMatches(true, at - 3, "for", 0, 3)
              || (at - from >= 4 && raw.regionMatches(true, at - 4, "part", 0, 4)))) {
        return true;
      }
    }
    return false;
  }

  /** Returns where the word before a place begins, or the marks when there is no word. */
  private static int wordBefore(String raw, int from, int place) {
    int at = place;
    while (at > from && " \t\n\u000B\f\r,;:.".indexOf(raw.charAt(at - 1)) >= 0) {
      at--;
    }
    while (at > from && isWordPart(raw, from, at)) {
      at -= Character.charCount(raw.codePointBefore(at));
    }
    return at;
  }

  private static boolean isWordPart(String raw, int from, int end) {
    int before = raw.codePointBefore(end);
    return (Character.isLetter(before) && end - Character.charCount(before) >= from)
        || before == '\''
        || before == '\u2019';
  }

  /** Keeps what the company of the other marks makes a label. */
  private List<LabelMark> settle(List<LabelMark> found) {
    Set<String> sure = partsOf(found, SURE);
    Set<String> stopped = partsOf(found, Set.of(Style.STOPPED));
    Set<String> inline = partsOf(found, Set.of(Style.INLINE));
    boolean ownCounting =
        found.stream()
            .anyMatch(
                mark -> mark.style() != Style.INLINE && mark.part().isPresent() && !mark.standIn());
    Set<String> forms = lineForms(found);
    boolean counted = countsFromOne(found);
    List<LabelMark> kept = new ArrayList<>();
    for (LabelMark mark : found) {
      if (mark.style() == Style.STOPPED
          && !mark.lineStart()
          && !forms.isEmpty()
          && !forms.contains(mark.form())) {
        // The lines are labelled another way, so this is a list inside an answer.
        continue;
      }
      boolean keep =
          switch (mark.style()) {
            case NAMED -> true;
            case BRACKETED -> !mark.standIn() || (!ownCounting && sure.size() >= 2);
            // One alone may be a choice or an initial; several that name parts are labels.
            case STOPPED ->
                mark.part().isPresent()
                    && (mark.standIn()
                        ? !ownCounting && counted
                        : stopped.size() >= 2 || !sure.isEmpty())
                    && !(sure.contains(mark.part().get()) && sure.size() >= 2);
            case INLINE -> inline.size() >= 2 || !sure.isEmpty() || stopped.size() >= 2;
          };
      if (keep) {
        kept.add(mark);
      }
    }
    kept.sort(Comparator.comparingInt(mark -> mark.span().start()));
    return kept;
  }

  /** Returns the looks in which at least two parts are labelled at the start of lines. */
  private static Set<String> lineForms(List<LabelMark> found) {
    Map<String, Set<String>> parts = new HashMap<>();
    for (LabelMark mark : found) {
      if (mark.lineStart() && mark.part().isPresent()) {
        parts.computeIfAbsent(mark.form(), key -> new HashSet<>()).add(mark.part().get());
      }
    }
    parts.values().removeIf(named -> named.size() < 2);
    return parts.keySet();
  }

  /** Tells whether the stand-ins run 1, 2, 3 ... without a repeat, as labels would. */
  private boolean countsFromOne(List<LabelMark> found) {
    List<String> parts =
        found.stream()
            .filter(mark -> mark.style() == Style.STOPPED && mark.standIn())
            .map(mark -> mark.part().orElse(""))
            .toList();
    return parts.size() >= 2
        && parts.get(0).equals(labels.parts().get(0))
        && new HashSet<>(parts).size() == parts.size();
  }

  private static Set<String> partsOf(List<LabelMark> marks, Set<Style> styles) {
    Set<String> parts = new HashSet<>();
    for (LabelMark mark : marks) {
      if (styles.contains(mark.style())) {
        mark.part().ifPresent(parts::add);
      }
    }
    return parts;
  }
}
