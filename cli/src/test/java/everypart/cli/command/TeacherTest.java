package everypart.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SpecVersion;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.apache.poi.xwpf.extractor.XWPFWordExtractor;
import org.apache.poi.xwpf.usermodel.XWPFDocument;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a teacher does with a class set beside reading it. */
class TeacherTest {
  private static final JsonMapper JSON = new JsonMapper();
  private static final String QUESTION =
      "(a) Describe the tide pool.\n(b) Explain why the pipkins hide.\n";

  @TempDir
  @SuppressWarnings("NullAway.Init")
  Path folder;

  private Path write(String name, String text) throws IOException {
    return Files.writeString(folder.resolve(name), text);
  }

  private Run screen(Object... rest) throws IOException {
    List<Object> words =
        new ArrayList<>(
            List.of(
                "screen",
                write("q.txt", QUESTION),
                write(
                    "class.csv",
                    """
                    response_id,class,text
                    oda,east,(a) Ferrin Holt saw that it was deep and cold.
                    =fenn,west,
                    """),
                "--out",
                folder.resolve("out")));
    words.addAll(List.of(rest));
    return Run.of(words.toArray());
  }

  private String out(String name) throws IOException {
    return Files.readString(folder.resolve("out").resolve(name));
  }

  private Path corrections() throws IOException {
    return write(
        "corrections.json",
        """
        {"format": "everypart-corrections", "version": 1, "responses": [
          {"promptId": "q", "responseId": "oda", "read": true, "demands": [
            {"part": "a", "demand": 1, "kind": "describe", "program": "addressed",
             "verdict": "addressed", "overruled": false},
            {"part": "b", "demand": 1, "kind": "explain", "program": "missing",
             "verdict": "partly", "overruled": true}]},
          {"promptId": "q", "responseId": "=fenn", "read": false, "demands": [
            {"part": "a", "demand": 1, "kind": "describe", "program": "missing",
             "verdict": "addressed", "overruled": true}]}]}
        """);
  }

  @Test
  void correctionsReplaceTheProgramsVerdictsAndBothAreKept() throws IOException {
    assertEquals(0, screen("--corrections", corrections()).status());
    JsonNode oda = JSON.readTree(out("results.jsonl").lines().findFirst().orElseThrow());
    JsonNode demand = oda.path("parts").get(1).path("demands").get(0);
    assertEquals("partly", demand.path("verdict").asText());
    assertEquals("missing", demand.path("program").path("verdict").asText());
    assertTrue(demand.path("why").get(0).asText().contains("decided by the teacher"));
    assertEquals("partly", oda.path("parts").get(1).path("verdict").asText());
    assertTrue(out("index.html").contains("\"read\":true"));
    assertTrue(out("index.html").contains("\"v\":\"partly\",\"p\":\"missing\""));
    fits("corrections", Files.readString(folder.resolve("corrections.json")));
    fits("result", oda.toString());
  }

