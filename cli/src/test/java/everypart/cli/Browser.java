package everypart.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.BooleanSupplier;
import java.util.function.Supplier;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.openqa.selenium.By;
import org.openqa.selenium.OutputType;
import org.openqa.selenium.StaleElementReferenceException;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.logging.LogType;
import org.openqa.selenium.logging.LoggingPreferences;

/**
 * A headless Chromium for the tests of pages. The tests are left out where chromium and
 * chromedriver are not installed; {@code .ci/run} installs both.
 */
public final class Browser implements AutoCloseable {
  private static final JsonMapper JSON = new JsonMapper();
  private static final Path CHROMIUM = Path.of("/usr/bin/chromium");
  private static final Path DRIVER = Path.of("/usr/bin/chromedriver");
  private static final Duration PATIENCE = Duration.ofSeconds(60);

  /** It warns of each Chromium that is newer than the driver's library. */
  private static final Logger VERSIONS =
      Logger.getLogger("org.openqa.selenium.devtools.CdpVersionFinder");

  private final ChromeDriver driver;

  private Browser(ChromeDriver driver) {
    this.driver = driver;
  }

  /**
   * Starts a browser, or ends the test as left out.
   *
   * @param downloads where it puts what a page saves
   */
  public static Browser start(Path downloads) {
    boolean there = Files.isExecutable(CHROMIUM) && Files.isExecutable(DRIVER);
    assumeTrue(there, "chromium and chromedriver are not installed: pages are not tested");
    VERSIONS.setLevel(Level.SEVERE);
    ChromeOptions options = new ChromeOptions();
    options.setBinary(CHROMIUM.toFile());
    options.addArguments(
        "--headless=new",
        "--no-sandbox",
        "--disable-gpu",
        "--disable-dev-shm-usage",
        "--lang=en",
        "--window-size=1280,900");
    LoggingPreferences logs = new LoggingPreferences();
    logs.enable(LogType.BROWSER, Level.ALL);
    logs.enable(LogType.PERFORMANCE, Level.ALL);
    options.setCapability("goog:loggingPrefs", logs);
    ChromeDriver driver =
        new ChromeDriver(
            new ChromeDriverService.Builder().usingDriverExecutable(DRIVER.toFile()).build(),
            options);
    driver.executeCdpCommand(
        "Browser.setDownloadBehavior",
        Map.of("behavior", "allow", "downloadPath", downloads.toAbsolutePath().toString()));
    return new Browser(driver);
  }

  public ChromeDriver driver() {
    return driver;
  }

  /** Opens a page in light colours at the width of a laptop. */
  public void open(String address) {
    look(1280, 900, "light");
    driver.executeCdpCommand("Emulation.setEmulatedMedia", Map.of("media", ""));
    driver.get("about:blank");
    driver.get(address);
  }

  /** Sets the size of the window and the colours that are asked for. */
  public void look(int width, int height, String scheme) {
    driver.executeCdpCommand(
        "Emulation.setDeviceMetricsOverride",
        Map.of("width", width, "height", height, "deviceScaleFactor", 1, "mobile", false));
    driver.executeCdpCommand(
        "Emulation.setEmulatedMedia",
        Map.of("features", List.of(Map.of("name", "prefers-color-scheme", "value", scheme))));
  }

  public WebElement find(String css) {
    await(() -> !all(css).isEmpty(), css);
    return driver.findElement(By.cssSelector(css));
  }

  public List<WebElement> all(String css) {
    return driver.findElements(By.cssSelector(css));
  }

  /** Returns the text that an element shows, once it is there. */
  public String text(String css) {
    return onPageAsItIs(() -> find(css).getText());
  }

  /** Returns what each of these elements shows, all read at one moment. */
  public List<String> texts(String css) {
    Object all =
        run(
            "return Array.from(document.querySelectorAll(arguments[0]),"
                + " (one) => one.innerText.trim())",
            css);
    return ((List<?>) all).stream().map(String::valueOf).toList();
  }

  public void click(String css) {
    onPageAsItIs(
        () -> {
          WebElement element = find(css);
          driver.executeScript("arguments[0].scrollIntoView({block: 'center'})", element);
          element.click();
          return element;
        });
  }

  /** Does something again where the page was drawn anew between finding an element and using it. */
  private static <T> T onPageAsItIs(Supplier<T> doing) {
    long until = System.nanoTime() + PATIENCE.toNanos();
    while (true) {
      try {
        return doing.get();
      } catch (StaleElementReferenceException e) {
        if (System.nanoTime() > until) {
          throw e;
        }
      }
    }
  }

  /** Types into an element, once it is there. */
  public void type(String css, CharSequence... keys) {
    onPageAsItIs(
        () -> {
          WebElement element = find(css);
          element.sendKeys(keys);
          return element;
        });
  }

  /** Types into what has the focus. */
  public void press(CharSequence... keys) {
    onPageAsItIs(
        () -> {
          WebElement element = driver.switchTo().activeElement();
          element.sendKeys(keys);
          return element;
        });
  }

