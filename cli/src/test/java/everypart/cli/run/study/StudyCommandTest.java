package everypart.cli.run.study;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import everypart.cli.command.Run;
import everypart.cli.run.ExitStatus;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.zip.GZIPInputStream;
import java.util.zip.GZIPOutputStream;
import org.apache.commons.csv.CSVFormat;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

final class StudyCommandTest {
  private static final JsonMapper JSON = new JsonMapper();
  private static final Path DEMO = Path.of("..", "demo-data");

  @TempDir
  @SuppressWarnings("NullAway.Init")
  Path folder;

  private static Run study(Path responses, Path out, Object... more) {
    List<Object> words =
        new ArrayList<>(
            List.of(
                "study",
                "--prompts",
                DEMO.resolve("prompts"),
                "--responses",
                responses,
                "--out",
                out));
    words.addAll(Arrays.asList(more));
    return Run.of(words.toArray());
  }

  /** Returns the content of each file of a folder. */
  private static Map<String, String> files(Path folder) throws IOException {
    Map<String, String> files = new TreeMap<>();
    try (var found = Files.list(folder)) {
      for (Path file :
          found.filter(one -> !one.getFileName().toString().startsWith(".")).toList()) {
        files.put(file.getFileName().toString(), Files.readString(file));
      }
    }
    return files;
  }

  /** Three copies of the demo set, with an id taken twice, a prompt unknown and a broken row. */
  private Path troubled() throws IOException {
    String demo = Files.readString(DEMO.resolve("study.csv"));
    String rows = demo.substring(demo.indexOf('\n') + 1);
    return Files.writeString(
        folder.resolve("troubled.csv"),
        demo
            + rows.replaceAll("(?m)^s(\\d\\d)", "t$1")
            + "s01,lost-star,s01,east,1,English,again\n"
            + "u1,no-such-prompt,s01,east,1,English,lost\n"
            + ",lost-star,s01,east,1,English,no id\n"
            + rows.replaceAll("(?m)^s(\\d\\d)", "v$1"));
  }

  @Test
  void anyNumberOfThreadsWritesTheSameBytes() throws IOException {
    Path responses = troubled();
    Object[] design = {
      "--by", "class", "--cluster", "student", "--writer", "student", "--draft", "draft"
    };
    List<Map<String, String>> outputs = new ArrayList<>();
    for (int threads : new int[] {1, 2, 4}) {
      Path out = folder.resolve("threads-" + threads);
      List<Object> more = new ArrayList<>(Arrays.asList(design));
      more.addAll(List.of("--threads", threads));
      Run run = study(responses, out, more.toArray());
      assertEquals(ExitStatus.INPUT_LOST, run.status(), run.err());
      outputs.add(files(out));
    }
    assertEquals(7, outputs.get(0).size(), "with two scripts for the groups");
    assertEquals(outputs.get(0), outputs.get(1));
    assertEquals(outputs.get(0), outputs.get(2));
  }

  @Test
  void sharesPutTogetherAreTheSameBytes() throws IOException {
    Path responses = troubled();
    Object[] design = {
      "--by", "class", "--cluster", "student", "--writer", "student", "--draft", "draft"
    };
    Path whole = folder.resolve("whole");
    study(responses, whole, design);
    List<Object> merge = new ArrayList<>(List.of("merge"));
    for (int share : new int[] {3, 1, 2}) {
      Path out = folder.resolve("share-" + share);
      List<Object> more = new ArrayList<>(Arrays.asList(design));
      more.addAll(List.of("--shard", share + "/3"));
      study(responses, out, more.toArray());
      merge.add(out);
    }
    Path merged = folder.resolve("merged");
    merge.addAll(List.of("--out", merged));
    Run run = Run.of(merge.toArray());
    assertEquals(ExitStatus.INPUT_LOST, run.status(), run.err());
    assertEquals(files(whole), files(merged));
  }

  @Test
  void aShareThatIsMissingIsNamed() {
    Path out = folder.resolve("share");
    study(DEMO.resolve("study.csv"), out, "--shard", "2/3");
    Run run = Run.of("merge", out, "--out", folder.resolve("merged"));
    assertEquals(ExitStatus.INPUT_LOST, run.status());
    assertTrue(run.err().contains("share 1 of 3 is missing"), run.err());
  }

  @Test
  void aShareThatWasChangedIsRefused() throws IOException {
    Path out = folder.resolve("share");
    study(DEMO.resolve("study.csv"), out, "--shard", "1/1");
    Files.writeString(out.resolve("demands.csv"), "changed\n");
    Run run = Run.of("merge", out, "--out", folder.resolve("merged"));
    assertEquals(ExitStatus.INPUT_LOST, run.status());
    assertTrue(run.err().contains("demands.csv"), run.err());
  }

  @Test
  void zippedTablesAndJsonLinesSayTheSame() throws IOException {
    Path plain = folder.resolve("plain");
    study(DEMO.resolve("study.csv"), plain);
    Path csv = folder.resolve("study.csv.gz");
    try (var out = new GZIPOutputStream(Files.newOutputStream(csv))) {
      Files.copy(DEMO.resolve("study.csv"), out);
    }
    Path lines = folder.resolve("study.jsonl");
    StringBuilder json = new StringBuilder();
    try (var parser =
        CSVFormat.RFC4180
            .builder()
            .setHeader()
            .setSkipHeaderRecord(true)
            .get()
            .parse(Files.newBufferedReader(DEMO.resolve("study.csv")))) {
      parser.forEach(row -> json.append(JSON.valueToTree(row.toMap()).toString()).append('\n'));
    }
    Files.writeString(lines, json);
    for (Path input : List.of(csv, lines)) {
      Path out = folder.resolve("from-" + input.getFileName());
      Run run = study(input, out, "--gzip");
      assertEquals(ExitStatus.DONE, run.status(), run.err());
      try (var in = new GZIPInputStream(Files.newInputStream(out.resolve("results.jsonl.gz")))) {
        assertEquals(
            byId(Files.readString(plain.resolve("results.jsonl"))),
            byId(new String(in.readAllBytes(), StandardCharsets.UTF_8)));
      }
    }
  }

