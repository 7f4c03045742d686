package everypart.analyzer.assign;

import everypart.analyzer.assign.LabelMark.Style;
import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.Span;
import everypart.analyzer.text.Text;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
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
      "[*_]{0,2}\\s*(?:[:.)\\]=/,\\u2013\\u2014-]{1,3}|(?=\\s|$))[*_]{0,2}";

  private static final Pattern NAMED =
      Pattern.compile(
          OPEN
              + "(?:(?:ok |so |then |and |as |now |um )*(?:for|in|to|on) )?(?:the )?(?:part|question|section|task|answer to|q)[ .:#-]{0,2}[(\\[]?"
              + LABEL
              + "(?![\\p{L}\\d'\\u2019])[)\\]]?"
              + CLOSE,
          Pattern.CASE_INSENSITIVE);

  private static final Pattern BRACKETED =
      Pattern.compile(
          OPEN
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
              + "(?![\\p{L}\\d'\\u2019])[*_]{0,2}(?:[.:][*_]{0,2}(?=\\s|$)|\\s*[=\\u2013\\u2014](?=\\s)|\\s-{1,2}(?=\\s)|[-/](?=\\s)|[*_]{0,2}(?=\\s*(?:\\n|$)))",
          Pattern.CASE_INSENSITIVE);

  private static final Pattern INLINE =
      Pattern.compile(
          "(?<before>[\\p{L}'\\u2019]+)?[\\s,;:.]*\\b(?:part (?<named>[a-h]|\\d)\\b(?! of)|(?:as )?for (?<for>[a-h]),|(?:as )?for (?<verb>[b-h]) (?=i\\b|it\\b|the\\b))",
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
    for (Sentence sentence : text.sentences()) {
      Optional<LabelMark> mark = at(text.raw(), sentence, last);
      mark.ifPresent(found::add);
      last = mark.flatMap(LabelMark::part).orElse(last);
      inline(text.raw(), sentence, found);
    }
    return settle(found);
  }

  private Optional<LabelMark> at(String raw, Sentence sentence, String last) {
    for (Style style : List.of(Style.NAMED, Style.BRACKETED, Style.STOPPED)) {
      Pattern pattern =
          switch (style) {
            case NAMED -> NAMED;
            case BRACKETED -> BRACKETED;
            default -> STOPPED;
          };
      if (style == Style.STOPPED && !sentence.lineStart()) {
        continue;
      }
      Matcher matcher = pattern.matcher(raw).region(sentence.start(), raw.length());
      matcher.useTransparentBounds(true);
      if (matcher.find() && matcher.start() == sentence.start()) {
        String written = written(matcher, style);
        if (style == Style.BRACKETED
            && !sentence.lineStart()
            && Character.isDigit(written.charAt(0))) {
          continue;
        }
        Optional<String> part =
            labels
                .below(last, written)
                .or(() -> labels.own(written))
                .or(() -> labels.standIn(written));
        if (part.isPresent() || (SURE.contains(style) && labels.isForeign(written))) {
          return Optional.of(
              new LabelMark(new Span(sentence.start(), matcher.end()), written, part, style));
        }
      }
    }
    return Optional.empty();
  }

  private static String written(Matcher matcher, Style style) {
    String label = matcher.group("label");
    return label == null && style == Style.BRACKETED ? matcher.group("bare") : label;
  }

  private void inline(String raw, Sentence sentence, List<LabelMark> found) {
    Matcher matcher = INLINE.matcher(raw).region(sentence.start(), sentence.end());
    while (matcher.find()) {
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
      if (start > sentence.start()) {
        Span span = new Span(start, matcher.end());
        boolean known = found.stream().anyMatch(mark -> mark.span().overlaps(span));
        Optional<String> part = labels.own(written);
        if (!known && part.isPresent()) {
          found.add(new LabelMark(span, written, part, Style.INLINE));
        }
      }
    }
  }

  /** Keeps what the company of the other marks makes a label. */
  private List<LabelMark> settle(List<LabelMark> found) {
    Set<String> sure = partsOf(found, SURE);
    Set<String> stopped = partsOf(found, Set.of(Style.STOPPED));
    Set<String> inline = partsOf(found, Set.of(Style.INLINE));
    boolean ownCounting =
        found.stream()
            .anyMatch(
                mark -> mark.style() != Style.INLINE && labels.own(mark.written()).isPresent());
    List<LabelMark> kept = new ArrayList<>();
    for (LabelMark mark : found) {
      boolean standIn = mark.part().isPresent() && labels.own(mark.written()).isEmpty();
      boolean keep =
          switch (mark.style()) {
            case NAMED -> true;
            case BRACKETED -> !standIn || (!ownCounting && sure.size() >= 2);
            // One alone may be a choice or an initial; several that name parts are labels.
            case STOPPED ->
                mark.part().isPresent()
                    && (standIn
                        ? !ownCounting && countsFromOne(found)
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

  /** Tells whether the stand-ins run 1, 2, 3 ... without a repeat, as labels would. */
  private boolean countsFromOne(List<LabelMark> found) {
    List<String> parts =
        found.stream()
            .filter(mark -> mark.style() == Style.STOPPED && labels.own(mark.written()).isEmpty())
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
