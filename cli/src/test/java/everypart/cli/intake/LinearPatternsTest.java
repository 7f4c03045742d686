package everypart.cli.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.analyzer.coverage.CoverageAnalyzer;
import everypart.lexicon.Lexicon;
import java.io.IOException;
import java.lang.reflect.Field;
import java.lang.reflect.Method;
import java.lang.reflect.Modifier;
import java.lang.reflect.Type;
import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystem;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.regex.PatternSyntaxException;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/**
 * No pattern of any room goes back over what it has read: on text made of any of its own signs,
 * twice the text takes twice the looks at a character, and again. What is counted is looks, so the
 * machine's pace does not matter.
 *
 * <p>Patterns are taken from the sources, where they stand as literals, and from the classes, where
 * they are put together: constants of type {@code Pattern}, and methods that make one.
 */
class LinearPatternsTest {
  private static final List<Path> SOURCES =
      List.of(
          Path.of("src/main/java"),
          Path.of("meaning/src/main/java"),
          Path.of("../analyzer/src/main/java"),
          Path.of("../lexicon/src/main/java"));

  /** A class of each module whose classes can be loaded here. */
  private static final List<Class<?>> MODULES =
      List.of(NamePattern.class, CoverageAnalyzer.class, Lexicon.class);

  /** A call that takes a pattern, and the string literals that it is given first. */
  private static final Pattern CALL =
      Pattern.compile(
          "(Pattern\\s*\\.compile|replaceAll|replaceFirst|matches|split)\\(\\s*"
              + "((?:\"(?:[^\"\\\\]|\\\\.)*\"\\s*\\+?\\s*)+)");

  private static final Pattern LITERAL = Pattern.compile("\"((?:[^\"\\\\]|\\\\.)*)\"");
  private static final Pattern UNICODE =
      Pattern.compile("(?<!\\\\)((?:\\\\\\\\)*)\\\\u([0-9a-fA-F]{4})");

  /** How often a piece of text is repeated, and how often where a pattern has a bound near it. */
  private static final int LENGTH = 250;

  private static final int FAR = 600;
  private static final Pattern FAR_BOUND = Pattern.compile("\\{\\d*,?\\d{3,}\\}");
  private static final int LEAST_PATTERNS = 150;

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

  private record Found(String where, Pattern pattern) {}

  private static List<Found> patterns() throws IOException, ReflectiveOperationException {
    Map<String, Found> found = new LinkedHashMap<>();
    for (Path sources : SOURCES) {
      try (Stream<Path> files = Files.walk(sources)) {
        for (Path file :
            files.filter(path -> path.toString().endsWith(".java")).sorted().toList()) {
          patterns(file, found);
        }
      }
    }
    for (Class<?> one : classes()) {
      for (Pattern pattern : patterns(one)) {
        add(one.getSimpleName(), pattern, found);
      }
    }
    return List.copyOf(found.values());
  }

  private static void add(String where, Pattern pattern, Map<String, Found> found) {
    String name = where + " " + pattern.pattern();
    found.putIfAbsent(pattern.flags() + name, new Found(name, pattern));
  }

  private static List<Class<?>> classes() throws IOException, ReflectiveOperationException {
    List<Class<?>> classes = new ArrayList<>();
    for (Class<?> module : MODULES) {
      String location = module.getProtectionDomain().getCodeSource().getLocation().getPath();
      Path root = Path.of(URLDecoder.decode(location, StandardCharsets.UTF_8));
      if (Files.isRegularFile(root)) {
        try (FileSystem jar = FileSystems.newFileSystem(root)) {
          add(jar.getPath("/everypart"), jar.getPath("/"), classes);
        }
      } else {
        add(root.resolve("everypart"), root, classes);
      }
    }
    return classes;
  }