  /** Returns results as values, since JSON objects do not order their fields. */
  private static Map<String, JsonNode> byId(String lines) throws IOException {
    Map<String, JsonNode> results = new TreeMap<>();
    for (String line : lines.lines().toList()) {
      JsonNode result = JSON.readTree(line);
      results.put(result.path("responseId").asText(), result);
    }
    return results;
  }

  @Test
  void theLogCountsWhatWasLost() throws IOException {
    Path out = folder.resolve("out");
    study(troubled(), out);
    JsonNode rows = JSON.readTree(out.resolve("study.log.json").toFile()).path("rows");
    assertEquals(183, rows.path("read").asLong());
    assertEquals(181, rows.path("judged").asLong());
    assertEquals("[[122,123]]", rows.path("lost").toString());
    assertEquals(3, rows.path("problems").asLong());
    assertEquals(
        181, Files.readAllLines(out.resolve("results.jsonl")).size(), "one line a response");
  }

  @Test
  void theSummaryHasWhatWasAskedFor() throws IOException {
    Path out = folder.resolve("out");
    Run run =
        study(
            DEMO.resolve("study.csv"),
            out,
            "--by",
            "class,first_language",
            "--cluster",
            "student",
            "--writer",
            "student",
            "--draft",
            "draft",
            "--codes",
            DEMO.resolve("codes.csv"));
    assertEquals(ExitStatus.DONE, run.status(), run.err());
    JsonNode summary = JSON.readTree(out.resolve("summary.json").toFile());
    List<String> columns = new ArrayList<>();
    summary.path("comparisons").forEach(one -> columns.add(one.path("column").asText()));
    assertTrue(columns.contains("class") && columns.contains("first_language"), columns.toString());
    assertEquals(8, summary.path("drafts").path("writers").asInt());
    assertTrue(summary.path("corrections").size() > 1);
    assertTrue(summary.path("agreement").path("reliability").size() > 0);
    long missing = 0;
    for (JsonNode prompt : summary.path("prompts")) {
      for (JsonNode demand : prompt.path("demands")) {
        missing += demand.path("missing").asLong();
      }
    }
    JsonNode all = summary.path("rates").get(0);
    assertEquals("all", all.path("by").asText());
    assertEquals(missing, all.path("omission").path("count").asLong());
    String methods = summary.path("methods").toString();
    assertTrue(methods.contains("cues.yaml") && methods.contains("double sampling"), methods);
    String report = Files.readString(out.resolve("report.html"));
    for (String shown :
        List.of("By class", "left open together", "first to last draft", "Corrected", "as often")) {
      assertTrue(report.contains(shown), shown);
    }
    assertTrue(report.contains("east less west: "), "a comparison in words");
    assertTrue(report.contains("program and majority: "), "agreement in words");
    assertTrue(report.contains("<figcaption>Kinds, over all prompts</figcaption>"));
    String checksum =
        JSON.readTree(out.resolve("study.log.json").toFile())
            .path("inputs")
            .path("responses")
            .path("sha256")
            .asText();
    assertTrue(report.contains(checksum), "the whole checksum of the responses");
    assertTrue(report.split("<svg", -1).length > 8);
  }

  @Test
  void aColumnThatIsNotThereIsNamed() {
    Run run = study(DEMO.resolve("study.csv"), folder.resolve("out"), "--by", "cohort");
    assertEquals(ExitStatus.WRONG_CALL, run.status());
    assertTrue(run.err().contains("no column \"cohort\""), run.err());
  }

  @Test
  void draftsNeedTheirWriters() {
    Run run = study(DEMO.resolve("study.csv"), folder.resolve("out"), "--draft", "draft");
    assertEquals(ExitStatus.WRONG_CALL, run.status());
    assertTrue(run.err().contains("--writer"), run.err());
  }

  @Test
  void draftsInWordsNeedTheirOrder() throws IOException {
    String demo = Files.readString(DEMO.resolve("study.csv"));
    Path responses =
        Files.writeString(
            folder.resolve("rounds.csv"),
            demo.replaceAll("(?m)^(s[^,]*,[^,]*,s\\d\\d,[^,]*),1,", "$1,pre,")
                .replaceAll("(?m)^(s[^,]*,[^,]*,s\\d\\d,[^,]*),2,", "$1,post,"));
    Run refused =
        study(responses, folder.resolve("out"), "--writer", "student", "--draft", "draft");
    assertEquals(ExitStatus.WRONG_CALL, refused.status());
    assertTrue(refused.err().contains("--draft round=pre,post"), refused.err());
    assertTrue(Files.notExists(folder.resolve("out").resolve("results.jsonl")));
    Run run =
        study(responses, folder.resolve("out"), "--writer", "student", "--draft", "draft=pre,post");
    assertEquals(ExitStatus.DONE, run.status(), run.err());
    assertTrue(run.err().contains("first to last: pre, post"), run.err());
    JsonNode words = JSON.readTree(folder.resolve("out/summary.json").toFile()).path("drafts");
    study(
        DEMO.resolve("study.csv"),
        folder.resolve("numbers"),
        "--writer",
        "student",
        "--draft",
        "draft");
    JsonNode numbers =
        JSON.readTree(folder.resolve("numbers/summary.json").toFile()).path("drafts");
    assertEquals(numbers.path("changes"), words.path("changes"));
  }
}
