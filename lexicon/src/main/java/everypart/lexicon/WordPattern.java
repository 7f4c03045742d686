package everypart.lexicon;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * A pattern over words, compiled once. {@code task-verbs.yaml} describes the notation.
 *
 * <p>Every gap has an upper bound, so a match costs no more than the bound allows, however long the
 * sentence is.
 */
final class WordPattern {
  private static final String END = "(?:[.?!:;] )*\\z";

  private final String source;
  private final String expression;

  /** The words that a match can begin with; empty where it can begin with any. */
  private final Set<String> first;

  /** Compiled on first need: most patterns are never tried in a run over one prompt. */
  private volatile @Nullable Pattern regex;

  /**
   * Compiles a pattern.
   *
   * @param classes the members of each word class, by its name
   * @throws IllegalArgumentException when the pattern names a class that is not there
   */
  WordPattern(String source, Map<String, List<String>> classes) {
    this.source = source;
    StringBuilder regex = new StringBuilder();
    String[] elements = source.strip().split("\\s+");
    for (String element : elements) {
      regex.append(element(element, classes));
    }
    this.expression = regex.toString();
    this.first = first(elements[0], classes);
  }

  /** Returns the words that an element stands for; none where it stands for more than words. */
  private static Set<String> first(String element, Map<String, List<String>> classes) {
    if (element.startsWith("..") || element.startsWith("[")) {
      return Set.of();
    }
    Set<String> first = new HashSet<>();
    for (String choice : element.split("\\|")) {
      List<String> words =
          choice.startsWith("@")
              ? classes.getOrDefault(choice.substring(1), List.of())
              : List.of(choice);
      for (String word : words) {
        if (word.isEmpty()
            || word.equals("_")
            || word.equals("#")
            || word.equals("$")
            || word.endsWith("*")) {
          return Set.of();
        }
        first.add(word.split(" ", 2)[0]);
      }
    }
    return Set.copyOf(first);
  }

  /** Tells whether a match can begin with a token; most patterns cost no more than this look. */
  boolean mayBegin(WordLine line, int from) {
    if (first.isEmpty()) {
      return true;
    }
    int start = line.start(from);
    int end = line.text().indexOf(' ', start);
    return end >= 0 && first.contains(line.text().substring(start, end));
  }

  private Pattern regex() {
    Pattern compiled = regex;
    if (compiled == null) {
      compiled = Pattern.compile(expression);
      regex = compiled;
    }
    return compiled;
  }

  private static String element(String element, Map<String, List<String>> classes) {
    if (element.startsWith("..") && element.length() > 2) {
      return "(?:[^ ;?]+ ){0," + Integer.parseInt(element.substring(2)) + "}?";
    }
    if (element.startsWith("[") && element.endsWith("]")) {
      return "(?:" + element(element.substring(1, element.length() - 1), classes) + ")?";
    }
    List<String> words = new ArrayList<>();
    boolean end = false;
    for (String choice : element.split("\\|")) {
      if (choice.equals("$")) {
        end = true;
      } else if (choice.startsWith("@")) {
        List<String> members = classes.get(choice.substring(1));
        if (members == null) {
          throw new IllegalArgumentException("there is no word list \"" + choice + "\"");
        }
        members.forEach(member -> words.add(word(member)));
      } else {
        words.add(word(choice));
      }
    }
    String some = "(?:" + String.join("|", words) + ") ";
    if (!end) {
      return some;
    }
    return words.isEmpty() ? END : "(?:" + some + "|" + END + ")";
  }

  private static String word(String word) {
    if (word.equals("_")) {
      return "[^ ,;?.:]+";
    }
    if (word.equals("#")) {
      return "\\d[^ ]*";
    }
    return word.length() > 1 && word.endsWith("*")
        ? Pattern.quote(word.substring(0, word.length() - 1)) + "[^ ]*"
        : Pattern.quote(word);
  }

  /**
   * Matches the pattern from a token on.
   *
   * @param to the token before which the clause ends
   * @return the token after the match
   */
  OptionalInt match(WordLine line, int from, int to) {
    if (!mayBegin(line, from)) {
      return OptionalInt.empty();
    }
    Matcher matcher = regex().matcher(line.text()).region(line.start(from), line.start(to));
    return matcher.lookingAt() ? OptionalInt.of(line.tokenAt(matcher.end())) : OptionalInt.empty();
  }

  @Override
  public String toString() {
    return source;
  }
}