  private static void add(Path folder, Path root, List<Class<?>> classes)
      throws IOException, ReflectiveOperationException {
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.filter(path -> path.toString().endsWith(".class")).sorted().toList()) {
        String name = root.relativize(file).toString().replace('\\', '/').replace('/', '.');
        if (!name.endsWith("-info.class")) {
          classes.add(
              Class.forName(
                  name.substring(0, name.length() - ".class".length()),
                  false,
                  LinearPatternsTest.class.getClassLoader()));
        }
      }
    }
  }

  /** Returns the constants of a class, and what its methods make of switches alone. */
  private static List<Pattern> patterns(Class<?> one) throws ReflectiveOperationException {
    List<Pattern> patterns = new ArrayList<>();
    for (Field field : one.getDeclaredFields()) {
      if (Modifier.isStatic(field.getModifiers()) && mayHold(field.getGenericType())) {
        field.setAccessible(true);
        held(field.get(null), patterns);
      }
    }
    for (Method method : one.getDeclaredMethods()) {
      if (Modifier.isStatic(method.getModifiers())
          && method.getReturnType() == Pattern.class
          && method.getParameterCount() == 1
          && method.getParameterTypes()[0] == boolean.class) {
        method.setAccessible(true);
        patterns.add((Pattern) method.invoke(null, false));
        patterns.add((Pattern) method.invoke(null, true));
      }
    }
    return patterns;
  }

  private static boolean mayHold(Type type) {
    return type.getTypeName().contains(Pattern.class.getName());
  }

  private static void held(@Nullable Object value, List<Pattern> patterns) {
    if (value instanceof Pattern pattern) {
      patterns.add(pattern);
    } else if (value instanceof Collection<?> many) {
      many.forEach(one -> held(one, patterns));
    } else if (value instanceof Map<?, ?> map) {
      held(map.keySet(), patterns);
      held(map.values(), patterns);
    } else if (value instanceof Object[] many) {
      held(List.of(many), patterns);
    }
  }

  private static void patterns(Path file, Map<String, Found> found) throws IOException {
    Matcher call = CALL.matcher(Files.readString(file));
    while (call.find()) {
      StringBuilder pattern = new StringBuilder();
      Matcher literal = LITERAL.matcher(call.group(2));
      while (literal.find()) {
        pattern.append(unescaped(literal.group(1)));
      }
      String name = file.getFileName().toString().replace(".java", "");
      add(name, compiled(pattern.toString()), found);
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
    // Some are completed by a list that the user gives, or are pieces of those that a class holds.
    String open = regex.endsWith("|") ? regex.substring(0, regex.length() - 1) : regex;
    return Stream.of(regex, open + "a\\s+b|ab)", open + ")", open + "))", open + "]")
        .filter(LinearPatternsTest::isWhole)
        .findFirst()
        .map(whole -> Pattern.compile(whole, Pattern.CASE_INSENSITIVE))
        .orElseThrow(() -> new AssertionError("a pattern that cannot be completed: " + regex));
  }

  private static boolean isWhole(String regex) {
    try {
      return !Pattern.compile(regex).pattern().isEmpty();
    } catch (PatternSyntaxException e) {
      return false;
    }
  }

  private static Optional<String> fault(Pattern pattern) {
    int length = FAR_BOUND.matcher(pattern.pattern()).find() ? FAR : LENGTH;
    List<String> signs = signs(pattern.pattern());
    List<String> pieces = new ArrayList<>(signs);
    for (int i = 1; i < signs.size(); i++) {
      pieces.add(signs.get(i - 1) + signs.get(i));
    }
    for (String piece : pieces) {
      for (String last : List.of("", "\u0001", "x")) {
        long once = looks(pattern, piece.repeat(length) + last);
        for (int times = 2; times <= 4; times *= 2) {
          long twice = looks(pattern, piece.repeat(times * length) + last);
          double grown = twice / (double) Math.max(once, 1);
          if (grown > MOST) {
            return Optional.of(
                String.format(
                    Locale.ROOT,
                    "%d of \"%s\" take %.1f times as many looks as half of them",
                    times * length,
                    piece,
                    grown));
          }
          once = twice;
        }
      }
    }
    return Optional.empty();
  }

  @TestFactory
  Stream<DynamicTest> takesTwiceAsLongForTwiceAsMuch()
      throws IOException, ReflectiveOperationException {
    return patterns().stream()
        .map(
            one ->
                DynamicTest.dynamicTest(
                    one.where(),
                    () -> assertEquals(Optional.empty(), fault(one.pattern()), one.where())));
  }

  @Test
  void patternsAreFound() throws IOException, ReflectiveOperationException {
    List<Found> patterns = patterns();
    assertTrue(patterns.size() >= LEAST_PATTERNS, patterns.size() + " patterns");
    assertTrue(
        patterns.stream().anyMatch(one -> one.where().startsWith("LabelPatterns [\\s>#*_|")),
        "patterns that are put together are not found");
  }

  @Test
  void aPatternThatGoesBackIsTold() throws PatternSyntaxException {
    assertTrue(fault(Pattern.compile("[ \\t]+(?=\\n|$)")).isPresent());
    assertTrue(fault(Pattern.compile("(?<=\\S)[ \\t*]+(?:\\(\\d\\))(?=[ \\t*]*$)")).isPresent());
    assertTrue(fault(Pattern.compile("\\[[^\\]]*\\]")).isPresent());
  }
}
