package everypart.cli.run.study;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import everypart.cli.command.Run;
import everypart.cli.run.ExitStatus;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What becomes of the rows of a study, and what leaving some of them out does to its figures. */
class StudyFlowTest {
  private static final JsonMapper JSON = new JsonMapper();
  private static final Path DEMO = Path.of("..", "demo-data");

  private static final String ROWS =
      """
      response_id,prompt_id,class,text
      a1,lost-star,east,"(a) It is their food, and a place to hide. (b) There will be more tollops."
      a2,lost-star,west,"They starve because the young lanternweed is what the tollops eat."
      a3,lost-star,east,
      a4,lost-star,west,"  \t "
      a5,lost-star,east,no idea
      u1,no-such-prompt,east,
      u2,,west,Words for no prompt
      ,lost-star,west,no id
      a6,lost-star,west
      """;

  @TempDir
  @SuppressWarnings("NullAway.Init")
  Path folder;

  private Run study(String out, Object... more) throws IOException {
    Path responses = folder.resolve("answers.csv");
    if (Files.notExists(responses)) {
      Files.writeString(responses, ROWS);
    }
    List<Object> words =
        new ArrayList<>(
            List.of(
                "study",
                "--quick",
                "--prompts",
                DEMO.resolve("prompts"),
                "--responses",
                responses,
                "--out",
                folder.resolve(out)));
    words.addAll(Arrays.asList(more));
    return Run.of(words.toArray());
  }

  private JsonNode summary(String out) throws IOException {
    return JSON.readTree(folder.resolve(out).resolve("summary.json").toFile());
  }

  private static Map<String, Long> numbers(JsonNode object) {
    Map<String, Long> numbers = new TreeMap<>();
    object.properties().forEach(one -> numbers.put(one.getKey(), one.getValue().asLong()));
    return numbers;
  }

  private static long demands(JsonNode summary) {
    return summary.path("rates").get(0).path("omission").path("of").asLong();
  }

  private static Map<String, Long> flow(
      long empty, long tooShort, long leastWords, long leftOut, long counted) {
    return new TreeMap<>(
        Map.of(
            "read",
            9L,
            "unreadable",
            2L,
            "unknownPrompt",
            2L,
            "notJudged",
            0L,
            "judged",
            5L,
            "empty",
            empty,
            "tooShort",
            tooShort,
            "leastWords",
            leastWords,
            "leftOut",
            leftOut,
            "counted",
            counted));
  }

  @Test
  void everyRowIsAccountedFor() throws IOException {
    Run run = study("out");
    assertEquals(ExitStatus.INPUT_LOST, run.status(), run.err());
    JsonNode summary = summary("out");
    assertEquals(flow(2, 0, 0, 0, 5), numbers(summary.path("flow")));
    assertEquals(5, summary.path("responses").asLong(), "empty ones count");
    String methods = summary.path("methods").toString();
    assertTrue(
        methods.contains(
            "Of 9 rows read, 5 were judged and the rest were not (2 could not be read, 2 named no"
                + " prompt that was given). 2 responses were empty; they count as leaving every"
                + " demand open."),
        methods);
    String report = Files.readString(folder.resolve("out/report.html"));
    assertTrue(report.contains("From the rows to the figures"));
    assertTrue(report.contains("<td>unknown prompt</td><td>2</td>"), report);
    assertFalse(report.contains("left out of all figures"));
    assertFalse(Files.readString(folder.resolve("out/results.jsonl")).contains("leftOut"));
    assertFalse(Files.readString(folder.resolve("out/demands.csv")).contains("left_out"));
  }

  @Test
  void emptyResponsesAreLeftOutOfEveryFigureAndEveryOutputSaysSo() throws IOException {
    study("all");
    Run run = study("out", "--leave-out-empty", "--by", "class");
    assertEquals(ExitStatus.INPUT_LOST, run.status(), run.err());
    assertTrue(run.err().contains("2 of them are left out of all figures (2 empty, 0 too short)"));
    JsonNode summary = summary("out");
    assertEquals(flow(2, 0, 1, 2, 3), numbers(summary.path("flow")));
    assertEquals(3, summary.path("responses").asLong());
    assertEquals(3, summary.path("prompts").get(0).path("responses").asLong());
    long ofAll = demands(summary("all"));
    assertEquals(ofAll * 3 / 5, demands(summary), "each response has as many demands");
    long inGroups = 0;
    for (JsonNode rate : summary.path("rates")) {
      inGroups +=
          rate.path("by").asText().equals("group") ? rate.path("omission").path("of").asLong() : 0;
    }
    assertEquals(demands(summary), inGroups);
    assertTrue(
        summary
            .path("methods")
            .toString()
            .contains("2 responses were empty and were left out of all figures."));
    String report = Files.readString(folder.resolve("out/report.html"));
    assertTrue(report.contains("; 2 judged but left out of all figures"), "in the head");
    List<String> lines = Files.readAllLines(folder.resolve("out/results.jsonl"));
    assertEquals(5, lines.size(), "a line for each response that was judged");
    Map<String, String> leftOut = new TreeMap<>();
    for (String line : lines) {
      JsonNode result = JSON.readTree(line);
      leftOut.put(result.path("responseId").asText(), result.path("leftOut").asText("counts"));
    }
    assertEquals(
        Map.of("a1", "counts", "a2", "counts", "a3", "empty", "a4", "empty", "a5", "counts"),
        leftOut);
    List<String> rows = Files.readAllLines(folder.resolve("out/demands.csv"));
    assertTrue(rows.get(0).endsWith(",class,left_out"), rows.get(0));
    assertEquals(
        ofAll * 2 / 5,
        rows.stream().filter(row -> row.endsWith(",empty")).count(),
        "rows of a3, a4");
    JsonNode log = JSON.readTree(folder.resolve("out/study.log.json").toFile());
    assertEquals(5, log.path("rows").path("judged").asLong());
    assertEquals(1, log.path("settings").path("leastWords").asLong());
  }

