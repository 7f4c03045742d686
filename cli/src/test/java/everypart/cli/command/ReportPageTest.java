package everypart.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SpecVersion;
import everypart.cli.Browser;
import everypart.cli.run.ExitStatus;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Keys;

/**
 * The report of a class set in a real browser, as a teacher works in it. With {@code
 * -Deverypart.golden=write} the pictures in docs are taken anew.
 */
@Tag("slow")
class ReportPageTest {
  private static final JsonMapper JSON = new JsonMapper();
  private static final Path DEMO = Path.of("..", "demo-data");
  private static final int MANY = 1000;

  @TempDir
  @SuppressWarnings("NullAway.Init")
  static Path folder;

  @SuppressWarnings("NullAway.Init")
  private static Browser browser;

  @BeforeAll
  static void start() throws IOException {
    browser = Browser.start(folder);
    Run run = screen("report", "--slips", "html");
    assertEquals(0, run.status(), run.err());
  }

  @AfterAll
  static void stop() {
    if (browser != null) {
      browser.close();
    }
  }

  @AfterEach
  void theConsoleIsQuiet() {
    assertEquals(List.of(), browser.console());
  }

  private static Run screen(String out, Object... rest) throws IOException {
    List<Object> words =
        new ArrayList<>(
            List.of(
                "screen",
                DEMO.resolve("prompts/lost-star.txt"),
                DEMO.resolve("class.csv"),
                "--out",
                folder.resolve(out)));
    words.addAll(List.of(rest));
    return Run.of(words.toArray());
  }

  /** Opens a page as if for the first time. */
  private static void open(String name) {
    browser.open(folder.resolve("report/index.html").toUri().toString());
    browser.run("dirty = false; clearTimeout(waiting); localStorage.clear()");
    browser.open(folder.resolve(name).toUri().toString());
  }

  private static List<String> ids() {
    return browser.texts("#rows .id");
  }

  private static long count(String of) {
    return (Long)
        browser.run(
            "return current.rows.filter((row) => row.v[arguments[0]] === arguments[1]).length",
            Integer.parseInt(of.substring(0, 1)),
            of.substring(2));
  }

  private static String cell(String id, int column) {
    return String.valueOf(
        browser.run(
            "return Array.from(document.querySelectorAll('#rows tr')).find((tr) =>"
                + " tr.querySelector('.id').textContent === arguments[0])"
                + ".querySelector(\"[data-x='\" + arguments[1] + \"']\").textContent",
            id,
            column));
  }

  private static void read(String id, String demand) {
    browser.run(
        "location.hash = '#r/0/' + current.rows.findIndex((row) => row.id === arguments[0])"
            + " + arguments[1]",
        id,
        demand);
    browser.awaitText("#who", id);
  }

  @Test
  void oneScreenSaysHowManyLeaveSomethingOpenAndWhich() throws IOException {
    open("report/index.html");
    long open = 0;
    for (String line : Files.readAllLines(folder.resolve("report/matrix.csv")).subList(1, 25)) {
      open += line.split(",")[3].equals("0") ? 0 : 1;
    }
    assertEquals(open + " of 24 leave something open", browser.text("#headline"));
    assertTrue(browser.text("#most").startsWith("Most often open: "), browser.text("#most"));
    assertTrue(browser.text("#head").contains("b2 justify your prediction"), browser.text("#head"));
    assertEquals(
        true,
        browser.run(
            "return document.querySelector('#rows tr').getBoundingClientRect().top < innerHeight"));
    browser.run("document.getElementById('grid').scrollTo(9999, 9999)");
    assertEquals(
        true,
        browser.run(
            "const grid = document.getElementById('grid').getBoundingClientRect();"
                + "const head = document.querySelector('#head th').getBoundingClientRect();"
                + "const name = document.querySelector('#rows tr:last-child th')"
                + ".getBoundingClientRect();"
                + "return Math.abs(head.top - grid.top) < 3 && Math.abs(name.left - grid.left) < 3"),
        "heads and names stay in sight");
    browser.run("document.getElementById('grid').scrollTo(0, 0)");
    browser.picture("class-report.png");
  }

