package everypart.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The examples that the pages on reading and judging quote are read, and judged, as they say. */
class DocExamplesTest {
  private static final Pattern QUOTED = Pattern.compile("\"([^\"]+)\"");
  private static final JsonMapper JSON = new JsonMapper();

  @TempDir
  @SuppressWarnings("NullAway.Init")
  Path folder;

  private static List<String[]> rows() throws IOException {
    try (InputStream in = DocExamplesTest.class.getResourceAsStream("doc-examples.tsv")) {
      assertNotNull(in, "doc-examples.tsv");
      return new String(in.readAllBytes(), StandardCharsets.UTF_8)
          .lines()
          .filter(line -> !line.startsWith("#"))
          .map(line -> line.split("\t"))
          .toList();
    }
  }

  private static Set<String> quoted(String text) {
    Set<String> quoted = new LinkedHashSet<>();
    QUOTED
        .matcher(text)
        .results()
        .forEach(quote -> quoted.add(quote.group(1).replaceAll("\\s+", " ")));
    return quoted;
  }

  @Test
  void eachExampleOfAReadingIsReadSo() throws IOException {
    String page = DocPage.of("docs/prompts.md").text();
    Set<String> examples =
        quoted(page.substring(page.indexOf("\n## Parts"), page.indexOf("\n## How well it does")));
    Map<String, String> expected = new LinkedHashMap<>();
    List<Object> call = new ArrayList<>(List.of("outline", "--format", "jsonl"));
    for (String[] row : rows()) {
      assertEquals(3, row.length, row[0]);
      String id = "p" + (100 + expected.size());
      assertEquals(null, expected.put(row[0], row[2]), "twice: " + row[0]);
      call.add(Files.writeString(folder.resolve(id + ".txt"), row[1].replace("\\n", "\n")));
      boolean shows = true;
      for (String word : row[0].split("\\.\\.\\.|\\bX\\b|\\bY\\b|/|\\?")) {
        shows &= row[1].toLowerCase(Locale.ROOT).contains(word.strip().toLowerCase(Locale.ROOT));
      }
      assertTrue(shows, "the prompt does not show \"" + row[0] + '"');
    }
    assertEquals(examples, expected.keySet());
    call.subList(3, call.size()).clear();
    call.add(folder);
    Run run = Run.of(call.toArray());
    assertEquals(0, run.status(), run.err());
    List<String> read = new ArrayList<>();
    for (String line : run.out().lines().toList()) {
      read.add(demands(JSON.readTree(line)));
    }
    assertEquals(
        String.join("\n", lines(expected.keySet(), expected.values())),
        String.join("\n", lines(expected.keySet(), read)));
  }

  private static List<String> lines(Iterable<String> names, Iterable<String> values) {
    List<String> lines = new ArrayList<>();
    var value = values.iterator();
    names.forEach(name -> lines.add(name + " -> " + value.next()));
    return lines;
  }

  private static String demands(JsonNode prompt) {
    StringBuilder outline = new StringBuilder();
    for (JsonNode part : prompt.path("parts")) {
      outline.append(outline.isEmpty() ? "" : "; ").append(part.path("label").asText()).append(':');
      for (JsonNode demand : part.path("demands")) {
        int count = demand.path("count").asInt();
        outline.append(' ').append(demand.path("kind").asText());
        outline.append(count > 1 ? "*" + count : "");
      }
    }
    return outline.toString();
  }

  @Test
  void whatIsNeverEnoughIsNeverEnough() throws IOException {
    String page = DocPage.of("docs/method.md").text();
    int from = page.indexOf("Handing the question's own words back");
    Set<String> examples = quoted(page.substring(from, page.indexOf("\n## ", from)));
    assertEquals(2, examples.size(), examples.toString());
    examples.add("The pond at the old mill dried out in the late summer of that year.");
    Path prompt = folder.resolve("p.txt");
    Files.writeString(
        prompt, "Explain why the pond at the old mill dried out in the late summer of that year.");
    for (String example : examples) {
      Path answer = Files.writeString(folder.resolve("a.txt"), example);
      Run run = Run.of("check", "--format", "json", prompt, answer);
      assertEquals(0, run.status(), run.err());
      List<String> verdicts = JSON.readTree(run.out()).findValuesAsText("verdict");
      assertEquals(Set.of("missing"), new LinkedHashSet<>(verdicts), example);
    }
  }
}
