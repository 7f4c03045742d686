package everypart.analyzer.assign;

import java.util.ArrayList;
import java.util.List;

/**
 * Tells the line breaks that a writer put from those that a fixed width put: a text is wrapped only
 * where the next word would have made the line longer than the longest one.
 */
final class LineBreaks {
  private final String raw;
  private final int longest;

  LineBreaks(String raw) {
    this.raw = raw;
    int most = 0;
    int start = 0;
    for (int feed = raw.indexOf('\n'); feed >= 0; feed = raw.indexOf('\n', start)) {
      most = Math.max(most, feed - start);
      start = feed + 1;
    }
    longest = Math.max(most, raw.length() - start);
  }

  /** Returns where the lines that the writer began start, inside a stretch of the text. */
  List<Integer> inside(int start, int end) {
    List<Integer> starts = new ArrayList<>();
    for (int feed = start; feed < end; feed++) {
      if (raw.charAt(feed) != '\n') {
        continue;
      }
      int line = feed - (raw.lastIndexOf('\n', feed - 1) + 1);
      int word = feed + 1;
      while (word < end && !Character.isWhitespace(raw.charAt(word))) {
        word++;
      }
      if (line + word - feed <= longest) {
        starts.add(feed + 1);
      }
    }
    return starts;
  }
}