  @Test
  void theTableIsSortedByAnyColumnAndFilteredBySeveralThings() {
    open("report/index.html");
    List<String> before = ids();
    assertEquals(24, before.size());
    browser.click("[data-sort='open']");
    List<Integer> open =
        browser.texts("#rows td.n:nth-child(2)").stream().map(Integer::parseInt).toList();
    assertEquals(open.stream().sorted().toList(), open);
    browser.click("[data-sort='open']");
    assertEquals(
        "descending",
        browser.run("return document.querySelector(\"th:has([data-sort='open'])\").ariaSort"));
    for (int column = 0; column < 6; column++) {
      browser.click("[data-sort='" + column + "']");
      assertEquals(
          count(column + " missing") > 0 ? "\u25cbnot found" : "",
          cell(ids().get(0), column + 1).replace("?unsure", ""));
    }
    browser.click("[data-sort='id']");
    assertEquals(before, ids());

    browser.click("[data-toggle='look']");
    List<String> looks = ids();
    browser.click("[data-toggle='open']");
    List<String> both = ids();
    assertTrue(looks.containsAll(both) && !both.isEmpty(), looks + " " + both);
    assertTrue(looks.size() < 24, looks.toString());
    assertTrue(
        browser.texts("#rows td.n:nth-child(2)").stream().allMatch(td -> Integer.parseInt(td) > 0));
    browser.choose("#groups select", "=east");
    List<String> east = ids();
    assertTrue(both.containsAll(east) && both.size() > east.size(), both + " " + east);
    browser.click("thead th:nth-child(3) .more");
    browser.choose("#column-filter", "missing");
    browser.click("#column .primary");
    List<String> missing = ids();
    assertTrue(east.containsAll(missing) && east.size() > missing.size(), east + " " + missing);
    assertEquals(missing.size() + " of 24 shown", browser.text("#shown"));
    assertTrue(browser.text("#foot").contains(missing.size() + " open"), browser.text("#foot"));
    assertTrue(browser.text("#chips .chip").startsWith("a1 not found"));
    browser.click("#chips .plain");
    assertEquals(24, ids().size());
    browser.type("#search", "s1");
    browser.await(() -> ids().size() == 10, "ten with s1");
  }

  @Test
  void aVerdictCountsEverywhereAtOnceAndIsTakenBackInOneStep() {
    open("report/index.html");
    long missing = count("1 missing");
    String before = browser.text("#head") + browser.text("#headline") + browser.text("#foot");
    read("s05", "/1");
    assertEquals("6 things are open.", browser.text(".student-line strong"));
    browser.click("#d1 input[value=addressed]");
    browser.awaitText(".student-line", "5 things are open.");
    assertTrue(browser.text("#d1").contains("The program said \u201cnot found\u201d"));
    assertEquals("1 verdict of your own \u00b7 not saved to a file yet", browser.text("#own"));
    browser.click(".back");
    assertEquals("\u2713coveredyours", cell("s05", 2));
    assertFalse(
        before.equals(browser.text("#head") + browser.text("#headline") + browser.text("#foot")));
    assertTrue(browser.text("#head").contains((missing - 1) + " open ("), browser.text("#head"));
    browser.click("#undo");
    assertEquals(before, browser.text("#head") + browser.text("#headline") + browser.text("#foot"));
    assertEquals("", browser.text("#own"));
  }

  @Test
  void aColumnAndAllCellsOfOneReasonAreSetInOneStep() {
    open("report/index.html");
    long missing = count("4 missing");
    String doubts = browser.text("#class-doubts");
    browser.click("thead th:nth-child(7) .more");
    browser.choose("#column .sets li:nth-child(1) select", "addressed");
    assertEquals(24, count("4 addressed"));
    browser.awaitText("#said", "c1 set to \u201ccovered\u201d in " + missing + " answers.");
    assertEquals(doubts, browser.text("#class-doubts"), "a teacher's verdicts raise no doubt");
    browser.click("#undo");
    assertEquals(missing, count("4 missing"));
    browser.click("thead th:nth-child(7) .more");
    String line = browser.text("#column .sets li:nth-child(2)");
    long times =
        Long.parseLong(line.substring(line.indexOf("found") + 6, line.indexOf(" time")).strip());
    assertTrue(times < missing, line);
    browser.choose("#column .sets li:nth-child(2) select", "partly");
    assertEquals(missing - times, count("4 missing"));
    browser.type("body", Keys.chord(Keys.CONTROL, "z"));
    assertEquals(missing, count("4 missing"));
  }

