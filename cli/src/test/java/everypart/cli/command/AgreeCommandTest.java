package everypart.cli.command;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import everypart.cli.run.ExitStatus;
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
    StringBuilder filled = new StringBuilder(lines.get(0) + "\n");
    for (String line : lines.subList(1, lines.size())) {
      filled.append(line.replaceFirst(",,,,([0-9a-f]{12})$", ",ada,1,,$1")).append("\n");
    }
    assertFalse(lines.get(0).contains("weight") || lines.get(0).contains("verdict"));
    double weights = 0;
    for (String line : Files.readAllLines(folder.resolve("sheet.design.csv"))) {
      String last = line.substring(line.lastIndexOf(',') + 1);
      weights += last.equals("weight") ? 0 : Double.parseDouble(last);
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
    assertTrue(read.out().contains("weighted to stand for the whole set"), read.out());
    Files.delete(folder.resolve("sheet.design.csv"));
    Run lost = Run.of("agree", "--codes", sheet, "--results", results);
    assertTrue(lost.err().contains("--design"), lost.err());
    assertEquals("", lost.out(), "a sample is not read as if it were the set");
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

  /** Takes away the apostrophes that a table needs before what a spreadsheet would calculate. */
  private static String unguarded(String cell) {
    return cell.replaceAll("(^|[;\t|\n\r] ?)'(?=[=+@-])", "$1");
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
            "--design",
            folder.resolve("sheet.design.csv"),
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
          assertEquals(unguarded(cells.get(column)), there);
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
          .append(line.replaceFirst(",,,,([0-9a-f]{12})$", ",ada," + (truth ? 1 : 0) + ",,$1"))
          .append("\n");
    }
    Files.writeString(sheet, filled);
    Run run = Run.of("agree", "--codes", sheet, "--results", results, "--format", "json");
    assertEquals(0, run.status(), run.err());
    JsonNode json = new JsonMapper().readTree(run.out());
    JsonNode all = json.path("sections").get(0);
    // All but the tables of codes is weighted: 7 + 1 of 40 unsure ones are wrong.
    JsonNode pair = all.path("pairs").get(0);
    assertEquals(32 / 40.0, pair.path("agreement").path("rate").asDouble(), 1e-6);
    assertEquals(8 / 14.0, pair.path("missing").path("recall").path("rate").asDouble(), 1e-6);
    assertEquals(8 / 10.0, pair.path("missing").path("precision").path("rate").asDouble(), 1e-6);
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

  /** Two prompts answered under one id; the codes say of which the answer is. */
  @Test
  void codesMatchByResponseAndPrompt() throws IOException {
    StringBuilder lines = new StringBuilder();
    for (String prompt : List.of("p", "q")) {
      lines.append(
          String.format(
              Locale.ROOT,
              """
              {"responseId":"%s","promptId":"%s","verdict":"x","parts":[{"label":"a","demands":[\
              {"kind":"explain","verb":"why","verdict":"%s","confidence":0.9,"look":false}]}]}
              """,
              prompt.equals("p") ? "r1" : "r1#2",
              prompt,
              prompt.equals("p") ? "missing" : "addressed"));
    }
    Files.writeString(results, lines);
    Files.writeString(codes, "response_id,prompt_id,part,demand,code\nr1,q,a,1,1\nr1,p,a,1,0\n");
    Run run = Run.of("agree", "--codes", codes, "--results", results, "--format", "json");
    assertEquals(0, run.status(), run.err());
    JsonNode pair =
        new JsonMapper().readTree(run.out()).path("sections").get(0).path("pairs").get(0);
    assertEquals("[[1,0],[0,1]]", pair.path("table").toString());
    // Under one id in both, codes without a prompt say nothing.
    Files.writeString(results, lines.toString().replace("#2", ""));
    Files.writeString(codes, "response_id,part,demand,code\nr1,a,1,1\n");
    Run unclear = Run.of("agree", "--codes", codes, "--results", results);
    assertEquals(3, unclear.status());
    assertTrue(unclear.err().contains("add a column prompt_id"), unclear.err());
  }

  /** Two coders' sheets are blind, share what they should, and are settled and read together. */
  @Test
  void twoCodersSheetsAreReadTogetherAndSettled() throws IOException {
    Path out = folder.resolve("study");
    Run run =
        Run.of(
            "study",
            "--prompts",
            DEMO.resolve("prompts"),
            "--responses",
            DEMO.resolve("study.csv"),
            "--out",
            out,
            "--sample",
            60,
            "--coders",
            2,
            "--overlap",
            0.5);
    assertEquals(0, run.status(), run.err());
    Path coding = out.resolve("coding");
    assertTrue(Files.readString(coding.resolve("codebook.md")).contains("| explain |"));
    List<String> files = new ArrayList<>();
    int rows = 0;
    for (int coder = 1; coder <= 2; coder++) {
      Path sheet = coding.resolve("coder-" + coder + ".xlsx");
      files.add(sheet.toString());
      try (var book = new XSSFWorkbook(Files.newInputStream(sheet))) {
        XSSFSheet page = book.getSheetAt(0);
        rows += page.getLastRowNum();
        for (int at = 0; at < page.getRow(0).getLastCellNum(); at++) {
          String name = page.getRow(0).getCell(at).getStringCellValue();
          assertFalse(List.of("weight", "verdict", "confidence", "look").contains(name), name);
          if (name.equals("code")) {
            for (int row = 1; row <= page.getLastRowNum(); row++) {
              page.getRow(row).createCell(at).setCellValue(coder == 1 ? 1 : row % 2);
            }
          }
        }
        try (var bytes = Files.newOutputStream(sheet)) {
          book.write(bytes);
        }
      }
    }
    assertEquals(60 + 30, rows, "half of 60 are on both sheets");
    Path settle = folder.resolve("settle.csv");
    Run agreed =
        Run.of(
            "agree",
            "--codes",
            String.join(",", files),
            "--results",
            out.resolve("results.jsonl"),
            "--by",
            "first_language",
            "--settle",
            settle,
            "--format",
            "json");
    assertEquals(0, agreed.status(), agreed.err());
    JsonNode json = new JsonMapper().readTree(agreed.out());
    assertEquals("[\"coder-1\",\"coder-2\"]", json.path("coders").toString());
    assertEquals(60, json.path("sections").get(0).path("coded").asInt());
    assertEquals(30, json.path("sections").get(0).path("people").path("demands").asInt());
    int unsettled = json.path("unsettled").size();
    assertTrue(unsettled > 5, "unsettled: " + unsettled);
    assertTrue(json.path("groups").get(0).path("errors").size() > 1);
    String sheet = Files.readString(settle);
    assertTrue(sheet.contains("\"coder-1 1, coder-2 0\""), sheet);
    Files.writeString(settle, sheet.replaceAll("settled,,", "settled,0,"));
    files.add(settle.toString());
    Run again =
        Run.of(
            "agree",
            "--codes",
            String.join(",", files),
            "--results",
            out.resolve("results.jsonl"),
            "--design",
            coding.resolve("design.csv"),
            "--format",
            "json");
    assertEquals(0, again.status(), again.err());
    JsonNode settled = new JsonMapper().readTree(again.out());
    assertEquals(0, settled.path("unsettled").size());
    assertEquals(0, settled.path("sections").get(0).path("tied").asInt());
    assertEquals("[\"coder-1\",\"coder-2\"]", settled.path("coders").toString());
  }
}
