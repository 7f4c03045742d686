package everypart.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

/**
 * What the pages for readers show is so: each command is run, or read by the program; each output
 * is what comes of it; each file, class and option that a page names is there. What cannot be held
 * here stands in {@code docs.tsv}, with the test that holds it or a reason; a line there that
 * nothing needs fails, too.
 */
class DocsTest {
  /** How many things no test holds. */
  private static final int UNHELD = 7;

  private static final Pattern CLASS =
      Pattern.compile("\\b(?:[A-Z]\\w+(?:Test|Bench|IT|Files|Cases|Trial))(?:\\.\\w+)?\\b(?!\\.)");
  private static final Pattern MAIN = Pattern.compile("\\beverypart(?:\\.[a-z]+)+\\.[A-Z]\\w+");
  private static final Pattern OPTION = Pattern.compile("(?<![\\w-])--[a-z][a-z-]*");
  private static final Pattern PATH =
      Pattern.compile("(?:docs|cli|analyzer|lexicon|demo-data|\\.ci|\\.github)/[\\w./-]+");
  private static final Set<String> ROOMS =
      Set.of("analyzer/src/main/java/everypart", "cli/src/main/java/everypart");

  private static final Map<String, Path> SOURCES = sources();

  @TempDir
  @SuppressWarnings("NullAway.Init")
  Path folder;

  private final Set<String> used = new LinkedHashSet<>();
  private final CommandLine everypart = HelpTest.commandLine();
  private int held;

  /** What cannot be held here: page and first words, to the test or the reason. */
  private static Map<String, String> exceptions() throws IOException {
    Map<String, String> found = new TreeMap<>();
    try (InputStream in = DocsTest.class.getResourceAsStream("docs.tsv")) {
      assertNotNull(in, "docs.tsv");
      for (String line : new String(in.readAllBytes(), StandardCharsets.UTF_8).lines().toList()) {
        if (!line.isBlank() && !line.startsWith("#")) {
          String[] cells = line.split("\t");
          assertEquals(3, cells.length, line);
          assertEquals(null, found.put(cells[0] + "\t" + cells[1], cells[2]), "twice: " + line);
        }
      }
    }
    return found;
  }

  /** Tells whether an exception is made, and remembers that it was needed. */
  private boolean isExcepted(String page, String words) throws IOException {
    for (String key : exceptions().keySet()) {
      String[] cells = key.split("\t");
      if ((cells[0].equals(page) || cells[0].equals("*")) && words.startsWith(cells[1])) {
        used.add(key);
        return true;
      }
    }
    return false;
  }

  @Test
  void whatThePagesShowIsSo() throws IOException {
    List<String> stale = new ArrayList<>();
    for (DocPage page : DocPage.all()) {
      Optional<DocPage.Command> last = Optional.empty();
      Optional<Run> run = Optional.empty();
      for (DocPage.Shown shown : page.shown()) {
        List<DocPage.Command> commands = shown.commands();
        for (DocPage.Command command : commands) {
          if (isExcepted(page.name(), command.line())) {
            continue;
          }
          held++;
          last = Optional.of(command);
          run = Optional.empty();
          try {
            look(command);
            if (!shown.inline() && command.isOurs() && !command.isSketch()) {
              run = Optional.of(run(command));
            }
          } catch (AssertionError | CommandLine.ParameterException e) {
            stale.add(command + ": " + e.getMessage());
          }
        }
        if (shown.inline()) {
          continue;
        }
        if (commands.isEmpty() && !isExcepted(page.name(), shown.first())) {
          held++;
          try {
            DocPage.Command before = last.orElseThrow(() -> new AssertionError("no command"));
            run = Optional.of(run.isPresent() ? run.get() : run(before));
            assertShown(shown, before, run.get().out());
          } catch (AssertionError e) {
            stale.add(page.name() + ": " + shown.first() + ": " + e.getMessage());
          }
        }
      }
      names(page, stale);
    }
    assertEquals("", String.join("\n", stale));
    assertTrue(held > 300, held + " commands, outputs and names were looked at");
    exceptionsAreNeeded();
  }

