package everypart.analyzer.text;

import java.util.ArrayList;
import java.util.List;

/**
 * A text with the middle left out of runs without white space that are far longer than any word.
 *
 * <p>The sentence detector looks from each stop to the white space around it, so in a file of
 * megabytes without white space its time would grow with the square of the length. Of such a run it
 * minds the last stop only, ends a sentence at its end or not at all, and knows no word of more
 * than {@value #KEPT} letters, so what is left out tells it nothing.
 */
final class LongRuns {
  /** Runs up to this length are kept as they are. */
  static final int LONGEST = 1_000;

  /** So much is kept at both ends and around the last stop. */
  static final int KEPT = 100;

  private static final String STOPS = ".!?";

  /** From a place in the shortened text on, so many {@code char}s are missing before. */
  private record Cut(int at, int missing) {}

  private final String text;
  private final String shortened;
  private final List<Cut> cuts = new ArrayList<>(0);

  LongRuns(String text) {
    this.text = text;
    if (text.length() <= LONGEST) {
      shortened = text;
      return;
    }
    StringBuilder kept = new StringBuilder();
    int copied = 0;
    int run = 0;
    int stop = -1;
    for (int at = 0; at <= text.length(); at++) {
      if (at < text.length() && !isSpace(text.charAt(at))) {
        stop = STOPS.indexOf(text.charAt(at)) >= 0 ? at : stop;
        continue;
      }
      if (at - run > LONGEST) {
        int middle = stop < run ? run : stop;
        copied = leaveOut(run + KEPT, middle - KEPT, copied, kept);
        copied = leaveOut(Math.max(run, middle) + KEPT, at - KEPT, copied, kept);
      }
      run = at + 1;
    }
    shortened = cuts.isEmpty() ? text : kept.append(text, copied, text.length()).toString();
  }

  private int leaveOut(int from, int to, int copied, StringBuilder kept) {
    if (to <= Math.max(from, copied)) {
      return copied;
    }
    kept.append(text, copied, from);
    cuts.add(new Cut(kept.length(), to - kept.length()));
    return to;
  }

  /** Takes as white space what the sentence detector does. */
  private static boolean isSpace(char c) {
    return Character.isWhitespace(c) || Character.getType(c) == Character.SPACE_SEPARATOR;
  }

  /** Returns the text without the middle of long runs. */
  String shortened() {
    return shortened;
  }

  /**
   * Returns where a place in the shortened text stands in the original one.
   *
   * @param place a place in {@code char}s, from 0 to the length of the shortened text
   */
  int original(int place) {
    int low = 0;
    int high = cuts.size();
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (cuts.get(middle).at() <= place) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low == 0 ? place : place + cuts.get(low - 1).missing();
  }
}