  @Test
  void whatNearlyAllOrNobodyLeavesOpenIsADoubtWithTheWayToCorrectTheQuestion() throws Exception {
    StringBuilder rows = new StringBuilder("response_id,text\n");
    for (int i = 0; i < 12; i++) {
      rows.append("s")
          .append(i)
          .append(",They hide under the stones so that no gull can catch and eat them.\n");
    }
    rows.append("none1,\nnone2,\nnone3,\n");
    Path sheet = Files.writeString(folder.resolve("doubt.csv"), rows.toString());
    Path question =
        Files.writeString(
            folder.resolve("doubt.txt"),
            "(a) Explain why the crabs hide.\n(b) Calculate the mass of the pool in kilograms.");
    Run run = Run.of("screen", question, sheet, "--out", folder.resolve("doubt"));
    assertEquals(0, run.status(), run.err());
    open("doubt/index.html");
    browser.awaitText("#class-doubts summary", "Doubt about 2 things the question asks for");
    browser.click("#class-doubts summary");
    String said = browser.text("#class-doubts");
    assertTrue(said.contains("is never open in 12 answers"), said);
    assertTrue(said.contains("is open in 12 of 12 answers"), said);
    browser.click("#class-doubts a");
    browser.awaitText("#question-view", "Is this not what the question asks?");
    browser.awaitText("#question-view", "everypart outline --to-yaml QUESTION");
    browser.awaitText("footer .judge", "Read without the reader");
  }

  @Test
  void everythingSurvivesAReloadTheFileAndTheCommand() throws Exception {
    open("report/index.html");
    read("s05", "/1");
    browser.click("#d1 input[value=addressed]");
    browser.click("#d1 .plain");
    browser.type("#n1", "You said it aloud; write it down.");
    browser.click(".demands > div > .plain");
    browser.type("#note", "See me on Friday.");
    browser.click(".done-next");
    browser.awaitText("#who", "s06");
    browser.driver().navigate().refresh();
    browser.awaitText("#said", "from last time are back");
    read("s05", "");
    browser.awaitText(".student-line", "5 things are open. You have read this one.");
    assertEquals("You said it aloud; write it down.", browser.value("#n1"));
    assertEquals("See me on Friday.", browser.value("#note"));
    assertTrue(browser.text(".progress").contains("1 of 24 read"), browser.text(".progress"));
    browser.click("#save");
    Path saved = browser.saved(folder, "corrections.json");
    JsonNode file = JSON.readTree(Files.readString(saved));
    assertEquals(
        Set.of(),
        JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012)
            .getSchema(Files.readString(Path.of("..", "docs", "schema", "corrections.schema.json")))
            .validate(file));
    assertEquals(1, file.path("responses").size());

    Run run = screen("corrected", "--corrections", saved, "--slips", "html,txt,docx");
    assertEquals(0, run.status(), run.err());
    for (String slip : List.of("slips.html", "slips/s05.txt")) {
      String text = Files.readString(folder.resolve("corrected").resolve(slip));
      assertTrue(text.contains("You said it aloud; write it down."), text);
      assertTrue(text.contains("See me on Friday."), text);
    }
    open("corrected/index.html");
    assertEquals("\u2713coveredyours\u270ehas a comment", cell("s05", 2));
    assertEquals("Undo", browser.text("#undo"));
    read("s05", "");
    browser.awaitText(".student-line", "You have read this one.");

