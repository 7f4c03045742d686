package everypart.analyzer.assign;

import everypart.analyzer.assign.LabelMark.Place;
import everypart.analyzer.assign.LabelMark.Style;
import everypart.analyzer.text.Span;
import everypart.lexicon.Language;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Finds labels that are a letter and nothing else: at the start of lines and sentences, and, in a
 * text almost without stops as dictation gives it, anywhere.
 *
 * <p>One letter alone says nothing: it may be an article, a unit, a name. Letters that follow the
 * prompt's order from its first part on are labels, and so is one that falls between labels already
 * known. Letters that another word takes as its name ("graph b", "vitamin c") are none, nor are
 * those that come back again and again.
 */
final class BareLabels {
  /** Nothing that a letter could be joined to stands right before it. */
  private static final String APART = "(?<![\\p{L}\\p{N}'\\u2019.(\\[/*=+-])";

  private static final Pattern LETTER =
      Pattern.compile(
          APART
              + "(?<lead>(?:(?:"
              + Language.english().either("before_bare_label")
              + ") ){0,5})"
              + "(?<label>[a-h]|\\d{1,2})(?:,|(?=[ \\t]))(?![ \\t]*[-+*/=<>)(&])(?=[ \\t]\\S)"
              + "(?! (?:and|or|to) [a-h]\\b)(?! cells?\\b)(?: is\\b(?: that\\b)?)?",
          Pattern.CASE_INSENSITIVE);

  /** What may stand before the first label of a dictated answer. */
  private static final Pattern OPENING =
      Pattern.compile(
          "(?:\\s|[,.]|\\b(?:" + Language.english().either("before_dictation") + ")\\b){0,20}",
          Pattern.CASE_INSENSITIVE);

  /** A letter that stands alone more often than this is a symbol, no label. Chosen by eye. */
  private static final int MOST = 2;

  /** A text with at least so many words to each stop is taken as dictated. Chosen by eye. */
  private static final int WORDS_A_STOP = 20;

  private record BareLetter(Span span, String written, int part, Place place, boolean led) {}

  private final Labels labels;

  BareLabels(Labels labels) {
    this.labels = labels;
  }

  /** Returns the labels known already with the bare ones, the latter at the end. */
  List<LabelMark> added(String raw, List<LabelMark> known) {
    if (!hasLetter(raw)) {
      return new ArrayList<>(known);
    }
    List<BareLetter> found = find(raw, known);
    Set<Place> places = new HashSet<>();
    for (Place place : Place.values()) {
      places.add(place);
      if (place == Place.INSIDE && !(known.size() < 2 && isDictated(raw))) {
        break;
      }
      List<BareLetter> run =
          run(found.stream().filter(one -> places.contains(one.place())).toList(), known);
      if (isRun(run, known)) {
        List<LabelMark> all = new ArrayList<>(known);
        run.forEach(
            one ->
                all.add(
                    new LabelMark(
                        one.span(),
                        one.written(),
                        List.of(labels.parts().get(one.part())),
                        Style.BARE,
                        "",
                        one.place(),
                        false)));
        return all;
      }
    }
    return new ArrayList<>(known);
  }

  /** Tells whether a letter but "a", or a figure, stands alone at all. */
  private static boolean hasLetter(String raw) {
    for (int i = 0; i + 1 < raw.length(); i++) {
      char c = raw.charAt(i);
      boolean letter = (c >= 'b' && c <= 'h') || (c >= 'B' && c <= 'H') || (c >= '0' && c <= '9');
      if (letter
          && " \t,".indexOf(raw.charAt(i + 1)) >= 0
          && (i == 0 || !Character.isLetter(raw.charAt(i - 1)))) {
        return true;
      }
    }
    return false;
  }

