package everypart.cli.run.study;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import everypart.cli.command.Run;
import everypart.cli.intake.Checksum;
import everypart.cli.run.ExitStatus;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class StudyPlanFileTest {
  private static final Path DEMO = Path.of("..", "demo-data");
  private static final JsonMapper JSON = new JsonMapper();
  private static final String PLAN =
      """
      primary:
        compare: class
        groups: [west, east]
      by: [class, first_language]
      cluster: student
      level: 0.9
      seed: 7
      least-words: 1
      """;

  @TempDir
  @SuppressWarnings("NullAway.Init")
  Path folder;

  private Run study(String plan, Object... more) throws IOException {
    Path file = Files.writeString(folder.resolve("plan.yaml"), plan);
    List<Object> words =
        new ArrayList<>(
            List.of(
                "study",
                "--prompts",
                DEMO.resolve("prompts"),
                "--responses",
                DEMO.resolve("study.csv"),
                "--out",
                folder.resolve("out"),
                "--plan-file",
                file));
    words.addAll(Arrays.asList(more));
    return Run.of(words.toArray());
  }

  private JsonNode json(String name) throws IOException {
    return JSON.readTree(folder.resolve("out").resolve(name).toFile());
  }

  @Test
  void thePlannedComparisonStandsApartAndAllElseIsExploratory() throws IOException {
    Run run = study(PLAN, "--level", "0.9", "--by", "class,first_language");
    assertEquals(0, run.status(), run.err());
    String sum = Checksum.sha256(folder.resolve("plan.yaml").toString()).orElseThrow();
    JsonNode settings = json("study.log.json").path("settings");
    assertEquals(0.9, settings.path("level").asDouble());
    assertEquals(7, settings.path("seed").asInt());
    assertEquals("student", settings.path("cluster").asText());
    assertEquals(1, settings.path("leastWords").asInt());
    assertEquals(sum, json("study.log.json").path("inputs").path("plan").path("sha256").asText());
    JsonNode summary = json("summary.json");
    assertEquals(sum, summary.path("plan").path("sha256").asText());
    assertTrue(summary.path("plan").path("made").asBoolean());
    int planned = 0;
    for (JsonNode one : summary.path("comparisons")) {
      boolean own =
          one.path("column").asText().equals("class")
              && one.path("kind").isNull()
              && one.path("first").asText().equals("east");
      assertEquals(own, one.path("planned").asBoolean(), one.toString());
      planned += own ? 1 : 0;
    }
    assertEquals(1, planned);
    assertTrue(summary.path("comparisons").size() > 3, "there is nothing exploratory to mark");
    String report = Files.readString(folder.resolve("out/report.html"));
    assertTrue(report.contains(sum), "the report has no checksum of the plan");
    assertTrue(report.contains("<h2>The planned comparison</h2>"), "no planned comparison");
    assertTrue(report.contains("By class (exploratory)"));
    assertTrue(report.contains("By length of the response in words (exploratory)"));
    assertEquals(2, report.split("<td>planned</td>", -1).length, "one row is planned");
    assertTrue(summary.path("methods").toString().contains("Its test was not corrected"));
  }

  @Test
  void aPlanOfGroupsThatAreNotThereIsSaidToBeUnmade() throws IOException {
    assertEquals(0, study(PLAN.replace("west", "north")).status());
    assertFalse(json("summary.json").path("plan").path("made").asBoolean());
    assertTrue(
        Files.readString(folder.resolve("out/report.html"))
            .contains("This comparison could not be made"));
  }

  @Test
  void draftsAreCompared() throws IOException {
    Run run = study("primary:\n  compare: drafts\nwriter: student\ndraft: draft\nby: class\n");
    assertEquals(0, run.status(), run.err());
    JsonNode changes = json("summary.json").path("drafts").path("changes");
    assertTrue(changes.path(0).path("planned").asBoolean());
    assertTrue(changes.size() > 1);
    for (int at = 1; at < changes.size(); at++) {
      assertFalse(changes.path(at).path("planned").asBoolean());
    }
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "--level | 0.95 | --level 0.95, and the plan has 0.9",
        "--seed | 8 | --seed 8, and the plan has 7",
        "--by | class | --by class, and the plan has class,first_language",
        "--cluster | class | --cluster class, and the plan has student",
        "--draft | draft | --draft draft, and the plan has nothing",
        "--least-words | 5 | --least-words 5, and the plan has 1"
      })
  void anOptionThatDiffersIsRefused(String option, String value, String said) throws IOException {
    Run run = study(PLAN, option, value);
    assertEquals(ExitStatus.WRONG_CALL, run.status(), run.err());
    assertTrue(run.err().contains(said), run.err());
    assertFalse(Files.exists(folder.resolve("out")));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "by: [class] | there is no primary comparison",
        "primary: {compare: school, groups: [a, b]}\\nby: [class] | which by: does not name",
        "primary: {compare: class}\\nby: [class] | needs two groups",
        "primary: {compare: class, groups: [a, a]}\\nby: [class] | needs two groups",
        "primary: {compare: class, groups: [a, b], kind: guess}\\n"
            + "by: class | is not a kind of demand",
        "primary: {compare: class, groups: [a, b]}\\n"
            + "by: class\\n"
            + "alpha: 0.05 | a plan cannot have \"alpha\"",
        "primary: {compare: class, groups: [a, b]}\\nby: class\\nlevel: high | level: high",
        "primary: {compare: drafts} | does not say which columns",
        "primary: [ | this is not valid YAML"
      })
  void aPlanThatCannotBeIsToldInOneSentence(String plan, String said) throws IOException {
    Run run = study(plan.replace("\\n", "\n"));
    assertEquals(ExitStatus.INPUT_LOST, run.status(), run.err());
    assertTrue(run.err().contains(said), run.err());
    assertEquals(1, run.err().lines().count(), run.err());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "seed: 1.5 | seed: 1.5 cannot be used; give a whole number",
        "seed: 1e3 | seed: 1000.0 cannot be used; give a whole number",
        "seed: 9223372036854775808 | seed: 9223372036854775808 cannot be used; give a whole number",
        "least-words: 2.5 | least-words: 2.5 cannot be used; give a whole number, 0 or more",
        "least-words: -1 | least-words: -1 cannot be used; give a whole number, 0 or more",
        "least-words: 4294967297 | least-words: 4294967297 cannot be used; give a whole number",
        "level: 95 | level: 95 cannot be used; give a number from 0.5",
        "seed: [1] | seed: has no value, or more than one; give it one value"
      })
  void aNumberIsTakenAsItStandsOrRefused(String line, String said) throws IOException {
    Run run = study("primary: {compare: class, groups: [west, east]}\nby: class\n" + line + "\n");
    assertEquals(ExitStatus.INPUT_LOST, run.status(), run.err());
    assertTrue(run.err().contains("plan.yaml") && run.err().contains(said), run.err());
    assertEquals(1, run.err().lines().count(), run.err());
  }

  @Test
  void aLongSeedKeepsAllItsDigits() throws IOException {
    Run run = study(PLAN.replace("seed: 7", "seed: 9007199254740993"));
    assertEquals(0, run.status(), run.err());
    assertEquals(
        9_007_199_254_740_993L, json("study.log.json").path("settings").path("seed").asLong());
  }

  @Test
  void aPlanThatWasChangedIsNotResumedOrRepeated() throws IOException {
    assertEquals(0, study(PLAN).status());
    Files.writeString(folder.resolve("plan.yaml"), PLAN.replace("west", "south"));
    Run run =
        Run.of(
            "study",
            "--from-log",
            folder.resolve("out/study.log.json"),
            "--out",
            folder.resolve("again"));
    assertTrue(run.err().contains("has changed since"), run.err());
  }
}
