package everypart.lexicon;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;

/**
 * Counts how much of the terms or of the texts of a subject the concepts cover.
 *
 * <p>Called with {@code terms FILE}, a list with a term a line such as a glossary's: a term is
 * known whole where one concept holds all of it, and in part where a concept holds a word of it
 * that is no function word. Called with {@code text FILE}, plain text a paragraph a line: of the
 * words that are in no list of words that most adults know (SCOWL up to size 50), the share that
 * belongs to a concept; what is left over most often is listed.
 */
final class CoverageBench {
  private static final Set<String> FUNCTION_WORDS = Language.english().words("function");
  private static final int SHORTEST = 4;
  private static final int LISTED = 30;

  private CoverageBench() {}

  /** Prints the counts. */
  public static void main(String[] arguments) throws IOException {
    List<String> lines = Files.readAllLines(Path.of(arguments[1]));
    Lexicon lexicon = Lexicon.bundled();
    if (arguments[0].equals("terms")) {
      terms(lexicon, lines);
    } else if (arguments[0].equals("text")) {
      text(lexicon, lines);
    } else {
      throw new IllegalArgumentException("give terms or text, and a file");
    }
  }

  private static void terms(Lexicon lexicon, List<String> lines) {
    int terms = 0;
    int whole = 0;
    int part = 0;
    for (String line : lines) {
      if (line.isBlank()) {
        continue;
      }
      terms++;
      Words words = new Words(line.strip());
      List<ConceptMatch> found = lexicon.concepts(words);
      whole += found.stream().anyMatch(match -> match.at().length() == words.size()) ? 1 : 0;
      part += found.stream().anyMatch(match -> says(words, match.at())) ? 1 : 0;
    }
    System.out.printf(
        Locale.ROOT,
        "%d terms, %.1f %% known whole, %.1f %% known whole or in part%n",
        terms,
        100.0 * whole / Math.max(1, terms),
        100.0 * part / Math.max(1, terms));
  }

  private static boolean says(Words words, TokenRange at) {
    for (int i = at.from(); i < at.to(); i++) {
      String form = words.form(i);
      if (Character.isLetter(form.charAt(0)) && !FUNCTION_WORDS.contains(form)) {
        return true;
      }
    }
    return false;
  }

  private static void text(Lexicon lexicon, List<String> lines) {
    int technical = 0;
    int covered = 0;
    Map<String, Integer> left = new HashMap<>();
    for (String line : lines) {
      Words words = new Words(line);
      if (words.size() == 0) {
        continue;
      }
      boolean[] in = new boolean[words.size()];
      for (ConceptMatch match : lexicon.concepts(words)) {
        for (int i = match.at().from(); i < match.at().to(); i++) {
          in[i] = true;
        }
      }
      for (int i = 0; i < in.length; i++) {
        String form = words.form(i);
        if (form.length() >= SHORTEST
            && form.chars().allMatch(Character::isLetter)
            && !WordLists.bundled().isFairlyCommon(form)) {
          technical++;
          covered += in[i] ? 1 : 0;
          if (!in[i]) {
            left.merge(form, 1, Integer::sum);
          }
        }
      }
    }
    System.out.printf(
        Locale.ROOT,
        "%d words that few adults know, %.1f %% of them in a concept%n",
        technical,
        100.0 * covered / Math.max(1, technical));
    left.entrySet().stream()
        .sorted(
            Map.Entry.<String, Integer>comparingByValue()
                .reversed()
                .thenComparing(Map.Entry.comparingByKey()))
        .limit(LISTED)
        .forEach(word -> System.out.println(word.getValue() + " " + word.getKey()));
  }
}
