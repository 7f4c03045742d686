package everypart.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import com.networknt.schema.JsonSchema;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SpecVersion;
import everypart.lexicon.CueType;
import everypart.lexicon.DemandKind;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Set;
import org.apache.commons.csv.CSVFormat;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The program's own output and the demo files against the schemas in {@code docs/schema}, checked
 * with an independent validator (JSON Schema 2020-12).
 */
class SchemaTest {
  private static final ObjectMapper JSON = new JsonMapper();
  private static final Path SCHEMAS = Path.of("..", "docs", "schema");
  private static final Path DEMO = Path.of("..", "demo-data");

  @TempDir
  @SuppressWarnings("NullAway.Init")
  Path folder;

  private static JsonSchema schema(String name) throws IOException {
    return JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012)
        .getSchema(Files.readString(SCHEMAS.resolve(name + ".schema.json")));
  }

  private static void fits(String schema, JsonNode value) throws IOException {
    assertEquals(Set.of(), schema(schema).validate(value), () -> value.toString());
  }

  private static int linesFit(String schema, List<String> lines) throws IOException {
    for (String line : lines) {
      fits(schema, JSON.readTree(line));
    }
    return lines.size();
  }

  @Test
  void everySchemaIsItselfOne() throws IOException {
    JsonSchema meta =
        JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012)
            .getSchema(
                JSON.readTree("{\"$ref\":\"https://json-schema.org/draft/2020-12/schema\"}"));
    try (var files = Files.list(SCHEMAS)) {
      List<Path> all = files.toList();
      assertTrue(all.size() >= 5, all.toString());
      for (Path file : all) {
        assertEquals(Set.of(), meta.validate(JSON.readTree(file.toFile())), file.toString());
      }
    }
  }

  @Test
  void theSchemasKnowEveryKindAndCue() throws IOException {
    List<String> cues = Arrays.stream(CueType.values()).map(CueType::word).sorted().toList();
    assertEquals(cues, words("trace", "type"));
    List<String> kinds = Arrays.stream(DemandKind.values()).map(DemandKind::word).sorted().toList();
    for (String schema : List.of("prompt", "outline", "result", "summary")) {
      assertEquals(kinds, words(schema, "kind"), schema);
    }
  }

  /** Returns the longest list of words that a schema allows for a field. */
  private static List<String> words(String schema, String field) throws IOException {
    return JSON
        .readTree(SCHEMAS.resolve(schema + ".schema.json").toFile())
        .findValues(field)
        .stream()
        .map(node -> texts(node.path("enum")))
        .max(Comparator.comparingInt(List::size))
        .orElse(List.of());
  }

  private static List<String> texts(JsonNode list) {
    List<String> texts = new ArrayList<>();
    list.forEach(node -> texts.add(node.asText()));
    return texts.stream().sorted().toList();
  }

  @Test
  void promptsInYamlFit() throws IOException {
    int seen = 0;
    try (var files = Files.list(DEMO.resolve("prompts"))) {
      for (Path file : files.filter(path -> path.toString().endsWith(".yaml")).toList()) {
        fits("prompt", new YAMLMapper().readTree(file.toFile()));
        seen++;
      }
    }
    assertTrue(seen > 0);
  }

  @Test
  void outlinesFit() throws IOException {
    Run run = Run.of("outline", "--format", "jsonl", DEMO.resolve("prompts"));
    assertEquals(3, linesFit("outline", run.out().lines().toList()));
  }

  @Test
  void tracesFit() throws IOException {
    Path texts = folder.resolve("texts.txt");
    Files.writeString(
        texts,
        """
        The plants die because the salt draws the water out of them.
        I predict that there will be 12 more tollops than before.
        I don't know.
        """);
    Run run = Run.of("trace", "--format", "jsonl", texts);
    assertEquals(3, linesFit("trace", run.out().lines().toList()));
  }

  @Test
  void studiesFit() throws IOException {
    Run run =
        Run.of(
            "study",
            "--prompts",
            DEMO.resolve("prompts"),
            "--responses",
            DEMO.resolve("study.csv"),
            "--out",
            folder);
    assertEquals(0, run.status(), run.err());
    assertEquals(60, linesFit("result", Files.readAllLines(folder.resolve("results.jsonl"))));
    fits("summary", JSON.readTree(folder.resolve("summary.json").toFile()));
  }

  @Test
  void classSetsFit() throws IOException {
    Run run =
        Run.of(
            "screen",
            DEMO.resolve("prompts/lost-star.txt"),
            DEMO.resolve("class.csv"),
            "--out",
            folder);
    assertEquals(0, run.status(), run.err());
    assertEquals(24, linesFit("result", Files.readAllLines(folder.resolve("results.jsonl"))));
  }

  @Test
  void checksFit() throws IOException {
    Path answer = Files.writeString(folder.resolve("a.txt"), "(a) It feeds the tollops.");
    Run run = Run.of("check", DEMO.resolve("prompts/lost-star.txt"), answer, "--format", "json");
    fits("result", JSON.readTree(run.out()));
  }

  @Test
  void evidenceIsQuotedFromItsPlaceInTheText() throws IOException {
    Run run =
        Run.of(
            "screen",
            DEMO.resolve("prompts/lost-star.txt"),
            DEMO.resolve("class.csv"),
            "--out",
            folder);
    assertEquals(0, run.status(), run.err());
    var texts = new HashMap<String, String>();
    try (var parser =
        CSVFormat.RFC4180
            .builder()
            .setHeader()
            .setSkipHeaderRecord(true)
            .get()
            .parse(Files.newBufferedReader(DEMO.resolve("class.csv")))) {
      parser.forEach(row -> texts.put(row.get("response_id"), row.get("text")));
    }
    int quotes = 0;
    for (String line : Files.readAllLines(folder.resolve("results.jsonl"))) {
      JsonNode result = JSON.readTree(line);
      int[] points =
          String.valueOf(texts.get(result.path("responseId").asText())).codePoints().toArray();
      for (JsonNode evidence : result.findValues("evidence")) {
        for (JsonNode one : evidence) {
          int start = one.path("start").asInt();
          String there = new String(points, start, one.path("end").asInt() - start);
          assertEquals(there, one.path("quote").asText());
          quotes++;
        }
      }
    }
    assertTrue(quotes > 15, "only " + quotes + " quotes were looked at");
  }

  @Test
  void aResultWithoutAFieldDoesNotFit() throws IOException {
    Path answer = Files.writeString(folder.resolve("a.txt"), "(a) It feeds the tollops.");
    Run run = Run.of("check", DEMO.resolve("prompts/lost-star.txt"), answer, "--format", "json");
    for (String field : List.of("responseId", "promptId", "verdict", "parts", "sentences")) {
      ObjectNode result = (ObjectNode) JSON.readTree(run.out());
      result.remove(field);
      assertFalse(schema("result").validate(result).isEmpty(), field);
    }
    ObjectNode result = (ObjectNode) JSON.readTree(run.out());
    ((ArrayNode) result.path("parts")).forEach(part -> ((ObjectNode) part).put("verdict", "good"));
    assertFalse(schema("result").validate(result).isEmpty());
  }
}
