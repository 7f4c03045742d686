package everypart.analyzer.assign;

import everypart.analyzer.assign.LabelMark.Place;
import everypart.analyzer.assign.LabelMark.Style;
import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.Span;
import everypart.analyzer.text.Text;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * Finds the labels that a writer put, and tells them from what only looks like one: a choice ("A.
 * It heats up faster"), the steps of a list, a mention ("as I said in part b").
 *
 * <p>All that looks like a label is gathered first; then what stands beside it decides.
 */
final class LabelReader {
  private static final Set<Style> SURE = Set.of(Style.NAMED, Style.BRACKETED);

  private static final List<Pattern> NAMED = both(LabelPatterns::named);
  private static final List<Pattern> BRACKETED = both(LabelPatterns::bracketed);
  private static final List<Pattern> STOPPED = both(LabelPatterns::stopped);

  private static final int LONGEST_HEADING = 1000;

  private static final Pattern ANSWER =
      Pattern.compile("\\A\\s*(?:a|ans|answer)\\s*[:.]", Pattern.CASE_INSENSITIVE);

  private static final Pattern RANGE = Pattern.compile("-|\\u2013|\\bto\\b");

  private final Labels labels;

  LabelReader(Labels labels) {
    this.labels = labels;
  }

  private interface Nesting {
    Pattern pattern(boolean nested);
  }

  private static List<Pattern> both(Nesting nesting) {
    return List.of(nesting.pattern(true), nesting.pattern(false));
  }

  /** Returns the labels in a text, in reading order. */
  List<LabelMark> read(Text text) {
    if (labels.parts().size() < 2) {
      return List.of();
    }
    List<LabelMark> found = new ArrayList<>();
    String last = labels.parts().get(0);
    int read = 0;
    for (Sentence sentence : text.sentences()) {
      if (sentence.start() < read) {
        // Its start is a piece of the label before, as in "Ans. (b)".
        insideMarks(text.raw(), read, sentence, found);
        continue;
      }
      Place place = sentence.lineStart() ? Place.LINE : Place.SENTENCE;
      Optional<LabelMark> mark =
          at(text.raw(), sentence.start(), sentence.end(), place, last)
              .map(first -> doubled(text.raw(), first, sentence.end()))
              .map(first -> withQuestion(text.raw(), first, sentence.end()))
              .or(() -> heading(text.raw(), sentence, place));
      mark.ifPresent(found::add);
      last = mark.filter(one -> !one.parts().isEmpty()).map(LabelMark::first).orElse(last);
      read = mark.map(one -> one.span().end()).orElse(sentence.start());
      insideMarks(text.raw(), read, sentence, found);
    }
    List<LabelMark> kept = settle(withoutLoneHeadings(text.raw(), found));
    kept = new BareLabels(labels).added(text.raw(), kept);
    if (kept.isEmpty()) {
      kept = new ArrayList<>(new SeriesLabels(labels).read(text));
    }
    kept.sort(Comparator.comparingInt(mark -> mark.span().start()));
    return narrowed(kept);
  }

  /** Takes a question copied behind its own label as a piece of the label. */
  private LabelMark withQuestion(String raw, LabelMark mark, int end) {
    int from = mark.span().end();
    return from < end
            && end - from <= LONGEST_HEADING
            && labels.asked(raw.substring(from, end)).filter(mark.parts()::contains).isPresent()
        ? mark.until(end)
        : mark;
  }

  /** Reads a copied question as a heading, with the "A:" that may follow it. */
  private Optional<LabelMark> heading(String raw, Sentence sentence, Place place) {
    if (place != Place.LINE || sentence.end() - sentence.start() > LONGEST_HEADING) {
      return Optional.empty();
    }
    String words = sentence.span().of(raw);
    Matcher answer = ANSWER.matcher(raw).region(sentence.end(), raw.length());
    int end = answer.lookingAt() ? answer.end() : sentence.end();
    return labels
        .asked(words)
        .map(
            part ->
                new LabelMark(
                    new Span(sentence.start(), end),
                    words,
                    List.of(part),
                    Style.HEADING,
                    "",
                    place,
                    false));
  }

  /**
   * Leaves out copied questions that head no answer: one right before another, as where all are
   * copied first, or the only one.
   */
  private static List<LabelMark> withoutLoneHeadings(String raw, List<LabelMark> found) {
    Set<LabelMark> heads = new HashSet<>();
    Set<String> headed = new HashSet<>();
    for (int i = 0; i < found.size(); i++) {
      LabelMark mark = found.get(i);
      int next = i + 1 < found.size() ? found.get(i + 1).span().start() : raw.length();
      if (mark.style() == Style.HEADING
          && mark.span().end() < next
          && !raw.substring(mark.span().end(), next).isBlank()) {
        heads.add(mark);
        headed.add(mark.first());
      }
    }
    return found.stream()
        .filter(
            mark -> mark.style() != Style.HEADING || (headed.size() >= 2 && heads.contains(mark)))
        .toList();
  }

  /** Returns the part that a sentence says at its end it belongs to. */
  Optional<String> pointsBack(String raw, Sentence sentence) {
    Matcher matcher = LabelPatterns.POINTS_BACK.matcher(sentence.span().of(raw));
    return matcher.find()
        ? labels.own(matcher.group("label")).stream().findFirst()
        : Optional.empty();
  }

  private Optional<LabelMark> at(String raw, int start, int end, Place place, String last) {
    return joint(raw, start, end, place)
        .or(() -> first(NAMED, Style.NAMED, raw, start, place, last))
        .or(() -> ordinal(raw, start, end, place))
        .or(() -> first(BRACKETED, Style.BRACKETED, raw, start, place, last))
        .or(() -> first(STOPPED, Style.STOPPED, raw, start, place, last));
  }

  private Optional<LabelMark> first(
      List<Pattern> patterns, Style style, String raw, int start, Place place, String last) {
    for (Pattern pattern : patterns) {
      Matcher matcher = pattern.matcher(raw).region(start, raw.length());
      matcher.useTransparentBounds(true);
      if (matcher.lookingAt()) {
        Optional<LabelMark> mark = mark(matcher, style, raw, start, place, last);
        if (mark.isPresent()) {
          return mark;
        }
      }
    }
    return Optional.empty();
  }

  private Optional<LabelMark> mark(
      Matcher matcher, Style look, String raw, int start, Place place, String last) {
    String written = written(matcher, look);
    if (look == Style.STOPPED && !stops(matcher, written, raw, place)) {
      return Optional.empty();
    }
    if (look == Style.BRACKETED && place != Place.LINE && Character.isDigit(written.charAt(0))) {
      return Optional.empty();
    }
    Style style = look;
    if (look == Style.NAMED && matcher.group("unsure") != null && matcher.group("close") == null) {
      style = Style.CALLED;
    }
    List<String> named = labels.below(last, written).map(List::of).orElse(labels.own(written));
    List<String> parts =
        named.isEmpty() ? labels.standIn(written).map(List::of).orElse(List.of()) : named;
    if (parts.isEmpty() && !(SURE.contains(style) && labels.isForeign(written))) {
      return Optional.empty();
    }
    return Optional.of(
        new LabelMark(
            new Span(start, matcher.end()),
            written,
            parts,
            style,
            form(matcher.group(), written),
            place,
            !parts.isEmpty() && named.isEmpty()));
  }

  /**
   * Tells whether the mark behind a letter can end a label where it stands. Inside a line, a full
   * stop behind a capital is how a choice looks: only "b." and "B:" are not. Before a small letter
   * it is how a shortened genus looks.
   */
  private static boolean stops(Matcher matcher, String written, String raw, Place place) {
    String stop = matcher.group("stop");
    boolean capital = Character.isUpperCase(written.charAt(0));
    if (place == Place.LINE) {
      boolean genus =
          ".".equals(stop)
              && capital
              && matcher.end() + 1 < raw.length()
              && raw.charAt(matcher.end()) == ' '
              && Character.isLowerCase(raw.charAt(matcher.end() + 1));
      return !genus;
    }
    return ":".equals(stop) || ">".equals(stop) || (".".equals(stop) && !capital);
  }

  private Optional<LabelMark> ordinal(String raw, int start, int end, Place place) {
    Matcher matcher = LabelPatterns.ORDINAL.matcher(raw).region(start, end);
    if (!matcher.lookingAt() || (matcher.group("lead") == null && matcher.group("close") == null)) {
      return Optional.empty();
    }
    String nth = matcher.group("nth");
    return labels
        .at(nth == null ? -1 : labels.ordinal(nth))
        .map(
            part ->
                new LabelMark(
                    new Span(start, matcher.end()),
                    matcher.group().strip(),
                    List.of(part),
                    Style.ORDINAL,
                    "",
                    place,
                    false));
  }

  private Optional<LabelMark> joint(String raw, int start, int end, Place place) {
    Matcher matcher = LabelPatterns.JOINT.matcher(raw).region(start, end);
    if (!matcher.lookingAt()) {
      return Optional.empty();
    }
    String list = matcher.group("list");
    boolean bracketed = list.indexOf(')') >= 0 || list.indexOf(']') >= 0;
    if (matcher.group("word") == null && matcher.group("close") == null && !bracketed) {
      return Optional.empty();
    }
    List<String> written =
        List.of(list.replaceAll("(?i)\\b(?:and|to)\\b", " ").strip().split("[^\\p{L}\\d]+", -1))
            .stream()
            .filter(one -> !one.isEmpty())
            .toList();
    List<Integer> places = new ArrayList<>();
    for (String one : written) {
      List<String> named = labels.own(one);
      if (named.isEmpty() || (!places.isEmpty() && labels.place(named.get(0)) <= last(places))) {
        return Optional.empty();
      }
      named.forEach(part -> places.add(labels.place(part)));
    }
    if (written.size() == 2 && RANGE.matcher(list).find()) {
      for (int between = places.get(0) + 1; between < last(places); between++) {
        places.add(between);
      }
    }
    List<String> parts =
        places.stream().distinct().sorted().map(place1 -> labels.parts().get(place1)).toList();
    return Optional.of(
        new LabelMark(new Span(start, matcher.end()), list, parts, Style.NAMED, "", place, false));
  }

  private static int last(List<Integer> places) {
    return places.get(places.size() - 1);
  }

  private static String form(String mark, String written) {
    String stand = Character.isUpperCase(written.charAt(0)) ? "X" : "x";
    return mark.strip().replace(written, stand);
  }

  private String written(Matcher matcher, Style style) {
    String label = matcher.group("label");
    if (label == null) {
      return style == Style.BRACKETED
          ? matcher.group("bare")
          : labels.spelled(matcher.group("word"));
    }
    return label;
  }

  /** Takes a second label for the same part, right behind the first, as a piece of it. */
  private LabelMark doubled(String raw, LabelMark mark, int end) {
    int from = mark.span().end();
    if (mark.parts().size() != 1 || from >= end) {
      return mark;
    }
    return first(BRACKETED, Style.BRACKETED, raw, from, Place.LINE, mark.first())
        .filter(second -> second.parts().equals(mark.parts()) && !second.standIn())
        .map(second -> mark.until(second.span().end()))
        .orElse(mark);
  }

  private void insideMarks(String raw, int from, Sentence sentence, List<LabelMark> found) {
    if (from < sentence.end()) {
      insideNamed(raw, from, sentence.end(), found);
      insideMarked(raw, from, sentence, found);
    }
  }

  private void insideNamed(String raw, int from, int end, List<LabelMark> found) {
    if (!hasCue(raw, from, end)) {
      return;
    }
    Matcher matcher = LabelPatterns.INSIDE_NAMED.matcher(raw).region(from, end);
    matcher.useTransparentBounds(true);
    while (matcher.find()) {
      String word = matcher.group("sure");
      String written =
          group(matcher, "label", "for", "verb")
              .orElseGet(() -> labels.spelled(matcher.group("word")));
      boolean led = !matcher.group("lead").isEmpty();
      if (word != null && !led && labels.isIn("mention", wordBefore(raw, matcher.start()))) {
        continue;
      }
      List<String> own = labels.own(written);
      List<String> parts =
          own.isEmpty() ? labels.standIn(written).map(List::of).orElse(List.of()) : own;
      if (!parts.isEmpty()) {
        boolean called = word != null && labels.isIn("callsLetter", word);
        found.add(
            new LabelMark(
                new Span(matcher.start(), matcher.end()),
                written,
                parts,
                called ? Style.CALLED : Style.INLINE,
                "",
                Place.INSIDE,
                own.isEmpty()));
      }
    }
  }

  /** Tells whether a word that may announce a label is there at all. */
  private boolean hasCue(String raw, int from, int to) {
    for (int at = from + 2; at < to; at++) {
      if (raw.charAt(at) == ' ') {
        for (String cue : labels.list("announcesLabel")) {
          int start = at - cue.length();
          if (start >= from && raw.regionMatches(true, start, cue, 0, cue.length())) {
            return true;
          }
        }
      }
    }
    return false;
  }

  private void insideMarked(String raw, int from, Sentence sentence, List<LabelMark> found) {
    Matcher matcher = LabelPatterns.INSIDE_MARKED.matcher(raw).region(from, sentence.end());
    matcher.useTransparentBounds(true);
    int scanned = from;
    boolean bracket = false;
    while (matcher.find()) {
      for (; scanned < matcher.start(); scanned++) {
        char c = raw.charAt(scanned);
        bracket = c == '(' || (bracket && c != ')');
      }
      String written = group(matcher, "round", "half", "colon").orElseThrow();
      List<String> parts = labels.own(written);
      boolean open = matcher.group("half") != null && bracket;
      if (parts.size() == 1 && !open && !labels.isIn("mention", wordBefore(raw, matcher.start()))) {
        found.add(
            new LabelMark(
                new Span(matcher.start(), matcher.end()),
                written,
                parts,
                matcher.group("colon") == null ? Style.BRACKETED : Style.STOPPED,
                form(matcher.group(), written),
                Place.INSIDE,
                false));
      }
    }
  }

  private static Optional<String> group(Matcher matcher, String... names) {
    return Stream.of(names).flatMap(name -> Stream.ofNullable(matcher.group(name))).findFirst();
  }

  /** Returns the word before a place, or "" where a mark stands there. */
  static String wordBefore(String raw, int at) {
    int end = at;
    while (end > 0 && raw.charAt(end - 1) == ' ') {
      end--;
    }
    int start = end;
    while (start > 0 && Character.isLetter(raw.charAt(start - 1))) {
      start--;
    }
    return raw.substring(start, end);
  }

  /** Keeps what the company of the other marks makes a label. */
  private List<LabelMark> settle(List<LabelMark> found) {
    List<LabelMark> heads = found.stream().filter(mark -> mark.place() != Place.INSIDE).toList();
    Set<String> sure = partsOf(heads, SURE);
    Set<String> stopped = partsOf(heads, Set.of(Style.STOPPED));
    Set<String> inline = partsOf(found, Set.of(Style.INLINE));
    Set<String> called = partsOf(found, Set.of(Style.CALLED, Style.NAMED));
    Set<String> ordinal = partsOf(found, Set.of(Style.ORDINAL));
    boolean ownCounting =
        heads.stream()
            .anyMatch(
                mark ->
                    mark.style() != Style.ORDINAL && !mark.parts().isEmpty() && !mark.standIn());
    Set<String> forms = lineForms(found);
    Map<String, Set<String>> inside = forms(found);
    boolean counted = countsFromOne(found);
    List<LabelMark> kept = new ArrayList<>();
    for (LabelMark mark : found) {
      if (mark.style() == Style.STOPPED
          && mark.place() != Place.LINE
          && !forms.isEmpty()
          && !forms.contains(mark.form())) {
        // The lines are labelled another way, so this is a list inside an answer.
        continue;
      }
      boolean keep =
          switch (mark.style()) {
            case NAMED -> true;
            case CALLED -> called.size() >= 2 && !(mark.standIn() && ownCounting);
            case ORDINAL -> ordinal.size() >= 2 && sure.isEmpty() && stopped.size() < 2;
            case BRACKETED ->
                mark.place() == Place.INSIDE
                    ? continuesForm(mark, inside, sure)
                    : !mark.standIn() || (!ownCounting && sure.size() >= 2);
            // One alone may be a choice or an initial; several that name parts are labels.
            case STOPPED ->
                mark.place() == Place.INSIDE
                    ? continuesForm(mark, inside, sure) && !stopped.contains(mark.first())
                    : (mark.standIn()
                            ? !ownCounting && counted
                            : stopped.size() >= 2
                                || !sure.isEmpty()
                                || inside.getOrDefault(mark.form(), Set.of()).size() >= 2)
                        && !(sure.contains(mark.first()) && sure.size() >= 2);
            case INLINE ->
                (inline.size() >= 2 || !sure.isEmpty() || stopped.size() >= 2)
                    && !(mark.standIn() && ownCounting);
            case HEADING, BARE -> true;
          };
      if (keep) {
        kept.add(mark);
      }
    }
    kept.sort(Comparator.comparingInt(mark -> mark.span().start()));
    return kept;
  }

  /**
   * Tells whether a mark inside a sentence goes on with labels of the same look, for a part that
   * has no label at the start of a sentence.
   */
  private static boolean continuesForm(
      LabelMark mark, Map<String, Set<String>> forms, Set<String> heads) {
    return forms.getOrDefault(mark.form(), Set.of()).size() >= 2 && !heads.contains(mark.first());
  }

  /** Returns which parts are labelled in each look. */
  private static Map<String, Set<String>> forms(List<LabelMark> found) {
    Map<String, Set<String>> parts = new HashMap<>();
    for (LabelMark mark : found) {
      if (!mark.parts().isEmpty()) {
        parts.computeIfAbsent(mark.form(), key -> new HashSet<>()).add(mark.first());
      }
    }
    return parts;
  }

  /** Returns the looks in which at least two parts are labelled at the start of lines. */
  private static Set<String> lineForms(List<LabelMark> found) {
    Map<String, Set<String>> parts = forms(found.stream().filter(LabelMark::lineStart).toList());
    parts.values().removeIf(named -> named.size() < 2);
    return parts.keySet();
  }

  /** Tells whether the stand-ins run 1, 2, 3 ... without a repeat, as labels would. */
  private boolean countsFromOne(List<LabelMark> found) {
    List<String> parts =
        found.stream()
            .filter(mark -> mark.style() == Style.STOPPED && mark.standIn())
            .map(mark -> mark.parts().isEmpty() ? "" : mark.first())
            .toList();
    return parts.size() >= 2
        && parts.get(0).equals(labels.parts().get(0))
        && new HashSet<>(parts).size() == parts.size();
  }

  private static Set<String> partsOf(List<LabelMark> marks, Set<Style> styles) {
    Set<String> parts = new HashSet<>();
    for (LabelMark mark : marks) {
      if (styles.contains(mark.style())) {
        parts.addAll(mark.parts());
      }
    }
    return parts;
  }

  /** Takes from a label for several parts those that have a label of their own. */
  private static List<LabelMark> narrowed(List<LabelMark> marks) {
    Set<String> single = new HashSet<>();
    marks.stream()
        .filter(mark -> mark.parts().size() == 1)
        .forEach(mark -> single.add(mark.first()));
    List<LabelMark> narrowed = new ArrayList<>();
    for (LabelMark mark : marks) {
      List<String> left = mark.parts().stream().filter(part -> !single.contains(part)).toList();
      narrowed.add(
          mark.parts().size() < 2
              ? mark
              : mark.naming(left.isEmpty() ? mark.parts().subList(0, 1) : left));
    }
    return narrowed;
  }
}
