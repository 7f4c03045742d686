package everypart.cli.command;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.apache.poi.ss.usermodel.DataFormatter;
import org.apache.poi.xssf.usermodel.XSSFSheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
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

  private static final Path DEMO = Path.of("..", "demo-data");

  /** Judges the demo set, one of whose ids a spreadsheet would calculate and one is taken twice. */
  private Path studied() throws IOException {
    String demo = Files.readString(DEMO.resolve("study.csv"));
    Path responses =
        Files.writeString(
            folder.resolve("answers.csv"),
            demo.replaceFirst("(?m)^s02,", "=s02,")
                + "s01,lost-star,s99,east,1,English,The tollops will starve.\n");
    Path out = folder.resolve("study");
    Run run =
        Run.of(
            "study", "--prompts", DEMO.resolve("prompts"), "--responses", responses, "--out", out);
    assertEquals(ExitStatus.INPUT_LOST, run.status(), "an id is taken twice");
    return responses;
  }

  private Path sheet(Path responses, String name, int size) {
    Path sheet = folder.resolve(name);
    Run run =
        Run.of(
            "agree",
            "--sample",
            size,
            "--results",
            folder.resolve("study/results.jsonl"),
            "--responses",
            responses,
            "--prompts",
            DEMO.resolve("prompts"),
            "--out",
            sheet);
    assertEquals(0, run.status(), run.err());
    return sheet;
  }

  /** Takes away the apostrophe that a table needs before what a spreadsheet would calculate. */
  private static String unguarded(String cell) {
    return cell.matches("(?s)'[=+@-].*") ? cell.substring(1) : cell;
  }

  /** Says 1 and 0 in turn, and leaves every fifth demand open. */
  private static String code(int row) {
    return row % 5 == 0 ? "" : String.valueOf(row % 2);
  }

  private String agreed(Path sheet) {
    Run run =
        Run.of(
            "agree",
            "--codes",
            sheet,
            "--results",
            folder.resolve("study/results.jsonl"),
            "--format",
            "json");
    assertEquals(0, run.status(), run.err());
    return run.out();
  }

  /** The workbook is filled in by a library that has nothing to do with the one that wrote it. */
  @Test
  void aFilledWorkbookSaysTheSameAsAFilledTable() throws IOException {
    Path responses = studied();
    Path table = sheet(responses, "sheet.csv", 400);
    Path workbook = sheet(responses, "sheet.xlsx", 400);
    byte[] first = Files.readAllBytes(workbook);
    Path again = sheet(responses, "again.xlsx", 400);
    assertArrayEquals(first, Files.readAllBytes(again), "the same demands, other bytes");

    List<CSVRecord> records;
    try (var parser = CSVFormat.RFC4180.parse(Files.newBufferedReader(table))) {
      records = parser.getRecords();
    }
    List<String> header = records.get(0).toList();
    int code = header.indexOf("code");
    int coder = header.indexOf("coder");
    StringBuilder filled = new StringBuilder();
    StringBuilder semicolons = new StringBuilder();
    try (var book = new XSSFWorkbook(Files.newInputStream(workbook))) {
      XSSFSheet sheet = book.getSheetAt(0);
      assertEquals(records.size(), sheet.getLastRowNum() + 1);
      assertEquals(1, sheet.getDataValidations().size());
      assertEquals(1, sheet.getPaneInformation().getHorizontalSplitPosition());
      for (int at = 0; at < records.size(); at++) {
        List<String> cells = new ArrayList<>(records.get(at).toList());
        for (int column = 0; column < cells.size(); column++) {
          var cell = sheet.getRow(at).getCell(column);
          String there = cell == null ? "" : new DataFormatter(Locale.ROOT).formatCellValue(cell);
          if (at > 0 && column == cells.size() - 1) {
            assertEquals(Double.parseDouble(cells.get(column)), cell.getNumericCellValue(), 1e-9);
          } else {
            assertEquals(unguarded(cells.get(column)), there);
          }
        }
        if (at > 0) {
          cells.set(code, code(at));
          cells.set(coder, "ada");
          sheet.getRow(at).getCell(coder).setCellValue("ada");
          if (!code(at).isEmpty()) {
            sheet.getRow(at).getCell(code).setCellValue(Integer.parseInt(code(at)));
          }
        }
        filled.append(CSVFormat.RFC4180.format(cells.toArray())).append("\r\n");
        if (at > 0) {
          cells.set(cells.size() - 1, cells.get(cells.size() - 1).replace('.', ','));
        }
        semicolons
            .append(CSVFormat.RFC4180.builder().setDelimiter(';').get().format(cells.toArray()))
            .append("\r\n");
      }
      try (var out = Files.newOutputStream(folder.resolve("filled.xlsx"))) {
        book.write(out);
      }
    }
    Files.writeString(folder.resolve("filled.csv"), filled);
    Files.writeString(folder.resolve("semicolons.csv"), "\ufeff" + semicolons);
    assertTrue(filled.toString().contains("'=s02"), "the formula-like id is in the sheet");
    assertTrue(filled.toString().contains("s01#2"), "the second s01 is in the sheet");
    assertTrue(filled.toString().contains("The tollops will starve."));
    assertTrue(filled.toString().contains("two ways in which lanternweed supports"));

    String expected = agreed(folder.resolve("filled.csv"));
    JsonNode all = new JsonMapper().readTree(expected).path("sections").get(0);
    assertEquals((records.size() - 1) - (records.size() - 1) / 5, all.path("coded").asInt());
    assertEquals(expected, agreed(folder.resolve("filled.xlsx")));
    assertEquals(expected, agreed(folder.resolve("semicolons.csv")));
  }

  @Test
  void weightsOfAFilledSheetCorrectForWhatWasDrawnMoreOften() throws IOException {
    // 8 of 40 are unsure. The program is wrong on all unsure ones and right on the others.
    Path sheet = folder.resolve("sheet.csv");
    Run.of("agree", "--sample", 12, "--results", results, "--out", sheet);
    List<String> lines = Files.readAllLines(sheet);
    StringBuilder filled = new StringBuilder(lines.get(0) + "\n");
    for (String line : lines.subList(1, lines.size())) {
      int number = Integer.parseInt(line.substring(1, line.indexOf(',')));
      boolean said = number % 4 != 0;
      boolean truth = (number < 8) != said;
      filled
          .append(line.replaceFirst(",,,([0-9.]+)$", ",ada," + (truth ? 1 : 0) + ",$1"))
          .append("\n");
    }
    Files.writeString(sheet, filled);
    Run run = Run.of("agree", "--codes", sheet, "--results", results, "--format", "json");
    assertEquals(0, run.status(), run.err());
    JsonNode json = new JsonMapper().readTree(run.out());
    JsonNode all = json.path("sections").get(0);
    // Over the whole set: 10 said missing (2 wrong), 30 said addressed (6 wrong), so 8 of 14
    // missing ones are found and 24 of 26 addressed ones left alone.
    assertEquals(8 / 14.0, all.path("sensitivity").path("rate").asDouble(), 1e-6, all.toString());
    assertEquals(24 / 26.0, all.path("specificity").path("rate").asDouble(), 1e-6, all.toString());
  }

  @Test
  void aSheetWithoutTextsSaysHowToHaveThem() {
    Run run =
        Run.of("agree", "--sample", 5, "--results", results, "--out", folder.resolve("s.csv"));
    assertEquals(0, run.status());
    assertTrue(run.err().contains("give --responses and --prompts"), run.err());
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