    Run other =
        Run.of(
            "screen",
            DEMO.resolve("prompts/salt-swing.yaml"),
            DEMO.resolve("class.csv"),
            "--corrections",
            saved,
            "--out",
            folder.resolve("other"));
    assertEquals(ExitStatus.INPUT_LOST, other.status());
    assertTrue(
        other.err().contains("these corrections are for another question (\"lost-star\")"),
        other.err());
    assertEquals(
        "These corrections are for another question (\u201cpool\u201d), so nothing was changed.",
        browser.run(
            "return take({format: 'everypart-corrections', prompts: [{id: 'pool', wording: ''}],"
                + " responses: []})"));
    assertTrue(
        String.valueOf(
                browser.run(
                    "return take({format: 'everypart-corrections', responses: [{promptId:"
                        + " 'lost-star', responseId: 's01', demands: [{part: 'b', demand: 2, kind:"
                        + " 'compare'}]}]})"))
            .contains("b2 \u201ccompare\u201d"));
  }

  @Test
  void theKeyboardReadsTheClass() {
    open("report/index.html");
    browser.run("document.querySelector('#rows [tabindex=\"0\"]').focus()");
    browser.press(Keys.ARROW_DOWN);
    browser.press(Keys.ARROW_RIGHT);
    browser.press(Keys.ENTER);
    browser.awaitText("#who", "s02");
    browser.awaitFocus("d0");
    browser.press(Keys.ARROW_RIGHT);
    browser.awaitText("#who", "s03");
    browser.press(Keys.ARROW_LEFT);
    browser.awaitText("#who", "s02");
    browser.run("document.querySelector('.done-next').focus()");
    browser.press(Keys.ENTER);
    browser.awaitText("#who", "s03");
    browser.press(Keys.ENTER);
    browser.awaitText("#who", "s04");
    assertTrue(browser.text(".progress").contains("2 of 24 read"), browser.text(".progress"));
    browser.press(Keys.ESCAPE);
    browser.await(
        () -> "s04".equals(browser.run("return document.activeElement.textContent")),
        "the table, at the row that was read");
    assertEquals(
        true, browser.run("return document.getElementById('table-view').offsetParent !== null"));
  }

  @Test
  void theReadingFollowsTheTablesOrder() throws IOException {
    open("report/index.html");
    browser.click("[data-sort='open']");
    browser.click("[data-sort='open']");
    List<String> order = ids();
    browser.click("#rows tr:nth-child(3) th");
    browser.awaitText("#who", order.get(2));
    browser.click(".turn .next");
    browser.awaitText("#who", order.get(3));
    browser.awaitText(".where", "4 of 24");
    read("s03", "");
    browser.click("button.tag");
    assertEquals(
        true,
        browser.run("return document.querySelectorAll('mark.lit').length > 0"),
        "the words are lit");
    browser.run("document.activeElement.blur(); scrollTo(0, 0)");
    browser.run("document.getElementById('said').textContent = ''");
    browser.picture("reading-view.png");
  }

  @Test
  void thePrintedTableClipsNothingAndRepeatsItsHeads() throws IOException {
    open("report/index.html");
    try (PDDocument pdf = browser.printed()) {
      assertTrue(pdf.getNumberOfPages() > 1);
      PDFTextStripper stripper = new PDFTextStripper();
      StringBuilder all = new StringBuilder();
      for (int page = 1; page <= pdf.getNumberOfPages(); page++) {
        stripper.setStartPage(page);
        stripper.setEndPage(page);
        String text = stripper.getText(pdf);
        all.append(text);
        if (text.contains("s01") || text.contains("s20")) {
          assertTrue(text.contains("justify your"), "page " + page + " has no heads: " + text);
        }
      }
      String text = all.toString();
      for (int i = 1; i <= 24; i++) {
        assertTrue(text.contains(String.format(Locale.ROOT, "s%02d", i)), text);
      }
      assertTrue(text.contains("c2 explain how it"), text);
      assertFalse(text.contains("Find a name") || text.contains("Save corrections"), text);
      for (String cut : List.of("not foun\n", "partl\n")) {
        assertFalse(text.contains(cut), text);
      }
    }
    read("s02", "");
    try (PDDocument pdf = browser.printed()) {
      String text = new PDFTextStripper().getText(pdf);
      assertTrue(text.contains("s02") && text.contains("Still asked:"), text);
    }
  }

  @Test
  void axeFindsNothingInLightDarkAndPhoneWidth() throws IOException {
    for (String page : List.of("report/index.html", "report/slips.html")) {
      open(page);
      for (String hash : page.contains("index") ? List.of("#t/0", "#r/0/1", "#q/0") : List.of("")) {
        browser.run("location.hash = arguments[0]", hash);
        for (String scheme : List.of("light", "dark")) {
          for (int width : List.of(1280, 360)) {
            browser.look(width, 900, scheme);
            browser.assertAccessible(page + hash + " " + scheme + " " + width);
            browser.assertFits(page + hash + " " + width);
          }
        }
      }
    }
    open("report/index.html");
    browser.click("thead th:nth-child(4) .more");
    browser.assertAccessible("the window of a column");
    browser.open(folder.resolve("report/slips.html").toUri().toString());
    browser.picture("slips.png");
  }

  @Test
  void theStudentsPageIsAccessibleToo() throws IOException {
    Path answer = Files.writeString(folder.resolve("one.txt"), "(a) Tollops eat it.");
    Run run = Run.of("check", DEMO.resolve("prompts/lost-star.txt"), answer, "--format", "html");
    Path page = Files.writeString(folder.resolve("one.html"), run.out(), StandardCharsets.UTF_8);
    browser.open(page.toUri().toString());
    for (int width : List.of(1280, 360)) {
      browser.look(width, 900, "light");
      browser.assertAccessible("check " + width);
      browser.assertFits("check");
    }
  }

  @Test
  void noTextOfAResponseActsAsAScript() throws IOException {
    String attack =
        "</script><script>document.title = 'x'</script><img src=x onerror=\"document.title='x'\">"
            + "<style>*{display:none}</style><!--<script>";
    Path csv =
        Files.writeString(
            folder.resolve("attack.csv"),
            "response_id,class,text\n\""
                + attack.replace("\"", "\"\"")
                + "\",\""
                + attack.replace("\"", "\"\"")
                + "\",\"(a) "
                + attack.replace("\"", "\"\"")
                + "\"\n");
    Run run =
        Run.of(
            "screen", DEMO.resolve("prompts/lost-star.txt"), csv, "--out", folder.resolve("bad"));
    assertEquals(0, run.status(), run.err());
    open("bad/index.html");
    assertEquals(attack, ids().get(0));
    browser.click("#rows th");
    browser.awaitText("#who", "</script>");
    assertEquals("lost-star", browser.driver().getTitle());
    String page = Files.readString(folder.resolve("bad/index.html"));
    assertFalse(page.contains("unsafe-inline"));
    browser.run(
        "document.body.insertAdjacentHTML('beforeend', '<img src=x onerror=\"window.evil = 1\">')");
    browser.run(
        "const bad = document.createElement('script'); bad.textContent = 'window.evil = 1';"
            + "document.body.append(bad)");
    assertEquals(true, browser.run("return window.evil === undefined"));
    assertTrue(
        browser.console().toString().contains("Content Security Policy"), "the policy holds");
  }

  @Test
  void aThousandStudentsAndTheTimesAreWrittenDown() throws IOException {
    List<String> texts = new ArrayList<>(MixedSet.responses().values());
    StringBuilder sheet = new StringBuilder("response_id,text\r\n");
    for (int i = 0; i < MANY; i++) {
      sheet
          .append(String.format(Locale.ROOT, "student-%04d,\"", i))
          .append(texts.get(i % texts.size()).replace("\"", "\"\""))
          .append("\"\r\n");
    }
    Path csv = Files.writeString(folder.resolve("many.csv"), sheet);
    Run run =
        Run.of(
            "screen", DEMO.resolve("prompts/lost-star.txt"), csv, "--out", folder.resolve("many"));
    assertEquals(0, run.status(), run.err());
    open("many/index.html");
    Object opened =
        browser.run(
            "const one = performance.getEntriesByType('navigation')[0];"
                + "return one.loadEventEnd - one.startTime");
    String paint = "document.body.offsetHeight; return performance.now() - from;";
    Object filtered =
        browser.run(
            "const from = performance.now();"
                + "document.querySelector('[data-toggle=look]').click();"
                + paint);
    assertTrue(ids().size() < MANY);
    browser.click("#chips .plain");
    Object overruled =
        browser.run(
            "const from = performance.now();"
                + "step('x', current.rows.map((row) => verdictChange(row, 1, 'partly')));"
                + paint);
    assertEquals(MANY, count("1 partly"));
    Object undone = browser.run("const from = performance.now(); undo();" + paint);
    browser.await(
        () -> {
          browser.run("document.getElementById('grid').scrollTo(0, 1e9)");
          return ids().contains("student-0999");
        },
        "the last row");
    assertTrue(ids().size() < 100, "only what is near is in the page");
    assertEquals("student-0999", ids().get(ids().size() - 1));
    browser.run("document.getElementById('grid').scrollTo(0, 0)");
    browser.await(() -> ids().contains("student-0000"), "the first row again");
    Files.writeString(
        Path.of("target", "class-report.tsv"),
        String.format(
            Locale.ROOT,
            "students\t%d%nbytes\t%d%nms to open\t%s%nms to filter\t%s%nms to set a column\t%s%n"
                + "ms to undo it\t%s%n",
            MANY,
            Files.size(folder.resolve("many/index.html")),
            opened,
            filtered,
            overruled,
            undone));
  }
}