  private void exceptionsAreNeeded() throws IOException {
    Map<String, String> exceptions = exceptions();
    Set<String> idle = new TreeSet<>(exceptions.keySet());
    idle.removeAll(used);
    assertEquals(Set.of(), idle, "docs.tsv excepts what no page shows");
    assertEquals(
        UNHELD, exceptions.values().stream().filter(why -> why.startsWith("because ")).count());
    for (Map.Entry<String, String> exception : exceptions.entrySet()) {
      if (!exception.getValue().startsWith("because ")) {
        String[] page = exception.getKey().split("\t");
        assertHolds(exception.getValue(), page[0], page[1]);
      }
    }
  }

  /** A test that a page is left to is there, and reads that page, or has the words. */
  private static void assertHolds(String test, String page, String words) throws IOException {
    String[] name = test.split("\\.");
    String source = source(name[0]).orElseThrow(() -> new AssertionError(test));
    assertTrue(source.contains(" " + name[1] + "("), test);
    boolean reads = source.contains('"' + Path.of(page).getFileName().toString() + '"');
    assertTrue(reads || source.contains('"' + words + '"'), test);
  }

  private void look(DocPage.Command command) throws IOException {
    List<String> words = command.words();
    switch (words.get(0)) {
      case "mvn" -> lookAtMaven(words);
      case "java" -> assertTrue(words.size() > 1, command.toString());
      case "python3" ->
          assertTrue(Files.exists(DocPage.ROOT.resolve(words.get(1))), command.toString());
      case "everypart", "cli/bin/everypart" -> lookAtOurs(command);
      default -> assertTrue(Files.isExecutable(DocPage.ROOT.resolve(words.get(0))), words.get(0));
    }
    for (String word : words) {
      if (word.startsWith("demo-data/")) {
        assertTrue(Files.exists(DocPage.ROOT.resolve(word)), command.toString());
      }
      for (String entry : word.contains(".jar") ? word.split(":") : new String[0]) {
        Path module = Path.of(entry.replaceFirst("/target/.*", ""), "pom.xml");
        boolean whole = !entry.contains("/target/") || Files.exists(DocPage.ROOT.resolve(module));
        assertTrue(whole, command.toString());
      }
    }
  }

  private static void lookAtMaven(List<String> words) throws IOException {
    StringBuilder poms = new StringBuilder();
    for (String module : List.of(".", "lexicon", "analyzer", "cli", "cli/meaning")) {
      poms.append(Files.readString(DocPage.ROOT.resolve(module).resolve("pom.xml")));
    }
    for (int i = 1; i < words.size(); i++) {
      String word = words.get(i);
      if (word.startsWith("-P")) {
        assertTrue(poms.indexOf("<id>" + word.substring(2) + "</id>") > 0, word);
      } else if (word.equals("-pl")) {
        for (String module : words.get(i + 1).split(",")) {
          assertTrue(Files.exists(DocPage.ROOT.resolve(module).resolve("pom.xml")), module);
        }
      } else if (word.startsWith("-Dtest=")) {
        for (String test : word.substring(7).split(",")) {
          assertTrue(source(test).isPresent(), test);
        }
      } else if (word.matches("-D(?:quick|slow|pit\\.\\w+)\\b.*")) {
        assertTrue(poms.indexOf(word.substring(2).replaceFirst("=.*", "")) > 0, word);
      }
    }
  }

  /** What the program itself is given has to be a call that it knows. */
  private static void lookAtOurs(DocPage.Command command) {
    String[] arguments =
        command.arguments().stream().filter(word -> !word.equals("...")).toArray(String[]::new);
    if (command.line().contains(" COMMAND ")) {
      return;
    }
    try {
      HelpTest.commandLine().parseArgs(arguments);
    } catch (CommandLine.MissingParameterException e) {
      boolean named = arguments.length == 1 || command.line().contains("...");
      assertTrue(named, command + ": " + e.getMessage()); // "everypart outline" names the command
    }
  }

  private Run run(DocPage.Command command) {
    assertTrue(command.isOurs() && !command.isSketch(), "output of what cannot be run: " + command);
    Run run = Run.of(command.arguments().stream().map(this::placed).toArray());
    assertEquals(0, run.status(), command + ": " + run.err());
    return run;
  }

