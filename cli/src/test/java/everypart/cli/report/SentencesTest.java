package everypart.cli.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Properties;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** Sentences that a user can meet on a page stand in {@code words.properties}, and nowhere else. */
class SentencesTest {
  private static final Path PAGES = Path.of("src/main/resources/everypart/cli/report");
  private static final Path JAVA = Path.of("src/main/java/everypart/cli/report");
  private static final Path SERVER = Path.of("src/main/java/everypart/cli/open");

  /** What stands in a page for the program, not for its reader. */
  private static final Pattern UNREAD =
      Pattern.compile(
          "(?s)<!--.*?-->|<style.*?</style>|<script.*?</script>"
              + "|\\{\\{\\{?[^}]*\\}\\}\\}?|\\[\\[[^\\]]*\\]\\]");

  private static final Pattern SHOWN =
      Pattern.compile(">([^<]+)<|(?:aria-label|title|placeholder|alt)=\"([^\"]+)\"");
  private static final Pattern WORD = Pattern.compile("\\p{L}{2,}");
  private static final Pattern LITERAL =
      Pattern.compile("\"((?:[^\"\\\\\n]|\\\\.)*)\"|`([^`]*)`|'((?:[^'\\\\\n]|\\\\.)*)'");
  private static final Pattern TWO_WORDS = Pattern.compile("\\p{L}{2,},? \\p{Ll}{2,}");
  private static final Pattern THREE_WORDS =
      Pattern.compile("[\\p{L}']{2,} [\\p{Ll}']+ \\p{Ll}{2,}");
  private static final Pattern KEY = Pattern.compile("\\[\\[([\\w.-]+)\\]\\]");
  private static final Pattern JAVA_KEY = Pattern.compile("\"([a-z][\\w.-]*)\"");
  private static final Pattern SAID = Pattern.compile("Sayings\\s*\\.of\\(\\s*\"([\\w.-]+)\"");

  /** What the library of the command line asks for by itself. */
  private static final Pattern HELP = Pattern.compile("everypart\\..*|[a-z-]+");

  private static final Pattern COMMENT =
      Pattern.compile("(?s:/\\*.*?\\*/)|(?m:^\\s*//.*$)|(?m: // .*$)");

  /** Words in a regular expression are looked for, not said. */
  private static final Pattern LOOKED_FOR = Pattern.compile("[|\\\\]|\\(\\?");

  private static final Pattern FOR_DEVELOPERS = Pattern.compile("(?s)new Illegal\\w+\\(.*?;");

  /** What a page says that is the same in any language. */
  private static final Set<String> NO_SENTENCE = Set.of("everypart");

  /** Several words of a script that name classes of the style, or are orders to the browser. */
  private static final Pattern NAMES =
      Pattern.compile(
          "use strict|.*\\[type=.*|(?:[a-z-]+ )*(?:plain|soft|button|primary|response)(?:"
              + " [a-z-]+)*");

  /** What stands in files that programs read: it stays as it is. */
  private static final Set<String> IN_FILES =
      Set.of("not on the register", "were pooled at random");

  /** The question and the answer that warm the program up are read by nobody. */
  private static final Set<String> UNSEEN = Set.of("Desk.java");

  private static final Path CLI = Path.of("src/main/java/everypart/cli");
  private static final Path COMMAND = CLI.resolve("command");
  private static final Path RUN = CLI.resolve("run");
  private static final Path SCREEN = RUN.resolve("screen");
  private static final Path STUDY = RUN.resolve("study");
  private static final Path INTAKE = CLI.resolve("intake");
  private static final Path DOCUMENT = INTAKE.resolve("document");
  private static final Path ANALYZER = Path.of("../analyzer/src/main/java/everypart/analyzer");
  private static final Path PROMPT = ANALYZER.resolve("prompt");
  private static final Path ASSIGN = ANALYZER.resolve("assign");

