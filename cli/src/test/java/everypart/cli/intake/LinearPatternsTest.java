package everypart.cli.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.regex.PatternSyntaxException;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/**
 * No pattern of the rooms that read files goes back over what it has read: on text made of any of
 * its own signs, twice the text takes twice the looks at a character. What is counted is looks, so
 * the machine's pace does not matter.
 */
class LinearPatternsTest {
  /**
   * The room that reads files, and the class that reads what stands in a prompt beside its words.
   */
  private static final List<Path> ROOMS =
      List.of(
          Path.of("src/main/java/everypart/cli/intake"),
          Path.of("../analyzer/src/main/java/everypart/analyzer/prompt/PlainWording.java"));

  /** A call that takes a pattern, and the string literals that it is given first. */
  private static final Pattern CALL =
      Pattern.compile(
          "(Pattern\\s*\\.compile|replaceAll|replaceFirst|matches|split)\\(\\s*"
              + "((?:\"(?:[^\"\\\\]|\\\\.)*\"\\s*\\+?\\s*)+)");

  private static final Pattern LITERAL = Pattern.compile("\"((?:[^\"\\\\]|\\\\.)*)\"");
  private static final Pattern UNICODE =
      Pattern.compile("(?<!\\\\)((?:\\\\\\\\)*)\\\\u([0-9a-fA-F]{4})");

  private static final int LENGTH = 2_000;
  private static final int LEAST_PATTERNS = 20;

  /** How much more than twice it may take, for what is looked at once a search. */
  private static final double MOST = 2.3;

  /** A text that counts how often a character of it is looked at. */
  private static final class Counted implements CharSequence {
    private final String text;
    private final long[] looks;

    Counted(String text, long[] looks) {
      this.text = text;
      this.looks = looks;
    }

    @Override
    public int length() {
      return text.length();
    }

    @Override
    public char charAt(int at) {
      looks[0]++;
      return text.charAt(at);
    }

    @Override
    public CharSequence subSequence(int from, int to) {
      return new Counted(text.substring(from, to), looks);
    }

    @Override
    public String toString() {
      return text;
    }
  }

  private record Found(String where, String pattern) {}

  private static List<Found> patterns() throws IOException {
    List<Found> found = new ArrayList<>();
    for (Path room : ROOMS) {
      try (Stream<Path> files = Files.walk(room)) {
        for (Path file :
            files.filter(path -> path.toString().endsWith(".java")).sorted().toList()) {
          patterns(file, found);
        }
      }
    }
    return found;
  }

  private static void patterns(Path file, List<Found> found) throws IOException {
    Matcher call = CALL.matcher(Files.readString(file));
    while (call.find()) {
      StringBuilder pattern = new StringBuilder();
      Matcher literal = LITERAL.matcher(call.group(2));
      while (literal.find()) {
        pattern.append(unescaped(literal.group(1)));
      }
      found.add(new Found(file.getFileName() + " " + pattern, pattern.toString()));
    }
  }

  private static String unescaped(String literal) {
    return UNICODE
        .matcher(literal)
        .replaceAll(
            found ->
                Matcher.quoteReplacement(
                    found.group(1) + (char) Integer.parseInt(found.group(2), 16)))
        .translateEscapes();
  }

  private static long looks(Pattern pattern, String text) {
    long[] looks = {0};
    Matcher matcher = pattern.matcher(new Counted(text, looks));
    while (matcher.find()) {
      looks[0]++;
    }
    return looks[0];
  }

  /** Signs of which hostile text is made: those of the pattern, and one of each class. */
  private static List<String> signs(String pattern) {
    List<String> signs = new ArrayList<>(List.of(" ", "\t", "\n", "a", "1", "-", ".", "\u00a0"));
    pattern.codePoints().distinct().mapToObj(Character::toString).forEach(signs::add);
    return signs;
  }

  private static Pattern compiled(String regex) {
    try {
      return Pattern.compile(regex, Pattern.CASE_INSENSITIVE);
    } catch (PatternSyntaxException e) {
      // It is completed by a list that the user gives.
      return Pattern.compile(regex + "a\\s+b|ab)", Pattern.CASE_INSENSITIVE);
    }
  }

  private static Optional<String> fault(String regex) {
    Pattern pattern = compiled(regex);
    List<String> signs = signs(regex);
    List<String> pieces = new ArrayList<>(signs);
    for (int i = 1; i < signs.size(); i++) {
      pieces.add(signs.get(i - 1) + signs.get(i));
    }
    for (String piece : pieces) {
      for (String last : List.of("", "\u0001", "x")) {
        String once = piece.repeat(LENGTH) + last;
        String twice = piece.repeat(2 * LENGTH) + last;
        double grown = looks(pattern, twice) / (double) Math.max(looks(pattern, once), 1);
        if (grown > MOST) {
          return Optional.of(
              "twice as many of \"" + piece + "\" take " + grown + " times as many looks");
        }
      }
    }
    return Optional.empty();
  }

  @TestFactory
  Stream<DynamicTest> takesTwiceAsLongForTwiceAsMuch() throws IOException {
    return patterns().stream()
        .map(
            one ->
                DynamicTest.dynamicTest(
                    one.where(), () -> assertEquals(Optional.empty(), fault(one.pattern()))));
  }

  @Test
  void patternsAreFound() throws IOException {
    assertTrue(patterns().size() >= LEAST_PATTERNS, patterns().size() + " patterns");
  }

  @Test
  void aPatternThatGoesBackIsTold() throws PatternSyntaxException {
    assertTrue(fault("[ \\t]+(?=\\n|$)").isPresent());
    assertTrue(fault("(?<=\\S)[ \\t*]+(?:\\(\\d\\))(?=[ \\t*]*$)").isPresent());
    assertTrue(fault("\\[[^\\]]*\\]").isPresent());
  }
}
