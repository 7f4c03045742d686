package everypart.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.apache.commons.csv.CSVFormat;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Every column of every table that a command writes stands in {@code docs/dictionary.md}. */
class DataDictionaryTest {
  private static final Path DEMO = Path.of("..", "demo-data");
  private static final Path DICTIONARY = Path.of("..", "docs", "dictionary.md");
  private static final Pattern SECTION = Pattern.compile("(?m)^## .*");
  private static final Pattern ROW = Pattern.compile("(?m)^\\|([^|]+)\\|");
  private static final Pattern NAME = Pattern.compile("`([^`]+)`");

  /** A column of a demand: part, number and kind. */
  private static final Pattern OF_DEMAND =
      Pattern.compile("(?:[^ ]+ )?[a-z]\\d+ [a-z]+( earlier)?");

  @TempDir
  @SuppressWarnings("NullAway.Init")
  Path folder;

  /** Returns the columns that a section of the dictionary names. */
  private static Set<String> documented(String heading) throws IOException {
    String page = Files.readString(DICTIONARY);
    int from = page.indexOf(heading);
    assertTrue(from >= 0, "no section " + heading);
    Matcher next = SECTION.matcher(page);
    int to = next.find(from + 3) ? next.start() : page.length();
    Set<String> names = new TreeSet<>();
    Matcher row = ROW.matcher(page.substring(from, to));
    while (row.find()) {
      NAME.matcher(row.group(1)).results().forEach(name -> names.add(name.group(1)));
    }
    return names;
  }

  private static List<String> columns(Path table) throws IOException {
    try (var rows = CSVFormat.RFC4180.parse(Files.newBufferedReader(table))) {
      return rows.iterator().next().toList();
    }
  }

  private static void assertDocumented(Path table, String heading, Set<String> groups)
      throws IOException {
    Set<String> known = documented(heading);
    List<String> found = columns(table);
    assertTrue(found.size() > 4, table + " has only " + found);
    for (String column : found) {
      boolean ofDemand = table.endsWith("matrix.csv") && OF_DEMAND.matcher(column).matches();
      assertTrue(
          known.contains(column) || groups.contains(column) || ofDemand,
          "docs/dictionary.md does not tell of \"" + column + "\" in " + table.getFileName());
    }
  }

  private static void run(Object... words) {
    Run run = Run.of(words);
    assertEquals(0, run.status(), run.err());
  }

  @Test
  void everyColumnOfAStudyIsDocumented() throws IOException {
    Path out = folder.resolve("study");
    run(
        "study",
        "--prompts",
        DEMO.resolve("prompts"),
        "--responses",
        DEMO.resolve("study.csv"),
        "--out",
        out,
        "--least-words",
        "3",
        "--sample",
        "40",
        "--coders",
        "2");
    Set<String> groups = Set.of("student", "class", "draft", "first_language");
    assertDocumented(out.resolve("demands.csv"), "## `demands.csv`", groups);
    assertDocumented(out.resolve("coding/design.csv"), "## `design.csv`", Set.of());
    run(
        "agree",
        "--sample",
        "40",
        "--results",
        out.resolve("results.jsonl"),
        "--out",
        folder.resolve("sheet.csv"));
    try (Stream<Path> files = Files.list(folder)) {
      List<Path> tables = files.filter(file -> file.toString().endsWith(".csv")).sorted().toList();
      assertEquals(2, tables.size(), tables.toString());
      assertDocumented(folder.resolve("sheet.csv"), "## A sheet to code", Set.of());
      assertDocumented(folder.resolve("sheet.design.csv"), "## `design.csv`", Set.of());
    }
  }

  @Test
  void everyColumnOfAClassIsDocumented() throws IOException {
    Path earlier = folder.resolve("earlier");
    Path now = folder.resolve("now");
    Path prompt = DEMO.resolve("prompts/lost-star.txt");
    Path answers = DEMO.resolve("class.csv");
    run("screen", prompt, answers, "--out", earlier);
    run("screen", prompt, answers, "--out", now, "--earlier", answers);
    Set<String> groups = Set.of("class", "first_language");
    assertDocumented(now.resolve("demands.csv"), "## `demands.csv`", groups);
    assertDocumented(now.resolve("matrix.csv"), "## `matrix.csv`", groups);
    assertTrue(columns(now.resolve("matrix.csv")).contains("closed"));
  }

  @Test
  void aColumnThatIsNotThereWouldBeFound() throws IOException {
    assertFalse(documented("## `demands.csv`").contains("confidences"));
    assertTrue(documented("## `demands.csv`").contains("confidence"));
    assertTrue(documented("## `design.csv`").size() > 10);
  }
}