  private static List<Path> files(Path folder, String ending) throws IOException {
    try (Stream<Path> all = Files.list(folder)) {
      return all.filter(file -> file.toString().endsWith(ending)).sorted().toList();
    }
  }

  private static List<String> onPage(String page) {
    List<String> found = new ArrayList<>();
    Matcher shown = SHOWN.matcher(UNREAD.matcher(page).replaceAll(" "));
    while (shown.find()) {
      String words = (shown.group(1) != null ? shown.group(1) : shown.group(2)).strip();
      if (WORD.matcher(words).find() && !NO_SENTENCE.contains(words)) {
        found.add(words);
      }
    }
    return found;
  }

  private static List<String> inScript(String script) {
    return literals(COMMENT.matcher(KEY.matcher(script).replaceAll("")).replaceAll(""), TWO_WORDS)
        .stream()
        .filter(words -> !NAMES.matcher(words).matches())
        .toList();
  }

  private static List<String> inJava(String code) {
    String read = COMMENT.matcher(code).replaceAll("");
    return literals(FOR_DEVELOPERS.matcher(read).replaceAll(""), THREE_WORDS).stream()
        .filter(words -> !IN_FILES.contains(words))
        .filter(words -> !LOOKED_FOR.matcher(words).find())
        .toList();
  }

  private static List<String> literals(String code, Pattern words) {
    List<String> found = new ArrayList<>();
    Matcher literal = LITERAL.matcher(code);
    while (literal.find()) {
      for (int group = 1; group <= literal.groupCount(); group++) {
        if (literal.group(group) != null && words.matcher(literal.group(group)).find()) {
          found.add(literal.group(group));
        }
      }
    }
    return found;
  }

  @Test
  void noPageAndNoScriptHoldsASentence() throws IOException {
    TreeMap<String, List<String>> found = new TreeMap<>();
    List<Path> pages = files(PAGES, ".html");
    List<Path> scripts = files(PAGES, ".js");
    assertTrue(pages.size() >= 6 && scripts.size() >= 3, pages + " " + scripts);
    for (Path page : pages) {
      found.put(page.getFileName().toString(), onPage(Files.readString(page)));
    }
    for (Path script : scripts) {
      found.put(script.getFileName().toString(), inScript(Files.readString(script)));
    }
    found.values().removeIf(List::isEmpty);
    assertEquals(new TreeMap<>(), found, "move these to words.properties");
  }

  @Test
  void noRendererOfAPageHoldsASentence() throws IOException {
    noneHoldASentence(List.of(JAVA, SERVER), UNSEEN);
  }

  @Test
  void noMessageAndNoHelpStandsInCode() throws IOException {
    noneHoldASentence(
        List.of(
            CLI,
            COMMAND,
            RUN,
            SCREEN,
            STUDY,
            INTAKE,
            DOCUMENT,
            CLI.resolve("journal"),
            CLI.resolve("report/plot")),
        Set.of());
  }

  /** How a demand was read, what came of labels, and what is wrong with a prompt. */
  @Test
  void noReasonOfTheReaderOfPromptsStandsInCode() throws IOException {
    noneHoldASentence(List.of(PROMPT, ASSIGN, ANALYZER.resolve("wording")), Set.of());
  }

  private static void noneHoldASentence(List<Path> rooms, Set<String> notMoved) throws IOException {
    TreeMap<String, List<String>> found = new TreeMap<>();
    Set<String> with = new TreeSet<>();
    for (Path room : rooms) {
      for (Path file : files(room, ".java")) {
        String name = file.getFileName().toString();
        List<String> sentences = inJava(Files.readString(file));
        if (!sentences.isEmpty() && notMoved.contains(name)) {
          with.add(name);
        } else if (!sentences.isEmpty()) {
          found.put(name, sentences);
        }
      }
    }
    assertEquals(new TreeMap<>(), found, "move these to words.properties");
    assertEquals(new TreeSet<>(notMoved), with, "take those off the list that hold none");
  }