  /** A file of the project as it is seen from here; what a run writes goes elsewhere. */
  private String placed(String word) {
    return word.replaceFirst("^cli/target/", folder + "/")
        .replaceFirst("^demo-data", "../demo-data");
  }

  /** The lines stand in the output one behind the other; "..." stands for anything. */
  private static void assertShown(DocPage.Shown shown, DocPage.Command command, String out) {
    List<Pattern> wanted =
        shown.lines().stream()
            .map(
                line ->
                    Arrays.stream(line.strip().split("\\.\\.\\.", -1))
                        .map(Pattern::quote)
                        .collect(Collectors.joining(".*")))
            .map(Pattern::compile)
            .toList();
    List<String> lines = out.lines().map(String::strip).toList();
    for (int from = 0; from + wanted.size() <= lines.size(); from++) {
      int same = 0;
      while (same < wanted.size() && wanted.get(same).matcher(lines.get(from + same)).matches()) {
        same++;
      }
      if (same == wanted.size()) {
        return;
      }
    }
    assertEquals(shown.block(), out, command + " prints something else");
  }

  /** Options, classes, methods and files that stand in a page's sentences and commands. */
  private void names(DocPage page, List<String> stale) throws IOException {
    for (DocPage.Shown shown : page.shown()) {
      if (!shown.inline() && shown.commands().isEmpty()) {
        continue;
      }
      String code = String.join(" ", shown.lines());
      List<String> gone = new ArrayList<>();
      for (DocPage.Command command : shown.commands()) {
        gone.addAll(unknownOptions(command.line()));
      }
      if (shown.commands().isEmpty()) {
        gone.addAll(unknownOptions(code));
      }
      for (String main : found(MAIN, code)) {
        String type = main.substring(main.lastIndexOf('.') + 1);
        String needed = code.startsWith("java ") ? "void main(" : "\n";
        if (source(type).filter(text -> text.contains(needed)).isEmpty()) {
          gone.add(main);
        }
      }
      for (String path : found(PATH, code)) {
        if (!isThere(path)) {
          gone.add(path);
        }
      }
      for (String type : shown.inline() ? found(CLASS, code) : List.<String>of()) {
        if (!isType(type)) {
          gone.add(type);
        }
      }
      for (String name : gone) {
        if (!isExcepted(page.name(), name)) {
          stale.add(page.name() + ": " + name + " is not there, in \"" + code + '"');
        }
      }
    }
  }

  private List<String> found(Pattern pattern, String code) {
    List<String> found = pattern.matcher(code).results().map(MatchResult::group).toList();
    held += found.size();
    return found;
  }

  private static boolean isThere(String path) {
    return path.contains("target/")
        || Files.exists(DocPage.ROOT.resolve(path))
        || ROOMS.stream().anyMatch(room -> Files.exists(DocPage.ROOT.resolve(room).resolve(path)));
  }

  private static boolean isType(String name) throws IOException {
    String[] parts = name.split("\\.");
    return source(parts[0])
        .filter(text -> parts.length == 1 || text.contains(" " + parts[1] + "("))
        .isPresent();
  }

  /** Each option of ours belongs to the command that is named before it, or else to any. */
  private List<String> unknownOptions(String code) {
    CommandLine called = everypart;
    String[] words = code.replaceFirst("^(?:cli/bin/)?everypart ", "").split(" ");
    if (!words[0].startsWith("--") && !called.getSubcommands().containsKey(words[0])) {
      return List.of(); // another program's
    }
    for (String word : words) {
      if (!called.getSubcommands().containsKey(word)) {
        break;
      }
      called = called.getSubcommands().get(word);
    }
    List<CommandLine> all = new ArrayList<>();
    collect(called, all);
    return found(OPTION, code).stream()
        .filter(
            name -> all.stream().noneMatch(line -> line.getCommandSpec().findOption(name) != null))
        .toList();
  }

  private static void collect(CommandLine line, List<CommandLine> all) {
    all.add(line);
    line.getSubcommands().values().forEach(sub -> collect(sub, all));
  }

  /** The source of a class of the project, wherever it stands. */
  private static Optional<String> source(String name) throws IOException {
    Path file = SOURCES.get(name + ".java");
    return file == null ? Optional.empty() : Optional.of(Files.readString(file));
  }