  @Test
  void aBoundOnWordsAlsoLeavesOutWhatIsEmpty() throws IOException {
    Run run = study("out", "--least-words", "3");
    assertTrue(run.err().contains("3 of them are left out of all figures (2 empty, 1 too short)"));
    JsonNode summary = summary("out");
    assertEquals(flow(2, 1, 3, 3, 2), numbers(summary.path("flow")));
    assertTrue(
        summary
            .path("methods")
            .toString()
            .contains(
                "Responses of fewer than 3 words were left out of all figures: 2 empty ones and 1"
                    + " with too few words, which leaves 2."));
    assertTrue(
        Files.readString(folder.resolve("out/report.html"))
            .contains("<td>of these, too short</td><td>1</td>"));
  }

  @Test
  void aBoundBelowOneIsRefused() throws IOException {
    Run run = study("out", "--least-words", "0");
    assertEquals(ExitStatus.WRONG_CALL, run.status());
    assertTrue(run.err().contains("--least-words 0: give a number of words"), run.err());
  }

  @Test
  void aColumnOfTheSameNameIsRefused() throws IOException {
    Files.writeString(folder.resolve("answers.csv"), ROWS.replaceFirst(",class,", ",left_out,"));
    Run run = study("out", "--leave-out-empty");
    assertEquals(ExitStatus.WRONG_CALL, run.status());
    assertTrue(run.err().contains("the column \"left_out\""), run.err());
    assertEquals(ExitStatus.INPUT_LOST, study("out").status(), "without the option it may stay");
  }

  @Test
  void aStudyWithNothingLeftHasNoFigures() throws IOException {
    Files.writeString(folder.resolve("answers.csv"), "response_id,prompt_id,text\na1,lost-star,\n");
    Run run = study("out", "--leave-out-empty");
    assertEquals(ExitStatus.DONE, run.status(), run.err());
    assertEquals(0, summary("out").path("responses").asLong());
    assertEquals(1, summary("out").path("flow").path("leftOut").asLong());
    assertEquals(0, summary("out").path("rates").size());
  }

  @Test
  void sharesAndRepeatedRunsCountTheSame() throws IOException {
    Object[] design = {"--least-words", "3", "--by", "class"};
    study("whole", design);
    Map<String, String> whole = files("whole");
    List<Object> merge = new ArrayList<>(List.of("merge"));
    for (int share = 1; share <= 2; share++) {
      study("share-" + share, "--least-words", "3", "--by", "class", "--shard", share + "/2");
      merge.add(folder.resolve("share-" + share));
    }
    merge.addAll(List.of("--out", folder.resolve("merged")));
    Run run = Run.of(merge.toArray());
    assertEquals(ExitStatus.INPUT_LOST, run.status(), run.err());
    assertEquals(whole, files("merged"));
    Run again =
        Run.of(
            "study",
            "--from-log",
            folder.resolve("whole/study.log.json"),
            "--out",
            folder.resolve("again"));
    assertTrue(again.err().contains("all files are the same, to the byte"), again.err());
    study("other", "--leave-out-empty", "--by", "class", "--shard", "2/2");
    Run mixed =
        Run.of(
            "merge",
            folder.resolve("share-1"),
            folder.resolve("other"),
            "--out",
            folder.resolve("mixed"));
    assertTrue(mixed.err().contains("of another study"), mixed.err());
  }

  private Map<String, String> files(String out) throws IOException {
    Map<String, String> files = new TreeMap<>();
    try (var found = Files.list(folder.resolve(out))) {
      for (Path file :
          found.filter(one -> !one.getFileName().toString().startsWith(".")).toList()) {
        files.put(file.getFileName().toString(), Files.readString(file));
      }
    }
    return files;
  }

  @Test
  void codesAndSamplesPassOverWhatIsLeftOut() throws IOException {
    Path codes =
        Files.writeString(
            folder.resolve("codes.csv"),
            """
            response_id,prompt_id,part,demand,code
            a1,lost-star,a,1,1
            a2,lost-star,a,1,0
            a3,lost-star,a,1,0
            """);
    Run run = study("out", "--leave-out-empty", "--codes", codes);
    assertTrue(
        summary("out").path("problems").toString().contains("left out here too"),
        summary("out").path("problems").toString());
    assertFalse(run.err().contains("without a verdict"), run.err());
    Run agree = Run.of("agree", "--codes", codes, "--results", folder.resolve("out/results.jsonl"));
    assertEquals(ExitStatus.DONE, agree.status(), agree.err());
    assertTrue(agree.out().contains("2 coded"), agree.out());
    assertTrue(agree.err().contains("1 coded demand is of a response"), agree.err());
    Path sheet = folder.resolve("sheet.csv");
    Run sample =
        Run.of(
            "agree",
            "--sample",
            "100",
            "--results",
            folder.resolve("out/results.jsonl"),
            "--out",
            sheet);
    assertEquals(ExitStatus.DONE, sample.status(), sample.err());
    String drawn = Files.readString(sheet);
    assertTrue(drawn.contains("a1,lost-star"), drawn);
    assertFalse(drawn.contains("a3,lost-star") || drawn.contains("a4,lost-star"), drawn);
  }
}
