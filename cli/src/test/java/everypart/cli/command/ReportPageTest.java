package everypart.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SpecVersion;
import java.io.File;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.logging.Level;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.OutputType;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.logging.LogType;
import org.openqa.selenium.logging.LoggingPreferences;

/**
 * The report of a class set in a real browser, as a teacher uses it. Accessibility is checked by
 * axe-core's rules for WCAG 2.2 A and AA. Left out where chromium and chromedriver are not
 * installed; {@code .ci/run} installs both. With {@code -Deverypart.golden=write} the picture in
 * docs is taken anew.
 */
class ReportPageTest {
  private static final JsonMapper JSON = new JsonMapper();
  private static final Path DEMO = Path.of("..", "demo-data");
  private static final Path BROWSER = Path.of("/usr/bin/chromium");
  private static final Path DRIVER = Path.of("/usr/bin/chromedriver");
  private static final int MANY = 1000;

  @TempDir
  @SuppressWarnings("NullAway.Init")
  static Path folder;

  @SuppressWarnings("NullAway.Init")
  private static ChromeDriver browser;

  @BeforeAll
  static void start() throws IOException {
    boolean there = Files.isExecutable(BROWSER) && Files.isExecutable(DRIVER);
    assumeTrue(there, "chromium and chromedriver are not installed: the page is not tested");
    ChromeOptions options = new ChromeOptions();
    options.setBinary(BROWSER.toFile());
    options.addArguments(
        "--headless=new",
        "--no-sandbox",
        "--disable-gpu",
        "--disable-dev-shm-usage",
        "--lang=en",
        "--window-size=1280,1000");
    LoggingPreferences logs = new LoggingPreferences();
    logs.enable(LogType.BROWSER, Level.ALL);
    options.setCapability("goog:loggingPrefs", logs);
    File driver = DRIVER.toFile();
    browser =
        new ChromeDriver(
            new ChromeDriverService.Builder().usingDriverExecutable(driver).build(), options);
    Run run =
        Run.of(
            "screen",
            DEMO.resolve("prompts/lost-star.txt"),
            DEMO.resolve("class.csv"),
            "--slips",
            "html",
            "--out",
            folder.resolve("report"));
    assertEquals(0, run.status(), run.err());
  }

  @AfterAll
  static void stop() {
    if (browser != null) {
      browser.quit();
    }
  }

  private static void open(String name) {
    browser.executeCdpCommand("Emulation.setEmulatedMedia", Map.of("media", ""));
    browser.get(folder.resolve(name).toUri().toString());
  }

  @AfterEach
  void theConsoleIsQuiet() {
    assertEquals(
        List.of(),
        browser.manage().logs().get(LogType.BROWSER).getAll().stream()
            .map(Object::toString)
            // axe-core measures contrast on a canvas, and the browser has advice for it
            .filter(message -> !message.contains("Canvas2D"))
            .toList());
  }

  private static WebElement find(String css) {
    return browser.findElement(By.cssSelector(css));
  }

  private static void click(WebElement element) {
    browser.executeScript("arguments[0].scrollIntoView({block: 'center'})", element);
    element.click();
  }

  /** Follows the link to a student; the page opens the place a moment after the address changed. */
  private static WebElement openStudent(String id) {
    click(browser.findElement(By.linkText(id)));
    browser.executeAsyncScript(
        "const done = arguments[0];"
            + "const look = () => document.querySelector('.student[open]')"
            + " ? done() : setTimeout(look, 20); look();");
    return find(".student[open]");
  }

  private static List<String> shown() {
    return browser.findElements(By.cssSelector(".matrix tbody tr:not([hidden]) th a")).stream()
        .map(WebElement::getText)
        .toList();
  }

  private static void choose(WebElement select, String value) {
    click(select.findElement(By.cssSelector("option[value='" + value + "']")));
  }