  /**
   * The rooms whose words fill in {0}, {1}: each key is asked for by a class, and each is there.
   * What help asks for, a test beside the commands knows.
   */
  @Test
  void theWordsOfOtherRoomsAreAllUsedAndAllThere() throws IOException {
    for (Path room :
        List.of(INTAKE, DOCUMENT, SERVER, COMMAND, RUN, SCREEN, STUDY, PROMPT, ASSIGN)) {
      Properties words = new Properties();
      Path file = Path.of(room.toString().replace("src/main/java", "src/main/resources"));
      try (var reader = Files.newBufferedReader(file.resolve("words.properties"))) {
        words.load(reader);
      }
      Set<String> asked = new TreeSet<>();
      for (Path code : files(room, ".java")) {
        Matcher key = JAVA_KEY.matcher(Files.readString(code));
        while (key.find()) {
          asked.add(key.group(1));
        }
      }
      Set<String> unused = new TreeSet<>(words.stringPropertyNames());
      unused.removeAll(asked);
      unused.removeIf(key -> room.equals(COMMAND) && HELP.matcher(key).matches());
      assertTrue(words.size() >= 10, room + " has words");
      assertEquals(Set.of(), unused, "nobody asks for these of " + room);
      Set<String> lacking = new TreeSet<>();
      for (Path code : files(room, ".java")) {
        Matcher key = SAID.matcher(Files.readString(code));
        while (key.find()) {
          lacking.add(key.group(1));
        }
      }
      lacking.removeAll(words.stringPropertyNames());
      assertEquals(Set.of(), lacking, "no words for these of " + room);
    }
  }

  @Test
  void theFinderFindsSentences() {
    assertEquals(
        List.of("Save it", "Its name"),
        onPage(
            "<p>[[a.b]] {{x}}</p><p>Save it</p><style>b { top: 0 }</style><i title=\"Its name\">"));
    assertEquals(
        List.of("Nothing was found", "so it is", "It went wrong."),
        inScript(
            "say(\"Nothing was found\"); /* \"a note here\" */ el(\"p\", {class: \"why soft\"},"
                + " \"[[a.b]]\"); x = `so it is`; say('It went wrong.')"));
    assertEquals(
        List.of("this is not read", "it's so then"),
        inJava(
            "// \"but this is not\"\nf(\"this is not read\", \"two words\", \"it's so then\");\n"
                + "throw new IllegalStateException(\n\"never met by a user\");\n"
                + "Pattern.compile(\"(?:these|those) words are looked for\");"
                + " // \"nor is a note behind code\""));
  }

  @Test
  void everyKeyHasItsWordsAndAllWordsAreUsed() throws IOException {
    Properties words = new Properties();
    try (var reader = Files.newBufferedReader(PAGES.resolve("words.properties"))) {
      words.load(reader);
    }
    Set<String> asked = new TreeSet<>();
    Set<String> beginnings = new TreeSet<>();
    for (String ending : List.of(".html", ".js", ".xml", ".md")) {
      for (Path file : files(PAGES, ending)) {
        Matcher key = KEY.matcher(Files.readString(file));
        while (key.find()) {
          assertTrue(words.containsKey(key.group(1)), file + ": " + key.group());
          asked.add(key.group(1));
        }
      }
    }
    for (Path file : files(JAVA, ".java")) {
      Matcher key = JAVA_KEY.matcher(Files.readString(file));
      while (key.find()) {
        (key.group(1).endsWith(".") ? beginnings : asked).add(key.group(1));
      }
    }
    List<String> unused = new ArrayList<>();
    for (String key : new TreeSet<>(words.stringPropertyNames())) {
      String counted = key.replaceFirst("\\.(one|other)$", "");
      if (!asked.contains(key)
          && !asked.contains(counted)
          && beginnings.stream().noneMatch(key::startsWith)) {
        unused.add(key);
      }
    }
    assertEquals(List.of(), unused, "no page uses these");
  }
}
