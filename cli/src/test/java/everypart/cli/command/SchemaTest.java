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
import everypart.cli.run.ExitStatus;
import everypart.lexicon.CueType;
import everypart.lexicon.DemandKind;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
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
    texts.remove("null"); // where a field may stand for all words
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

  /** Every option of study that adds a field. */
  private Run studyWithEverything(Path out, Object... more) throws IOException {
    Path responses =
        Files.writeString(
            folder.resolve("answers.csv"),
            Files.readString(DEMO.resolve("study.csv"))
                + "x1,no-such-prompt,x1,east,1,English,lost\n");
    List<Object> words =
        new ArrayList<>(
            List.of(
                "study",
                "--prompts",
                DEMO.resolve("prompts"),
                "--responses",
                responses,
                "--out",
                out,
                "--by",
                "class,first_language",
                "--cluster",
                "student",
                "--writer",
                "student",
                "--draft",
                "draft",
                "--lexicon",
                DEMO.resolve("economics/lexicon")));
    words.addAll(Arrays.asList(more));
    return Run.of(words.toArray());
  }

  @Test
  void theSummaryAndTheLogHaveNoFieldThatTheirSchemasDoNotKnow() throws IOException {
    Path out = folder.resolve("all");
    Run run = studyWithEverything(out, "--codes", DEMO.resolve("codes.csv"));
    assertEquals(ExitStatus.INPUT_LOST, run.status(), "one row is lost: " + run.err());
    JsonNode summary = JSON.readTree(out.resolve("summary.json").toFile());
    fitsStrictly("summary", summary);
    for (String list : List.of("rates", "comparisons", "coOmissions", "corrections", "problems")) {
      assertTrue(summary.path(list).size() > 0, list + " is empty, so nothing of it was checked");
    }
    assertTrue(summary.path("drafts").path("changes").size() > 0);
    assertTrue(summary.path("agreement").path("sections").size() > 0);
    JsonNode log = JSON.readTree(out.resolve("study.log.json").toFile());
    fitsStrictly("study-log", log);
    assertTrue(log.path("problems").size() > 0 && log.path("rows").path("lost").size() > 0);
    Path share = folder.resolve("share");
    studyWithEverything(share, "--shard", "1/2");
    fitsStrictly("study-log", JSON.readTree(share.resolve("study.log.json").toFile()));
  }

  @Test
  void agreementHasNoFieldThatItsSchemaDoesNotKnow() throws IOException {
    Path out = folder.resolve("all");
    studyWithEverything(out);
    Run run =
        Run.of(
            "agree",
            "--codes",
            DEMO.resolve("codes.csv"),
            "--results",
            out.resolve("results.jsonl"),
            "--format",
            "json");
    assertEquals(0, run.status(), run.err());
    JsonNode agreement = JSON.readTree(run.out());
    fitsStrictly("agreement", agreement);
    assertTrue(agreement.path("disagreements").size() > 0, "no disagreement was checked");
    assertTrue(agreement.path("sections").get(0).has("people"), "two coders were given");
  }

  /** Lets no object hold a field that its schema does not name; returns how many there are. */
  private static int close(JsonNode schema) {
    int closed = 0;
    for (JsonNode child : schema) {
      closed += close(child);
    }
    if (schema instanceof ObjectNode object && object.path("properties").isObject()) {
      object.put("additionalProperties", false);
      closed++;
    }
    return closed;
  }

  /** Checks a value against a schema whose objects may hold nothing but what it names. */
  private static void fitsStrictly(String name, JsonNode value) throws IOException {
    JsonNode schema = JSON.readTree(SCHEMAS.resolve(name + ".schema.json").toFile());
    int objects = close(schema);
    assertTrue(objects > 3, "only " + objects + " objects were closed");
    JsonSchema strict =
        JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012).getSchema(schema);
    assertEquals(Set.of(), strict.validate(value));
    ObjectNode more = value.deepCopy();
    more.put("unheardOf", 1);
    assertFalse(strict.validate(more).isEmpty(), "the schema was not closed");
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
    var texts = DemoTexts.of(DEMO.resolve("class.csv"));
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