  @Test
  void theMatrixIsSortedAndFiltered() {
    open("report/index.html");
    List<String> before = shown();
    assertEquals(24, before.size());
    click(find(".matrix thead th:nth-child(2) button"));
    List<Integer> open = new ArrayList<>();
    browser
        .findElements(By.cssSelector(".matrix tbody td.n"))
        .forEach(cell -> open.add(Integer.parseInt(cell.getText())));
    assertEquals(open.stream().sorted().toList(), open);
    assertEquals("ascending", find(".matrix thead th:nth-child(2)").getDomAttribute("aria-sort"));
    click(find(".matrix thead th:nth-child(1) button"));
    assertEquals(before, shown());

    choose(find(".tools select"), "empty");
    assertEquals(List.of("s05"), shown());
    for (String filter : List.of("look", "part2", "ground2")) {
      choose(find(".tools select"), filter);
      assertTrue(shown().size() < 24, filter);
      assertEquals(shown().size() + " of 24 shown", find(".tools [role=status]").getText(), filter);
    }
    choose(find(".tools select"), "");
    find(".tools input").sendKeys("s1");
    assertEquals(10, shown().size());
  }

  @Test
  void aVerdictIsOverruledSavedAndAppliedByTheCommand() throws Exception {
    open("report/index.html");
    browser.executeCdpCommand(
        "Browser.setDownloadBehavior",
        Map.of("behavior", "allow", "downloadPath", folder.toAbsolutePath().toString()));
    WebElement student = openStudent("s05");
    assertEquals("s05", student.findElement(By.tagName("strong")).getText());
    String count = find("tr[data-id=s05] td.n").getText();
    choose(student.findElement(By.cssSelector("li[data-part=b] select")), "addressed");
    assertEquals(
        Integer.parseInt(count) - 1, Integer.parseInt(find("tr[data-id=s05] td.n").getText()));
    assertTrue(find("tr[data-id=s05]").getText().contains("yours"));
    click(student.findElement(By.cssSelector(".read input")));
    assertTrue(find(".save").getText().contains("1 verdict of your own, 1 response read"));
    click(find(".save button"));
    Path saved = folder.resolve("corrections.json");
    for (int i = 0; i < 100 && !Files.exists(saved); i++) {
      Thread.sleep(50);
    }
    JsonNode file = JSON.readTree(Files.readString(saved));
    assertEquals(
        Set.of(),
        JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012)
            .getSchema(Files.readString(Path.of("..", "docs", "schema", "corrections.schema.json")))
            .validate(file));
    assertEquals(1, file.path("responses").size());
    Run run =
        Run.of(
            "screen",
            DEMO.resolve("prompts/lost-star.txt"),
            DEMO.resolve("class.csv"),
            "--corrections",
            saved,
            "--out",
            folder.resolve("corrected"));
    assertEquals(0, run.status(), run.err());
    open("corrected/index.html");
    assertTrue(find("tr[data-id=s05]").getText().contains("yours"));
    assertEquals("true", find(".student[data-read=true]").getDomAttribute("data-read"));
  }

  @Test
  void theKeyboardReachesAStudent() {
    open("report/index.html");
    browser.executeScript("document.querySelector('.matrix tbody a').focus()");
    browser.switchTo().activeElement().sendKeys(Keys.ENTER);
    // The page moves the focus when the address has changed, a moment after the key.
    browser.executeAsyncScript(
        "const done = arguments[0];"
            + "const look = () => document.activeElement.tagName === 'SUMMARY'"
            + " ? done() : setTimeout(look, 20); look();");
    assertEquals("summary", browser.switchTo().activeElement().getTagName());
    assertTrue(find(".student[open]").isDisplayed());
  }

  @Test
  void thePrintedPageHoldsTheQuestionAndNoControls() throws IOException {
    open("report/index.html");
    openStudent("s01");
    Object data = browser.executeCdpCommand("Page.printToPDF", Map.of()).get("data");
    try (PDDocument pdf = Loader.loadPDF(Base64.getDecoder().decode(String.valueOf(data)))) {
      String text = new PDFTextStripper().getText(pdf);
      assertTrue(text.contains("Share open") && text.contains("s24"), text);
      assertTrue(text.contains("Tollops eat the young lanternweed"), text);
      assertFalse(text.contains("Name contains") || text.contains("Your verdict on"), text);
    }
  }

  @Test
  void axeFindsNoViolationInLightDarkAndPhoneWidth() throws IOException {
    for (String page : List.of("report/index.html", "report/slips.html")) {
      for (String scheme : List.of("light", "dark")) {
        for (int width : List.of(1280, 360)) {
          browser.executeCdpCommand(
              "Emulation.setDeviceMetricsOverride",
              Map.of("width", width, "height", 900, "deviceScaleFactor", 1, "mobile", false));
          open(page);
          browser.executeCdpCommand(
              "Emulation.setEmulatedMedia",
              Map.of("features", List.of(Map.of("name", "prefers-color-scheme", "value", scheme))));
          browser.executeScript(
              "document.querySelectorAll('details.question, .student:nth-of-type(-n+4)')"
                  + ".forEach((one) => { one.open = true; })");
          assertEquals("[]", violations(), page + " " + scheme + " " + width);
          Object fits =
              browser.executeScript(
                  "return document.documentElement.scrollWidth <= arguments[0]", width);
          assertEquals(true, fits, page + " is wider than " + width);
        }
      }
    }
    browser.executeCdpCommand("Emulation.clearDeviceMetricsOverride", Map.of());
  }

  private static String violations() throws IOException {
    try (InputStream axe =
        ReportPageTest.class.getResourceAsStream(
            "/META-INF/resources/webjars/axe-core/4.6.3/axe.min.js")) {
      assertTrue(axe != null, "axe-core is not on the class path");
      browser.executeScript(new String(axe.readAllBytes(), StandardCharsets.UTF_8));
    }
    return String.valueOf(
        browser.executeAsyncScript(
            "const done = arguments[arguments.length - 1];"
                + "axe.run(document, {runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa',"
                + " 'wcag22aa', 'best-practice']}).then((found) => done(JSON.stringify("
                + "found.violations.map((one) => one.id + ': ' + one.nodes.slice(0, 3)"
                + ".map((node) => node.html + ' ' + node.failureSummary).join(' ')))))"));
  }

  @Test
  void aThousandStudentsOpenAndTheTimeIsWrittenDown() throws IOException {
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
    browser.executeCdpCommand("Performance.enable", Map.of());
    open("many/index.html");
    assertEquals(MANY, browser.findElements(By.cssSelector(".matrix tbody tr")).size());
    double script = metric("ScriptDuration");
    double task = metric("TaskDuration");
    click(find(".matrix thead th:nth-child(2) button"));
    choose(find(".tools select"), "look");
    double use = metric("ScriptDuration") - script;
    Files.writeString(
        Path.of("target", "class-report.tsv"),
        String.format(
            Locale.ROOT,
            "students\t%d%nbytes\t%d%nscript seconds to open\t%.3f%nall seconds to open\t%.3f%n"
                + "script seconds to sort and filter\t%.3f%n",
            MANY,
            Files.size(folder.resolve("many/index.html")),
            script,
            task,
            use));
  }

  private static double metric(String name) throws IOException {
    JsonNode metrics =
        JSON.readTree(
            JSON.writeValueAsString(
                browser.executeCdpCommand("Performance.getMetrics", Map.of()).get("metrics")));
    for (JsonNode metric : metrics) {
      if (metric.path("name").asText().equals(name)) {
        return metric.path("value").asDouble();
      }
    }
    throw new IOException("no metric " + name);
  }

  @Test
  void thePictureInTheDocsIsOfThisPage() throws IOException {
    open("report/index.html");
    browser.executeScript("document.querySelector('.bars').scrollIntoView()");
    byte[] picture = browser.getScreenshotAs(OutputType.BYTES);
    Path file = Path.of("..", "docs", "class-report.png");
    if ("write".equals(System.getProperty("everypart.golden"))) {
      Files.write(file, picture);
    }
    assertTrue(picture.length > 20_000 && Files.size(file) > 20_000, "the picture is empty");
  }
}
