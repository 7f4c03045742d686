package everypart.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Results are made up here, so that every count is known whatever the detectors do. */
final class AgreeCommandTest {
  private static final int RESPONSES = 40;

  @TempDir private Path folder;
  private Path results = Path.of("");
  private Path codes = Path.of("");

  @BeforeEach
  void writeResultsAndCodes() throws IOException {
    results = folder.resolve("results.jsonl");
    codes = folder.resolve("codes.csv");
    StringBuilder lines = new StringBuilder();
    StringBuilder rows = new StringBuilder("response_id,part,demand,coder,code\n");
    for (int at = 0; at < RESPONSES; at++) {
      boolean missing = at % 4 == 0;
      lines.append(
          String.format(
              Locale.ROOT,
              """
      {"responseId":"r%d","promptId":"p","verdict":"partly","parts":[{"label":"a","verdict":"x",\
      "demands":[{"kind":"explain","verb":"why","count":1,"found":1,"verdict":"%s",\
      "confidence":%s,"look":%s,"evidence":[{"start":0,"end":3,"quote":"the tide"}],\
      "why":["a reason"],"points":[]},{"kind":"represent","verb":"draw","count":1,"found":0,\
      "verdict":"unchecked","confidence":1,"look":true,"evidence":[],"why":[],"points":[]}]}]}
      """,
              at,
              missing ? "missing" : "addressed",
              at < 8 ? "0.6" : "0.9",
              at < 8));
      // ada differs from the program on r0 and r1; ben only on r1, and codes no more than 30.
      rows.append(
          String.format(
              Locale.ROOT, "r%d,a,1,ada,%d\n", at, at == 0 ? 1 : missing || at == 1 ? 0 : 1));
      rows.append(
          String.format(
              Locale.ROOT, "r%d,a,1,ben,%s\n", at, at >= 30 ? "" : missing || at == 1 ? "0" : "1"));
    }
    Files.writeString(results, lines);
    Files.writeString(codes, rows);
  }

  @Test
  void jsonHoldsEveryFigure() throws IOException {
    Run run = Run.of("agree", "--codes", codes, "--results", results, "--format", "json");
    assertEquals(0, run.status(), run.err());
    JsonNode all = new JsonMapper().readTree(run.out());
    JsonNode section = all.path("sections").get(0);
    assertEquals(RESPONSES, section.path("coded").asInt());
    JsonNode pairs = section.path("pairs");
    assertEquals("majority", pairs.get(0).path("second").asText());
    assertEquals("ada", pairs.get(1).path("second").asText());
    assertEquals("[[9,1],[1,29]]", pairs.get(1).path("table").toString());
    assertEquals("[[8,0],[1,21]]", pairs.get(2).path("table").toString());
    JsonNode people = pairs.get(pairs.size() - 1);
    assertEquals("ada", people.path("first").asText());
    assertEquals(30, people.path("n").asInt());
    assertEquals(2, section.path("people").path("coders").asInt());
    assertEquals(30, section.path("people").path("demands").asInt());
    assertTrue(pairs.get(1).path("kappa").path("value").isNumber());
    assertTrue(all.path("brier").isNumber());
    assertEquals("the tide", all.path("disagreements").get(0).path("quotes").get(0).asText());
  }

  @Test
  void textListsDisagreementsWithTheirText() throws IOException {
    Path responses = folder.resolve("responses.csv");
    Files.writeString(responses, "response_id,text\nr1,The tide turned.\n");
    Run run = Run.of("agree", "--codes", codes, "--results", results, "--responses", responses);
    assertEquals(0, run.status(), run.err());
    assertTrue(run.out().contains("r1, part a, demand 1 (explain): program addressed"), run.out());
    assertTrue(run.out().contains("text: The tide turned."), run.out());
    assertTrue(run.out().contains("ada 0, ben 0"), run.out());
  }

  @Test
  void aFilledSampleSheetIsReadAsCodes() throws IOException {
    Path sheet = folder.resolve("sheet.csv");
    Run run = Run.of("agree", "--sample", 12, "--results", results, "--out", sheet);
    assertEquals(0, run.status(), run.err());
    List<String> lines = Files.readAllLines(sheet);
    assertEquals(13, lines.size());
    assertFalse(Files.readString(sheet).contains("represent"));
    double weights = 0;
    StringBuilder filled = new StringBuilder(lines.get(0) + "\n");
    for (String line : lines.subList(1, lines.size())) {
      weights += Double.parseDouble(line.substring(line.lastIndexOf(',') + 1));
      filled.append(line.replaceFirst(",,,([0-9.]+)$", ",ada,1,$1")).append("\n");
    }
    // Each stratum weighs its size, so all weigh the set.
    assertEquals(RESPONSES, weights, 1e-3);
    // 8 of 40 are unsure; by size alone 2 or 3 of 12 would be drawn.
    long unsure = lines.stream().filter(line -> line.matches("r[0-7],.*")).count();
    assertTrue(unsure >= 4, "unsure drawn: " + unsure);
    Files.writeString(sheet, filled);
    Run read = Run.of("agree", "--codes", sheet, "--results", results);
    assertEquals(0, read.status(), read.err());
    assertTrue(read.out().contains("all demands: 12 coded"), read.out());
  }

  @Test
  void codesWithoutVerdictAreToldOf() throws IOException {
    Files.writeString(
        codes, "response_id,part,demand,coder,code\nnobody,a,1,ada,1\nr2,a,1,ada,2\n");
    Run run = Run.of("agree", "--codes", codes, "--results", results);
    assertEquals(3, run.status());
    assertTrue(run.err().contains("without a verdict"), run.err());
    assertTrue(run.err().contains("code is \"2\""), run.err());
  }

  @Test
  void codesOrSampleIsAskedFor() {
    assertEquals(2, Run.of("agree", "--results", results).status());
    assertEquals(
        2, Run.of("agree", "--codes", codes, "--results", results, "--level", "95").status());
  }
}
