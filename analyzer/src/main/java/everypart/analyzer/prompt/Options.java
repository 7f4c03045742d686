package everypart.analyzer.prompt;

import everypart.analyzer.text.Span;
import everypart.lexicon.TaskVerbs;
import everypart.lexicon.WordLine;
import java.util.ArrayList;
import java.util.List;

/**
 * The options that a question puts before the writer: "rise or fall", "on the sand, on the mud or
 * in the pool".
 *
 * @param ranges the first token of each option and the one behind its last
 */
record Options(List<int[]> ranges) {
  /** An option has at most so many words. Chosen by eye. */
  private static final int LONGEST = 7;

  /** Finds the options between two tokens; none where nothing is joined by "or". */
  static Options in(AskedSentence at, int from, int to) {
    TaskVerbs verbs = at.verbs();
    WordLine line = at.line();
    for (int or = from + 1; or + 1 < to; or++) {
      if (line.form(or).equals("or") && !verbs.isIn("noChoice", line.form(or + 1))) {
        int end = end(verbs, line, or + 1, to);
        int first = start(verbs, line, from, or, or + 1, end);
        if (end > or + 1 && first < or) {
          return new Options(listed(at, from, first, or, end));
        }
      }
    }
    return new Options(List.of());
  }

  private static int end(TaskVerbs verbs, WordLine line, int from, int to) {
    int end = from;
    while (end < Math.min(to, from + LONGEST)
        && Character.isLetterOrDigit(line.form(end).charAt(0))
        && !(end > from && verbs.isIn("optionEnd", line.form(end)))) {
      end++;
    }
    return end;
  }

  /** Where the option before "or" begins: at the word that opens the other one, else as long. */
  private static int start(
      TaskVerbs verbs, WordLine line, int from, int or, int other, int otherEnd) {
    int back = or;
    while (back > Math.max(from, or - LONGEST)
        && Character.isLetterOrDigit(line.form(back - 1).charAt(0))
        && !verbs.isIn("optionStart", line.form(back - 1))) {
      back--;
      if (line.form(back).equals(line.form(other))) {
        return back;
      }
    }
    boolean comma = back > from && line.form(back - 1).equals(",");
    return comma ? back : Math.max(back, or - Math.max(1, otherEnd - other));
  }

  private static List<int[]> listed(AskedSentence at, int from, int first, int or, int end) {
    TaskVerbs verbs = at.verbs();
    WordLine line = at.line();
    List<int[]> ranges = new ArrayList<>();
    int left = first;
    int last = line.form(or - 1).equals(",") ? or - 1 : or;
    ranges.add(new int[] {left, last});
    while (left - 1 > from && line.form(left - 1).equals(",")) {
      int item = left - 1;
      int begin = start(verbs, line, from, item, first, last);
      if (begin >= item || at.isCapital(begin) != at.isCapital(or + 1)) {
        break;
      }
      ranges.add(0, new int[] {begin, item});
      left = begin;
    }
    ranges.add(new int[] {or + 1, end});
    return ranges;
  }

  /** Returns where each option stands in the text. */
  List<Span> spans(AskedSentence at) {
    return ranges.stream()
        .filter(range -> range[0] < range[1])
        .map(range -> at.span(range[0], range[1]))
        .toList();
  }
}