  private static void fits(String schema, String json) throws IOException {
    assertEquals(
        Set.of(),
        JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012)
            .getSchema(Files.readString(Path.of("..", "docs", "schema", schema + ".schema.json")))
            .validate(JSON.readTree(json)));
  }

  @Test
  void agreeScoresWhatWasReadWholeAgainstTheProgramsOwnVerdicts() throws IOException {
    screen("--corrections", corrections());
    Run run =
        Run.of(
            "agree",
            "--codes",
            folder.resolve("corrections.json"),
            "--results",
            folder.resolve("out/results.jsonl"),
            "--format",
            "json");
    assertEquals(0, run.status(), run.err());
    JsonNode figures = JSON.readTree(run.out());
    assertTrue(run.out().contains("teacher"), run.out());
    assertTrue(figures.toString().contains("\"oda\""), run.out());
    assertFalse(figures.toString().contains("=fenn"), run.out());
  }

  @Test
  void aFileWithoutCorrectionsIsNamed() throws IOException {
    Run run = screen("--corrections", write("c.json", "{}"));
    assertEquals(3, run.status());
    assertTrue(run.err().contains("c.json: this file holds no corrections; give"), run.err());
  }

  @Test
  void slipsQuoteTheStudentAndSayWhatKindOfSentenceIsOpen() throws IOException {
    assertEquals(0, screen("--slips", "html,txt,docx").status());
    String text = out("slips/oda.txt");
    for (String words :
        List.of("you wrote  \u201c", "deep and cold", "not found", "say how or why", "trust")) {
      assertTrue(text.contains(words), words + " is not in " + text);
    }
    assertTrue(Files.exists(folder.resolve("out/slips/_fenn.txt")));
    assertTrue(out("slips.html").contains("Slip for oda"));
    try (XWPFDocument document =
            new XWPFDocument(Files.newInputStream(folder.resolve("out/slips.docx")));
        XWPFWordExtractor words = new XWPFWordExtractor(document)) {
      assertTrue(words.getText().contains("explain"), words.getText());
      assertTrue(words.getText().contains("not found"), words.getText());
    }
  }

  @Test
  void aSlipNeverShowsThePointsOfTheAnswer() throws IOException {
    Path question =
        write(
            "q.yaml",
            """
            parts:
              - label: a
                text: Explain why the pipkins hide.
                model_answer: Birds hunt them by day.
                demands:
                  - kind: explain
                    points: [[nightjars], [daylight]]
            """);
    Run run =
        Run.of(
            "screen",
            question,
            write("s1.txt", "They hide."),
            "--slips",
            "html,txt",
            "--out",
            folder.resolve("out"));
    assertEquals(0, run.status(), run.err());
    for (String slip : List.of(out("slips/s1.txt"), out("slips.html"))) {
      for (String answer : List.of("nightjars", "daylight", "Birds hunt")) {
        assertFalse(slip.contains(answer), answer);
      }
    }
  }

  @Test
  void noOutputNamesAStudentWherePseudonymsAreAskedFor() throws IOException {
    Path key = folder.resolve("key.txt");
    Path names = write("names.txt", "Ferrin Holt\n");
    Object[] options = {
      "--pseudonyms", key, "--redact", names, "--keep", "class", "--slips", "html,txt,docx"
    };
    Run run = screen(options);
    assertEquals(0, run.status(), run.err());
    assertTrue(run.err().contains("key.txt: there was no such key, so one was made"), run.err());
    String results = out("results.jsonl");
    try (var files = Files.walk(folder.resolve("out"))) {
      for (Path file : files.filter(Files::isRegularFile).toList()) {
        String text = new String(Files.readAllBytes(file), StandardCharsets.UTF_8);
        absent(file + withoutCode(text).replaceAll("\\s", ""), "oda", "fenn", "Ferrin", "Holt");
      }
    }
    assertTrue(results.contains("\"class\":\"east\""), results);
    assertEquals(0, screen(options).status());
    assertEquals(results, out("results.jsonl"), "the same key gives the same names");
    Run weak = screen("--pseudonyms", write("weak.txt", "abc"));
    assertTrue(weak.err().contains("weak.txt: the key is shorter than 16"), weak.err());
  }

  /** The page's own style and script hold no word of a student's. */
  private static String withoutCode(String page) {
    return page.replaceAll("(?s)<style>.*?</style>|<script>.*?</script>", "");
  }

  private static void absent(String text, String... words) {
    for (String word : words) {
      assertFalse(text.contains(word), word + " is in " + text.lines().findFirst());
    }
  }

  @Test
  void tablesAreSafeInASpreadsheetAndBeginWithAMarkOnRequest() throws IOException {
    screen("--bom");
    for (String name : List.of("matrix.csv", "demands.csv")) {
      assertTrue(out(name).startsWith("\ufeffresponse_id,"), out(name));
      assertTrue(out(name).contains("\n'=fenn,"), out(name));
    }
    screen();
    assertTrue(out("matrix.csv").startsWith("response_id,"));
  }

  @Test
  void anEarlierDraftShowsWhatWasClosedKeptAndLost() throws IOException {
    Path question = write("q.txt", QUESTION);
    Path now =
        write(
            "now.txt",
            "(a) deep and cold and dark, Ferrin Holt saw little snails in it\n(b) I like them.");
    Path draft =
        write(
            "draft.txt",
            "(a) I do not know.\n(b) They crawl under stones because gulls would eat them in the sunlight.");
    Run run = Run.of("check", question, now, "--earlier", draft);
    assertEquals(0, run.status(), run.err());
    assertTrue(
        run.out().contains("Since the earlier draft: closed a1 describe; lost b1 explain."),
        run.out());
    run = Run.of("check", question, draft, "--earlier", draft, "--format", "json");
    fits("result", run.out());
    assertEquals("kept", JSON.readTree(run.out()).path("revision").get(1).path("change").asText());

    Path drafts =
        write(
            "drafts.csv",
            "response_id,text\noda,(b) They crawl under stones because gulls would eat them in the sunlight.\n");
    assertEquals(0, screen("--earlier", drafts).status());
    List<String> lines = out("results.jsonl").lines().toList();
    JsonNode revision = JSON.readTree(lines.get(0)).path("revision");
    assertEquals("closed", revision.get(0).path("change").asText());
    assertEquals("missing", revision.get(0).path("earlier").asText());
    assertEquals("lost", revision.get(1).path("change").asText());
    assertTrue(JSON.readTree(lines.get(1)).path("revision").isMissingNode());
    assertEquals(
        """
        response_id,prompt_id,verdict,open,look,a1 describe,b1 explain,class,closed,lost,a1 describe earlier,b1 explain earlier
        oda,q,partly,1,LOOK,addressed,missing,east,1,1,missing,addressed
        '=fenn,q,missing,2,LOOK,missing,missing,west,,,,
        """,
        out("matrix.csv").replace("\r", "").replaceAll("(partly,1|missing,2),[0-9]", "$1,LOOK"));
    List<String> demands = out("demands.csv").lines().toList();
    assertTrue(demands.get(0).endsWith(",why,class,earlier,change"), demands.get(0));
    assertTrue(demands.get(1).endsWith(",east,missing,closed"), demands.get(1));
    assertTrue(demands.get(2).endsWith(",east,addressed,lost"), demands.get(2));
    assertTrue(demands.get(3).endsWith(",west,,"), demands.get(3));
    assertTrue(out("index.html").contains("\"d\":[\"closed\",\"lost\"]"));
    assertTrue(
        out("index.html")
            .contains(
                "Of 1 answer with an earlier draft, 1 closed something since and 1 lost"
                    + " something."));
    screen();
    assertFalse(out("index.html").contains("\"d\":["));
    assertFalse(out("index.html").contains("with an earlier draft"));
    assertTrue(out("matrix.csv").lines().findFirst().orElseThrow().endsWith(",b1 explain,class"));
    assertTrue(out("demands.csv").lines().findFirst().orElseThrow().endsWith(",why,class"));
  }

  private String revised(String before, String after) throws IOException {
    Path question = write("q.txt", QUESTION);
    Run run =
        Run.of("check", question, write("now.txt", after), "--earlier", write("old.txt", before));
    assertEquals(0, run.status(), run.err());
    return run.out().lines().filter(line -> line.startsWith("Since")).findFirst().orElse("");
  }

  @Test
  void aDraftIsToldByWhatItsWordsDid() throws IOException {
    String hunted = "(b) The pipkins hide because birds hunt them by day.";
    assertTrue(revised(hunted, "(a) It is cold. " + hunted).contains("kept b1 explain"));
    assertTrue(
        revised(hunted, "(b) The pipkins hide because big birds hunt them by day.")
            .contains("kept b1 explain"),
        "a word put in keeps the answer");
    assertTrue(
        revised(hunted, "(b) They hide since the sun would dry their skin out.")
            .contains("answered in other words b1 explain"));
    Path two = write("two.txt", "(a) Describe two ways in which the weed helps the snails.");
    Run run =
        Run.of(
            "check",
            two,
            write("one.txt", "(a) The weed hides the snails from birds."),
            "--earlier",
            write("none.txt", "(a) I do not know."));
    assertTrue(run.out().contains("Since the earlier draft: nearer a1 describe."), run.out());
  }

  @Test
  void pseudonymsDoNotKeepTheOrderOfTheNames() throws IOException {
    StringBuilder rows = new StringBuilder("response_id,text\n");
    for (int i = 10; i < 30; i++) {
      rows.append("name").append(i).append(",(a) The pool is deep ").append(i).append(".\n");
    }
    Path names = write("names.csv", rows.toString());
    Run run =
        Run.of(
            "screen",
            write("q.txt", QUESTION),
            names,
            "--pseudonyms",
            folder.resolve("key2.txt"),
            "--out",
            folder.resolve("out"));
    assertEquals(0, run.status(), run.err());
    List<String> ids = new ArrayList<>();
    for (String line : out("results.jsonl").lines().toList()) {
      ids.add(JSON.readTree(line).path("responseId").asText());
    }
    assertEquals(20, ids.size());
    assertEquals(ids.stream().sorted().toList(), ids);
  }
}
