package everypart.analyzer.judge;

import java.io.DataInputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** The words of the small reader, and the vector of each. */
final class SmallWords {
  private static final int SHORTEST_RUN = 3;
  private static final int LONGEST_RUN = 5;
  private static final int MOST_RUNS = 24;

  /** What stands for a number of four digits and more; shorter ones get fewer signs. */
  private static final String NUMBER = "####";

  private static final String SMALL_DIGITS = "⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉";

  private final int size;
  private final int runs;
  private final Map<String, Integer> places = new HashMap<>();
  private final float[] scales;
  private final byte[] vectors;
  private final float[] runScales;
  private final byte[] runVectors;

  SmallWords(DataInputStream in, int size, int known, int runs, String words) throws IOException {
    this.size = size;
    this.runs = runs;
    for (String word : words.split("\n", -1)) {
      places.put(word, places.size());
    }
    this.scales = SmallReader.floats(in, known);
    this.vectors = new byte[known * size];
    in.readFully(vectors);
    this.runScales = SmallReader.floats(in, runs);
    this.runVectors = new byte[runs * size];
    in.readFully(runVectors);
  }

  /**
   * Cuts a text: runs of letters in lower case, a mark for each number that tells how many digits
   * it has, and each other sign by itself.
   */
  static List<String> in(String text) {
    List<String> words = new ArrayList<>();
    String low = text.toLowerCase(Locale.ROOT);
    int at = 0;
    while (at < low.length()) {
      int from = at;
      int first = low.codePointAt(at);
      if (Character.isDigit(first)) {
        while (at < low.length() && Character.isDigit(low.codePointAt(at))) {
          at += Character.charCount(low.codePointAt(at));
        }
        int digits = low.codePointCount(from, at);
        words.add(NUMBER.substring(0, Math.min(NUMBER.length(), digits)));
      } else if (isLetter(first)) {
        while (at < low.length() && isLetter(low.codePointAt(at))) {
          at += Character.charCount(low.codePointAt(at));
        }
        String word = low.substring(from, at);
        words.add(
            isSmallDigit(first)
                ? NUMBER.substring(0, Math.min(NUMBER.length(), word.length()))
                : word);
      } else {
        at += Character.charCount(first);
        if (!isBlank(first)) {
          words.add(low.substring(from, at));
        }
      }
    }
    return words;
  }

  private static boolean isLetter(int sign) {
    int type = Character.getType(sign);
    return Character.isLetter(sign)
        || type == Character.LETTER_NUMBER
        || type == Character.OTHER_NUMBER;
  }

  /** Tells whether a sign is a raised or lowered digit. */
  private static boolean isSmallDigit(int sign) {
    return SMALL_DIGITS.indexOf(sign) >= 0;
  }

  private static boolean isBlank(int sign) {
    return Character.isWhitespace(sign) || Character.isSpaceChar(sign) || sign == '_';
  }

  /** Returns a new vector of a word: that of the table, and the mean of its runs'. */
  float[] vector(String word) {
    float[] out = new float[size];
    Integer place = places.get(word);
    if (place != null) {
      for (int j = 0; j < size; j++) {
        out[j] = vectors[place * size + j] * scales[place];
      }
    }
    int[] signs = ("<" + word + ">").codePoints().toArray();
    int[] found = new int[MOST_RUNS];
    int count = 0;
    for (int length = SHORTEST_RUN; length <= LONGEST_RUN; length++) {
      for (int i = 0; i + length <= signs.length && count < MOST_RUNS; i++) {
        found[count++] = run(signs, i, i + length);
      }
    }
    for (int r = 0; r < count; r++) {
      float scale = runScales[found[r]] / count;
      for (int j = 0; j < size; j++) {
        out[j] += runVectors[found[r] * size + j] * scale;
      }
    }
    return out;
  }

  /** The place of a run of letters: FNV-1a in 32 bits (Fowler, Noll, Vo; RFC 9923). */
  private int run(int[] signs, int from, int to) {
    int hash = 0x811c9dc5;
    for (int i = from; i < to; i++) {
      hash = (hash ^ signs[i]) * 16777619;
    }
    return Integer.remainderUnsigned(hash, runs);
  }
}
