package everypart.lexicon;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Counts how many misspellings of a published list are mended. The files named hold pairs like
 * {@code "becuase->because"}, with commas between several right words; only pairs whose right word
 * stands in the lexicon and is long enough to be tried are counted.
 */
final class SpellingBench {
  private static final Pattern PAIR = Pattern.compile("([a-z]+)->([a-z, ]+)");
  private static final int SHORTEST = 5;

  private SpellingBench() {}

  /** Prints the counts. */
  public static void main(String[] files) throws IOException {
    Lexicon lexicon = Lexicon.bundled();
    WordForms forms = new WordForms();
    int pairs = 0;
    int mended = 0;
    int left = 0;
    int wrong = 0;
    for (String file : files) {
      Matcher pair = PAIR.matcher(Files.readString(Path.of(file)));
      while (pair.find()) {
        String written = pair.group(1);
        List<String> right = Arrays.stream(pair.group(2).split(", *")).map(String::strip).toList();
        boolean counts =
            right.stream().allMatch(word -> word.length() >= SHORTEST && lexicon.isTarget(word));
        if (!counts) {
          continue;
        }
        pairs++;
        String found = lexicon.mend(written);
        if (found.equals(written)) {
          left++;
        } else if (right.stream().anyMatch(w -> forms.stem(w).equals(forms.stem(found)))) {
          mended++;
        } else {
          wrong++;
          System.out.println(written + " -> " + found + ", not " + right);
        }
      }
    }
    System.out.printf(
        Locale.ROOT,
        "%d pairs, %d mended (%.1f %%), %d left as they are, %d turned into another word (%.2f %%)%n",
        pairs,
        mended,
        100.0 * mended / Math.max(1, pairs),
        left,
        wrong,
        100.0 * wrong / Math.max(1, pairs));
  }
}