  /** Puts words in the place of what stands in a field. */
  public void fill(String css, String words) {
    onPageAsItIs(
        () -> {
          WebElement element = find(css);
          element.clear();
          element.sendKeys(words);
          return element;
        });
  }

  /** Returns what stands in a field, once it is there. */
  public String value(String css) {
    return String.valueOf(onPageAsItIs(() -> find(css).getDomProperty("value")));
  }

  /** Waits until the element that has the focus is the one with this id. */
  public void awaitFocus(String id) {
    await(() -> id.equals(run("return document.activeElement.id")), "the focus on " + id);
  }

  public void choose(String css, String value) {
    onPageAsItIs(
        () ->
            run(
                "arguments[0].value = arguments[1];"
                    + "arguments[0].dispatchEvent(new Event('change', {bubbles: true}))",
                find(css),
                value));
  }

  /** Runs a script; what returns nothing returns an empty text. */
  public Object run(String script, Object... arguments) {
    return Objects.requireNonNullElse(driver.executeScript(script, arguments), "");
  }

  /** Runs a script that calls its last argument when it is done. */
  public Object runUntilDone(String script, Object... arguments) {
    return Objects.requireNonNullElse(driver.executeAsyncScript(script, arguments), "");
  }

  /** Waits until something is so. */
  public void await(BooleanSupplier so, String what) {
    long until = System.nanoTime() + PATIENCE.toNanos();
    while (!so.getAsBoolean()) {
      if (System.nanoTime() > until) {
        throw new AssertionError("waited in vain for " + what + "; console: " + console());
      }
      try {
        Thread.sleep(15);
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        throw new AssertionError(e);
      }
    }
  }

  /** Waits until an element shows these words. */
  public void awaitText(String css, String words) {
    await(
        () ->
            String.valueOf(
                    run("return (document.querySelector(arguments[0]) || {}).innerText", css))
                .contains(words),
        css + " to say \"" + words + "\"");
  }

  /** Waits for a file that the page saves, and returns it. */
  public Path saved(Path folder, String name) {
    Path file = folder.resolve(name);
    await(() -> Files.exists(file), "the file " + name);
    return file;
  }

  /** Returns what stands in the browser's console, but for its advice on axe-core's canvas. */
  public List<String> console() {
    return driver.manage().logs().get(LogType.BROWSER).getAll().stream()
        .map(Object::toString)
        .filter(message -> !message.contains("Canvas2D"))
        .toList();
  }

  /** Returns the address of each request since the last time this was asked for. */
  public List<String> requests() throws IOException {
    List<String> addresses = new ArrayList<>();
    for (var entry : driver.manage().logs().get(LogType.PERFORMANCE).getAll()) {
      JsonNode message = JSON.readTree(entry.getMessage()).path("message");
      if (message.path("method").asText().equals("Network.requestWillBeSent")) {
        addresses.add(message.path("params").path("request").path("url").asText());
      }
    }
    return addresses;
  }

  /** Fails when axe-core's rules for WCAG 2.2 A and AA and its best practice are broken. */
  public void assertAccessible(String what) throws IOException {
    if (Boolean.TRUE.equals(run("return typeof axe === 'undefined'"))) {
      try (InputStream axe =
          Browser.class.getResourceAsStream(
              "/META-INF/resources/webjars/axe-core/4.6.3/axe.min.js")) {
        assertTrue(axe != null, "axe-core is not on the class path");
        run(new String(axe.readAllBytes(), StandardCharsets.UTF_8));
      }
    }
    String found =
        String.valueOf(
            driver.executeAsyncScript(
                "const done = arguments[arguments.length - 1];"
                    + "axe.run(document, {runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa',"
                    + " 'wcag22aa', 'best-practice']}).then((found) => done(JSON.stringify("
                    + "found.violations.map((one) => one.id + ': ' + one.nodes.slice(0, 3)"
                    + ".map((node) => node.html + ' ' + node.failureSummary).join(' ')))))"));
    assertEquals("[]", found, what);
  }

  /** Fails when the page is wider than the window. */
  public void assertFits(String what) {
    assertEquals(
        true,
        run("return document.documentElement.scrollWidth <= innerWidth"),
        what + " is wider than the window");
  }

  /** Returns the page as it is printed. */
  public PDDocument printed() throws IOException {
    Object data =
        driver.executeCdpCommand("Page.printToPDF", Map.of("preferCSSPageSize", true)).get("data");
    return Loader.loadPDF(Base64.getDecoder().decode(String.valueOf(data)));
  }

  /**
   * Takes a picture; with {@code -Deverypart.golden=write} it replaces the one in docs.
   *
   * @param name its name in docs, which must already be there otherwise
   */
  public void picture(String name) throws IOException {
    byte[] picture = driver.getScreenshotAs(OutputType.BYTES);
    Path file = Path.of("..", "docs", name);
    if ("write".equals(System.getProperty("everypart.golden"))) {
      Files.write(file, picture);
    }
    assertTrue(picture.length > 15_000 && Files.size(file) > 15_000, name + " is empty");
  }

  @Override
  public void close() {
    driver.quit();
  }
}
