package everypart.analyzer.assign;

import everypart.analyzer.assign.LabelMark.Place;
import everypart.analyzer.assign.LabelMark.Style;
import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.Span;
import everypart.analyzer.text.Text;
import everypart.lexicon.Language;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Reads number words and ordinals that stand before answers as labels: "One: ... Two: ...",
 * "Firstly, ... Secondly, ...". Steps of one answer look the same, so they count only where nothing
 * else labels the text, where they begin it and count up from one without a gap, and, behind a
 * comma or no mark, where there is one for each part, each at the start of a line.
 */
final class SeriesLabels {
  private static final Pattern MEMBER =
      Pattern.compile(
          "[\\s>*_\\u2022-]{0,6}(?:(?:the|my) )?(?:(?<count>"
              + Language.english().either("cardinal")
              + ")"
              + "|(?<nth>"
              + Language.english().either("ordinal")
              + "|\\d{1,2}(?:st|nd|rd|th))(?:ly)?"
              + "|(?<next>"
              + Language.english().either("next_in_series")
              + ")|(?<last>"
              + Language.english().either("last_in_series")
              + "))"
              + "(?: (?:one|answer|part))?(?:\\s?(?<strong>[:)]|\\.(?=\\s)|[\\u2013\\u2014-](?=\\s)|is\\b)|(?<weak>,|(?=\\s)))",
          Pattern.CASE_INSENSITIVE);

  private final Labels labels;

  SeriesLabels(Labels labels) {
    this.labels = labels;
  }

  private record Member(
      int start, int end, String written, int rank, boolean strong, Place place) {}

  /** Returns the labels of a text that has no others; none where its number words are no labels. */
  List<LabelMark> read(Text text) {
    List<Member> members = new ArrayList<>();
    for (Sentence sentence : text.sentences()) {
      Matcher matcher = MEMBER.matcher(text.raw()).region(sentence.start(), sentence.end());
      matcher.useTransparentBounds(true);
      boolean member = matcher.lookingAt();
      if (members.size() > labels.parts().size() || (members.isEmpty() && !member)) {
        // More than there are parts, or the text begins with something else.
        return List.of();
      }
      if (member) {
        members.add(
            new Member(
                sentence.start(),
                matcher.end(),
                matcher.group().strip(),
                rank(matcher, members.size()),
                matcher.group("strong") != null,
                sentence.lineStart() ? Place.LINE : Place.SENTENCE));
      }
    }
    if (!isSeries(text, members)) {
      return List.of();
    }
    List<LabelMark> marks = new ArrayList<>();
    for (Member member : members) {
      Optional<String> part = labels.at(member.rank());
      if (part.isEmpty()) {
        return List.of();
      }
      marks.add(
          new LabelMark(
              new Span(member.start(), member.end()),
              member.written(),
              List.of(part.get()),
              Style.ORDINAL,
              "",
              member.place(),
              false));
    }
    return marks;
  }

  /** Returns the place that a member names, from 0; "next" and "last" go on from the one before. */
  private int rank(Matcher matcher, int before) {
    if (matcher.group("next") != null || matcher.group("last") != null) {
      return before;
    }
    String word = matcher.group("count");
    return word == null
        ? labels.ordinal(matcher.group("nth"))
        : Integer.parseInt(labels.spelled(word)) - 1;
  }

  private boolean isSeries(Text text, List<Member> members) {
    if (members.size() < 2 || members.size() > labels.parts().size()) {
      return false;
    }
    boolean strong = true;
    boolean lines = true;
    for (int i = 0; i < members.size(); i++) {
      if (members.get(i).rank() != i) {
        return false;
      }
      strong &= members.get(i).strong();
      lines &= members.get(i).place() == Place.LINE;
    }
    long begun = text.sentences().stream().filter(Sentence::lineStart).count();
    boolean each = members.size() == labels.parts().size() && begun == members.size();
    return strong || (lines && each);
  }
}