  private static Map<String, Path> sources() {
    Map<String, Path> sources = new HashMap<>();
    for (String module :
        List.of("lexicon", "analyzer", "cli", "cli/meaning", "cli/parquet", "cli/spark")) {
      try (Stream<Path> files = Files.walk(DocPage.ROOT.resolve(module).resolve("src"))) {
        files.forEach(file -> sources.put(file.getFileName().toString(), file));
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
    return sources;
  }

  @Test
  void theExamplesOfHelpAreCalls() {
    List<CommandLine> all = new ArrayList<>();
    collect(HelpTest.commandLine(), all);
    int examples = 0;
    for (CommandLine line : all) {
      String footer = String.join("\n", line.getCommandSpec().usageMessage().footer());
      List<String> calls =
          footer
              .replaceAll("%n", "\n")
              .replaceAll("\\\\\\n\\s*", " ")
              .lines()
              .map(String::strip)
              .filter(words -> words.startsWith("everypart ") && !words.contains("COMMAND"))
              .toList();
      for (String call : calls) {
        lookAtOurs(new DocPage.Command("help", call.replaceFirst(" [<>|].*", "")));
        examples++;
      }
    }
    assertTrue(examples > 25, examples + " examples");
  }

  /** The block of a page that begins so. */
  private static String block(String page, String first) throws IOException {
    return DocPage.of("docs/" + page).shown().stream()
        .filter(shown -> !shown.inline() && shown.first().startsWith(first))
        .findFirst()
        .orElseThrow()
        .block();
  }

  private Path file(String name, String text) throws IOException {
    return Files.writeString(folder.resolve(name), text);
  }

  @Test
  void thePromptOfThePageIsRead() throws IOException {
    Path prompt = file("p.yaml", block("formats.md", "id: kelp-pens"));
    Run run = Run.of("outline", prompt);
    assertEquals(0, run.status(), run.err());
    assertTrue(run.out().contains("Kelp and urchins (kelp-pens): 2 parts"), run.out());
    assertTrue(run.out().contains("describe × 2"), run.out());
  }

  @Test
  void theConceptsAndCuesOfThePageAreRead() throws IOException {
    Path own = Files.createDirectory(folder.resolve("own"));
    file("own/concepts-page.yaml", block("lexicon.md", "subject: biology"));
    file("own/cues-page.yaml", block("lexicon.md", "sets:"));
    Run check = Run.of("lexicon", "check", own);
    assertEquals(0, check.status(), check.out() + check.err());
    Path text =
        file("t.txt", "Droplets drift from the cracked pipe.\nMoss does not stem from the wall.\n");
    Run trace = Run.of("trace", "--lexicon", own, "--format", "jsonl", text);
    assertEquals(0, trace.status(), trace.err());
    List<String> lines = trace.out().lines().toList();
    assertTrue(lines.get(0).contains("\"family\":\"source\""), trace.out());
    assertFalse(lines.get(1).contains("\"family\":\"source\""), trace.out());
  }

  @Test
  void thePlanOfThePageIsFollowed() throws IOException {
    Path plan = file("plan.yaml", block("statistics.md", "primary:"));
    StringBuilder rows =
        new StringBuilder("response_id,prompt_id,cohort,school,class,student,round,text\n");
    for (int i = 0; i < 16; i++) {
      for (String round : List.of("pre", "post")) {
        rows.append(
            String.join(
                ",",
                "r" + i + "-" + round,
                "p",
                i % 2 == 0 ? "first" : "second",
                "s" + i % 3,
                "c" + i % 4,
                "w" + i,
                round,
                "It dried out because the gate stood open.\n"));
      }
    }
    Path answers = file("a.csv", rows.toString());
    Path prompt = file("p.txt", "Explain why the pond dried out.");
    Path out = folder.resolve("planned");
    Run run =
        Run.of(
            "study",
            "--prompts",
            prompt,
            "--responses",
            answers,
            "--plan-file",
            plan,
            "--out",
            out);
    assertEquals(0, run.status(), run.err());
    assertTrue(Files.readString(out.resolve("summary.json")).contains("\"primary\""));
  }
}