  /** Returns the letters that may be labels of parts which have none yet. */
  private List<BareLetter> find(String raw, List<LabelMark> known) {
    Set<String> labelled = new HashSet<>();
    known.forEach(mark -> labelled.addAll(mark.parts()));
    Matcher opening = OPENING.matcher(raw);
    int opened = opening.lookingAt() ? opening.end() : 0;
    Map<String, Integer> times = new HashMap<>();
    List<BareLetter> found = new ArrayList<>();
    Matcher matcher = LETTER.matcher(raw);
    while (matcher.find()) {
      String written = matcher.group("label");
      List<String> named = labels.own(written);
      boolean led = !matcher.group("lead").isEmpty();
      Place place = place(raw, matcher.start());
      if (named.size() != 1
          || labelled.contains(named.get(0))
          || (Character.isDigit(written.charAt(0)) && place != Place.LINE)) {
        continue;
      }
      String before = LabelReader.wordBefore(raw, matcher.start()).toLowerCase(Locale.ROOT);
      boolean name =
          place == Place.INSIDE
              && (labels.isIn("namedByLetter", before)
                  || (!led && labels.isIn("mention", before))
                  || before.length() == 1);
      // An "a" is an article, unless the answer begins with it.
      boolean article =
          written.equalsIgnoreCase("a")
              && matcher.start("label") > opened
              && !isNamed(matcher.group("lead"));
      if (!article) {
        times.merge(named.get(0), 1, Integer::sum);
      }
      if (!name && !article) {
        found.add(
            new BareLetter(
                new Span(matcher.start(), matcher.end()),
                written,
                labels.place(named.get(0)),
                place,
                led));
      }
    }
    found.removeIf(one -> times.getOrDefault(labels.parts().get(one.part()), 0) > MOST);
    return found;
  }

  /** Tells whether the word before a letter calls it one: "letter a". */
  private boolean isNamed(String lead) {
    String words = lead.strip().toLowerCase(Locale.ROOT);
    return labels.isIn("callsLetter", words.substring(words.lastIndexOf(' ') + 1));
  }

  private static Place place(String raw, int start) {
    int before = start - 1;
    while (before >= 0 && (raw.charAt(before) == ' ' || raw.charAt(before) == '\t')) {
      before--;
    }
    if (before < 0 || raw.charAt(before) == '\n' || raw.charAt(before) == '\r') {
      return Place.LINE;
    }
    return ".!?".indexOf(raw.charAt(before)) >= 0 ? Place.SENTENCE : Place.INSIDE;
  }

  /** Tells whether a text has too few stops to have been typed. */
  private static boolean isDictated(String raw) {
    int words = 0;
    int stops = 0;
    for (int i = 0; i < raw.length(); i++) {
      char c = raw.charAt(i);
      if (c == ' ') {
        words++;
      } else if (".,:;!?\n".indexOf(c) >= 0 && i < raw.length() - 1) {
        stops++;
      }
    }
    return (long) stops * WORDS_A_STOP <= words;
  }

  /**
   * Returns the longest run of letters in the prompt's order that goes with the labels known; of
   * two, the one that begins first.
   */
  private List<BareLetter> run(List<BareLetter> found, List<LabelMark> known) {
    int parts = labels.parts().size();
    int[] longest = new int[parts];
    List<List<BareLetter>> runs = new ArrayList<>();
    for (int p = 0; p < parts; p++) {
      runs.add(List.of());
    }
    for (BareLetter one : found) {
      if (!fits(one, known)) {
        continue;
      }
      int before = -1;
      for (int p = 0; p < one.part(); p++) {
        if (longest[p] > (before < 0 ? 0 : longest[before])) {
          before = p;
        }
      }
      int length = (before < 0 ? 0 : longest[before]) + (one.led() ? 11 : 10);
      if (length > longest[one.part()]) {
        List<BareLetter> run = new ArrayList<>(before < 0 ? List.of() : runs.get(before));
        run.add(one);
        runs.set(one.part(), run);
        longest[one.part()] = length;
      }
    }
    int best = 0;
    for (int p = 1; p < parts; p++) {
      best = longest[p] > longest[best] ? p : best;
    }
    return runs.get(best);
  }

  /**
   * Tells whether a letter stands between the labels before and after it, in the prompt's order.
   */
  private boolean fits(BareLetter one, List<LabelMark> known) {
    int before = -1;
    int after = labels.parts().size();
    for (LabelMark mark : known) {
      if (mark.parts().isEmpty()) {
        continue;
      }
      if (mark.span().start() < one.span().start()) {
        before = labels.place(mark.parts().get(mark.parts().size() - 1));
      } else {
        after = labels.place(mark.first());
        break;
      }
    }
    return before < one.part() && one.part() < after;
  }

  /** Tells whether a run is long enough to be no chance. */
  private boolean isRun(List<BareLetter> run, List<LabelMark> known) {
    if (run.isEmpty()) {
      return false;
    }
    Set<Integer> parts = new HashSet<>();
    run.forEach(one -> parts.add(one.part()));
    known.forEach(mark -> mark.parts().forEach(part -> parts.add(labels.place(part))));
    return parts.size() >= 3 || (parts.contains(0) && parts.contains(1));
  }
}
