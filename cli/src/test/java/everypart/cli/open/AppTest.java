package everypart.cli.open;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.cli.Browser;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.junit.jupiter.api.io.TempDir;

/**
 * The app as it is installed, with no Java but its own: {@code -Deverypart.app=FOLDER} names the
 * folder that holds {@code bin/everypart}.
 */
@EnabledIfSystemProperty(named = "everypart.app", matches = ".+")
class AppTest {
  private static final long LARGEST = 120_000_000;

  private final Path app = Path.of(System.getProperty("everypart.app", "")).toAbsolutePath();

  @Test
  void itIsSmall() throws IOException {
    long size = 0;
    try (Stream<Path> files = Files.walk(app)) {
      for (Path file : files.filter(Files::isRegularFile).toList()) {
        size += Files.size(file);
      }
    }
    assertTrue(size < LARGEST, size + " bytes");
  }

  @Test
  void itOpensThePageWithoutAnyOtherJavaAndReadsWithTheReader(@TempDir Path folder)
      throws IOException, InterruptedException {
    ProcessBuilder call =
        new ProcessBuilder(app.resolve("bin/everypart").toString(), "open", "--no-browser")
            .redirectError(folder.resolve("messages").toFile());
    call.environment().clear();
    call.environment().put("PATH", "/nowhere");
    call.environment().put("HOME", folder.toString());
    Process started = call.start();
    Browser browser = Browser.start(folder);
    try (BufferedReader out =
        new BufferedReader(
            new InputStreamReader(started.getInputStream(), StandardCharsets.UTF_8))) {
      String ready = out.readLine();
      assertNotNull(ready, () -> read(folder.resolve("messages")));
      browser.open(ready.substring(ready.lastIndexOf(' ') + 1));
      browser.run(
          "document.getElementById('question').value = arguments[0];"
              + "document.getElementById('read').click()",
          Files.readString(Path.of("..", "demo-data", "prompts", "lost-star.txt")));
      browser.await(() -> browser.all(".card").size() == 6, "six demands");
      browser.find("#answer").sendKeys("b) The number of tollops will go up");
      browser.awaitText(".card[data-code='b1']", "covered");
      browser.await(
          () -> "whole".equals(browser.run("return document.body.dataset.look")), "the reader");
      browser.awaitText("footer .judge", "Read with the reader");
      assertEquals("", read(folder.resolve("messages")));
    } finally {
      browser.close();
      started.destroy();
      assertTrue(started.waitFor(20, TimeUnit.SECONDS), "it ends when asked to");
    }
  }

  private static String read(Path file) {
    try {
      return Files.readString(file);
    } catch (IOException e) {
      return e.toString();
    }
  }
}
