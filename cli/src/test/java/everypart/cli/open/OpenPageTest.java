package everypart.cli.open;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.sun.net.httpserver.HttpServer;
import everypart.analyzer.coverage.CoverageAnalyzer;
import everypart.analyzer.judge.Reader;
import everypart.cli.Browser;
import everypart.lexicon.Lexicon;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Base64;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Keys;

/** The local page in a real browser: a student's visit and a teacher's. */
@Tag("slow")
class OpenPageTest {
  private static final Path DEMO = Path.of("..", "demo-data");
  private static final String ANSWER =
      """
      a) Lanternweed is somewhere for dabbets to live and pipkins lay eggs on it.
      b) I predict that there will be many more tollops after two years.
      c) A risk is that they bring too many stars.""";

  /** The same with two ways that hardly any reader overlooks. */
  private static final String WAYS =
      ANSWER.replace(
          ANSWER.lines().findFirst().orElseThrow(),
          "a) It is food for the tollops, and it also gives the pipkins a place to hide from birds,"
              + " because the fronds cover them.");

  @TempDir
  @SuppressWarnings("NullAway.Init")
  static Path folder;

  @SuppressWarnings("NullAway.Init")
  private static Browser browser;

  @SuppressWarnings("NullAway.Init")
  private static LocalServer server;

  private static final List<Throwable> FAULTS = new ArrayList<>();

  @BeforeAll
  static void start() throws IOException {
    browser = Browser.start(folder);
    server = new LocalServer(new CoverageAnalyzer(Lexicon.bundled()), FAULTS::add);
  }

  @AfterAll
  static void stop() {
    if (browser != null) {
      browser.close();
      server.close();
      assertEquals(List.of(), FAULTS);
    }
  }

  private static String question() throws IOException {
    return Files.readString(DEMO.resolve("prompts/lost-star.txt"));
  }

  /** Opens the page and reads a question as pasted. */
  private static void ask(String hash) throws IOException {
    browser.open(server.address() + hash);
    browser.run(
        "document.getElementById('question').value = arguments[0];"
            + "document.getElementById('read').click()",
        question());
    browser.await(() -> browser.all(".card").size() == 6, "six demands");
  }

  private static void write(String text) {
    browser.run(
        "const answer = document.getElementById('answer'); answer.value = arguments[0];"
            + "answer.dispatchEvent(new Event('input', {bubbles: true}))",
        text);
    browser.await(
        () ->
            String.valueOf(text.length())
                .equals(browser.run("return document.body.dataset.judged")),
        "the marks");
  }

  private static String card(String code) {
    return String.valueOf(
        browser.run(
            "return (document.querySelector('.card[data-code=\"' + arguments[0] + '\"]') || {})"
                + ".innerText",
            code));
  }

  @Test
  void aStudentsVisitFromPastedQuestionToPrint() throws IOException {
    browser.requests();
    ask("");
    browser.awaitText("#note", "The program read 6 things");
    browser.awaitText("footer .judge", "Read without the reader");
    browser.type("#answer", "b) The number of tollops will go up");
    browser.await(() -> card("b1").contains("covered"), "b1 to be covered while typing");
    assertTrue(card("b2").contains("not found"), card("b2"));
    assertTrue(card("b2").contains("Still asked: Justify your prediction."), card("b2"));
    browser.await(() -> !browser.all("#marks mark").isEmpty(), "a mark");
    browser.awaitText("#sum", "Still open: a1, b2");

    browser.click(".card[data-code='b3'] button");
    browser.choose("#edit-kind", "explain");
    browser.fill("#edit-count", "2");
    browser.click(".edit .primary");
    browser.await(() -> card("b3").contains("(2 asked for)"), "the corrected demand");
    browser.click(".card[data-code='a1'] button");
    browser.click(".edit .row button:nth-child(2)");
    browser.await(() -> browser.all(".card").size() == 5, "one demand less");
    browser.click("#said button");
    browser.await(() -> browser.all(".card").size() == 6, "it is back");
    browser.click(".part:nth-of-type(3) .adding");
    browser.choose("#edit-kind", "evaluate");
    browser.click(".edit .primary");
    browser.await(() -> browser.all(".card[data-code='c3']").size() == 1, "the added demand");
    browser.click("#save-question");
    String yaml = Files.readString(browser.saved(folder, "question.yaml"));
    assertTrue(yaml.contains("kind: evaluate") && yaml.contains("count: 2"), yaml);

    write(ANSWER);
    browser.click("#keep");
    write(ANSWER + " I think so because hardly any stars are left to eat them.");
    browser.awaitText("#drafts", "closed");
    browser.awaitText("#drafts", "Draft 1");
    browser.click("#drafts thead button");
    browser.awaitText("#old", "This is draft 1.");
    assertEquals(ANSWER, browser.value("#answer"));
    browser.click("#old-back");
    assertTrue(browser.value("#answer").endsWith("eat them."));
    try (PDDocument pdf = browser.printed()) {
      String text = new PDFTextStripper().getText(pdf);
      assertTrue(text.contains("hardly any stars") && text.contains("Still asked:"), text);
      assertFalse(text.contains("Keep this draft") || text.contains("Read the question"), text);
    }
    for (String address : browser.requests()) {
      assertTrue(
          address.startsWith(server.address())
              || address.startsWith("about:")
              || address.startsWith("blob:" + server.address().replaceAll("/[0-9a-f]+/$", "")),
          address);
    }
    assertEquals(List.of(), browser.console());
  }

  /** A reader that takes its time and finds everything addressed. */
  private static Reader slow(AtomicInteger asked) {
    return (demand, own, rest) -> {
      asked.incrementAndGet();
      try {
        Thread.sleep(150);
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
      }
      return new Reader.Opinion(
          9,
          Collections.nCopies(own.size() + rest.size(), 1.0),
          Collections.nCopies(Reader.LACKS.size(), 0.0));
    };
  }

  @Test
  void whatIsTypedGetsAFirstLookAndTheReaderFollowsInAPause() throws IOException {
    AtomicInteger asked = new AtomicInteger();
    Lexicon lexicon = Lexicon.bundled();
    try (LocalServer with =
        new LocalServer(
            new CoverageAnalyzer(lexicon, Optional.empty(), Optional.of(slow(asked))),
            new CoverageAnalyzer(lexicon),
            FAULTS::add)) {
      browser.open(with.address());
      browser.run(
          "document.getElementById('question').value = arguments[0];"
              + "document.getElementById('read').click()",
          question());
      browser.await(() -> browser.all(".card").size() == 6, "six demands");
      browser.awaitText("footer .judge", "Read with the reader");
      browser.await(
          () -> "whole".equals(browser.run("return document.body.dataset.look")), "no text");
      asked.set(0);
      browser.run(
          "delete document.body.dataset.look; window.looks = [];"
              + "new MutationObserver(() => looks.push(document.body.dataset.look"
              + " + ' ' + document.getElementById('first').hidden))"
              + ".observe(document.body, {attributes: true, attributeFilter: ['data-look']})");
      write(ANSWER);
      browser.await(
          () -> "whole".equals(browser.run("return document.body.dataset.look")), "the reader");
      assertEquals(List.of("first false", "whole true"), browser.run("return looks"));
      assertTrue(asked.get() > 0, "the reader was asked");
      assertEquals(List.of(), browser.console());
      browser.driver().get("about:blank"); // a page whose server goes away says so in the console
    }
  }

  @Test
  void theMarksAreThereSoonAfterTheLastKey() throws IOException {
    ask("");
    StringBuilder long300 = new StringBuilder();
    while (long300.toString().split("\\s+", -1).length < 300) {
      long300.append(ANSWER).append(' ');
    }
    write(long300.toString());
    List<Double> times = new ArrayList<>();
    for (int i = 0; i < 15; i++) {
      Object time =
          browser.runUntilDone(
              "const done = arguments[0]; const answer = document.getElementById('answer');"
                  + "answer.value += ' x'; delete document.body.dataset.judged;"
                  + "const from = performance.now();"
                  + "answer.dispatchEvent(new Event('input', {bubbles: true}));"
                  + "const look = () => document.body.dataset.judged"
                  + " ? done(performance.now() - from) : setTimeout(look, 4); look();");
      times.add(((Number) time).doubleValue());
    }
    times.sort(null);
    Files.writeString(
        Path.of("target", "typing.tsv"),
        String.format(
            Locale.ROOT,
            "words\t300%nms from key to marks, median\t%.0f%nms from key to marks, slowest of 15\t%.0f%n",
            times.get(times.size() / 2),
            times.get(times.size() - 1)));
  }

  private static byte[] zipped() throws IOException {
    var bytes = new java.io.ByteArrayOutputStream();
    try (ZipOutputStream zip = new ZipOutputStream(bytes)) {
      for (int i = 1; i <= 9; i++) {
        zip.putNextEntry(new ZipEntry("class/ada" + i + ".txt"));
        zip.write(WAYS.getBytes(StandardCharsets.UTF_8));
        zip.closeEntry();
      }
      zip.putNextEntry(new ZipEntry("class/odd.docx"));
      zip.write(new byte[] {1, 2, 3});
      zip.closeEntry();
    }
    return bytes.toByteArray();
  }

  /** Drops a file on the place for a class, as a hand would. */
  private static void drop(String name, byte[] bytes) {
    drop("class", name, bytes);
  }

  /** Drops a file on a place of the page. */
  private static void drop(String place, String name, byte[] bytes) {
    browser.run(
        "const bytes = Uint8Array.from(atob(arguments[2]), (one) => one.charCodeAt(0));"
            + "const data = new DataTransfer();"
            + "data.items.add(new File([bytes], arguments[1]));"
            + "document.getElementById(arguments[0]).dispatchEvent("
            + "new DragEvent('drop', {dataTransfer: data, bubbles: true, cancelable: true}))",
        place,
        name,
        Base64.getEncoder().encodeToString(bytes));
  }

  /** Takes a file that the page saved out of the folder, so that the next finds its name free. */
  private static byte[] taken(String name) throws IOException {
    Path file = browser.saved(folder, name);
    byte[] bytes = Files.readAllBytes(file);
    Files.delete(file);
    return bytes;
  }

  private static byte[] zipOf(String... namesAndTexts) throws IOException {
    var bytes = new java.io.ByteArrayOutputStream();
    try (ZipOutputStream zip = new ZipOutputStream(bytes)) {
      for (int i = 0; i < namesAndTexts.length; i += 2) {
        zip.putNextEntry(new ZipEntry(namesAndTexts[i]));
        zip.write(namesAndTexts[i + 1].getBytes(StandardCharsets.UTF_8));
        zip.closeEntry();
      }
    }
    return bytes.toByteArray();
  }

  @Test
  void aClassListAndTwoFilesOfOnePerson() throws IOException {
    ask("#teacher");
    drop(
        "list",
        "names.csv",
        "id,name\ns1,Oda Lin\ns2,Bo Mar\ns3,Ida Rue\n".getBytes(StandardCharsets.UTF_8));
    browser.awaitText("#list-said", "names.csv: 3 people.");
    byte[] zip =
        zipOf(
            "c/oda lin.txt",
            ANSWER,
            "c/Oda Lin (1).txt",
            "c) Too many stars.",
            "c/bo mar.txt",
            ANSWER);
    drop("class.zip", zip);
    browser.awaitText("#same-name", "One person seems to have handed in more than once");
    browser.awaitText(".same legend", "s1: 2 answers");
    browser.await(
        () -> browser.all(".same input").size() == 3, "with a list there is no third person");
    for (String scheme : List.of("light", "dark")) {
      for (int width : List.of(1280, 360)) {
        browser.look(width, 900, scheme);
        browser.assertAccessible("whose files " + scheme + " " + width);
        browser.assertFits("whose files " + width);
      }
    }
    browser.click(".same p:nth-of-type(1) input");
    browser.click("#same-done");
    browser.awaitText("#class-end", "2 answers were looked at.");
    browser.awaitText("#class-end", "handed in nothing: s3");
    browser.click("#open-class");
    browser.await(() -> browser.all("#rows tr").size() == 3, "a row for everyone");
    assertTrue(browser.text("#rows tr:nth-child(3)").startsWith("s3"));
    assertTrue(browser.text("#rows tr:nth-child(3)").contains("no text"));
    browser.click("#save-folder");
    byte[] saved = taken("question.zip");
    ask("#teacher");
    drop("names.zip", saved);
    browser.await(() -> browser.all("#rows tr").size() == 3, "a row for everyone again");
    ask("#teacher");
    drop("class.zip", zip);
    browser.awaitText("#same-name", "One person");
    browser.await(() -> browser.all(".same input").size() == 4, "four ways");
    browser.awaitText(".same", "They are from different people");
    browser.click(".same p:last-of-type input");
    browser.click("#same-done");
    browser.await(() -> browser.all("#rows tr").size() == 3, "three rows");
    assertEquals(List.of(), browser.console());
  }

  @Test
  void aTeachersVisitFromDroppedZipToAFolderOpenedAgain() throws IOException {
    ask("#teacher");
    drop("class.zip", zipped());
    browser.awaitText("#class-end", "9 answers were looked at.");
    browser.awaitText("#class-end", "odd.docx");
    browser.click("#open-class");
    browser.awaitText("#headline", "9 of 9 leave something open");
    browser.awaitText("footer .judge", "Read without the reader");
    browser.awaitText("#class-doubts", "Doubt about");
    browser.click("#class-doubts summary");
    browser.click("#class-doubts a");
    browser.awaitText("#question-view", "Correct what the question asks for");
    browser.await(() -> browser.all("#question-view .button").size() == 1, "the way to correct it");
    browser.run("location.hash = '#t/0'");
    browser.click("thead th:nth-child(3) .more");
    browser.choose("#column .sets li:nth-child(1) select", "missing");
    browser.awaitText("#said", "a1 set to");
    browser.driver().navigate().refresh();
    browser.awaitText("#own", "of your own");
    browser.await(() -> browser.text("#head").contains("9 open (100"), "the column");
    browser.click("#save-folder");
    byte[] saved = taken("question.zip");
    browser.open(server.address() + "#teacher");
    browser.await(
        () -> "true".equals(browser.run("return document.body.dataset.ready")), "the page");
    drop("question.zip", saved);
    browser.awaitText("#headline", "9 of 9 leave something open");
    browser.awaitText("#own", "of your own");
    browser.run("location.hash = '#q/0'");
    browser.click("#question-view .button");
    browser.awaitText("#mending", "You are correcting the question");
    browser.await(() -> browser.all(".card").size() == 6, "the question");
    browser.click(".card[data-code='c2'] button");
    browser.choose("#edit-kind", "describe");
    browser.click(".edit .primary");
    browser.click("#again");
    browser.awaitText("#own", "of your own");
    assertEquals("describe", browser.run("return current.demands[5].kind"));
    assertEquals(List.of(), browser.console());
  }

  @Test
  void theKeyboardIsEnough() throws IOException {
    browser.open(server.address());
    browser.run("document.getElementById('question').focus()");
    browser.press("Explain why the crabs hide.");
    browser.press(Keys.chord(Keys.CONTROL, Keys.ENTER));
    browser.awaitFocus("answer");
    String answer = "Because the gulls hunt them.";
    browser.press(answer);
    browser.await(() -> card("1").contains("covered"), "the verdict");
    // Each key is looked at; what is typed last draws the cards anew once more.
    browser.await(
        () ->
            String.valueOf(answer.length())
                .equals(browser.run("return document.body.dataset.judged")),
        "the whole answer");
    for (int i = 0;
        i < 12
            && !String.valueOf(browser.run("return document.activeElement.innerText"))
                .equals("Correct");
        i++) {
      browser.press(Keys.TAB);
    }
    browser.press(Keys.ENTER);
    browser.awaitFocus("edit-kind");
    browser.press(Keys.ESCAPE);
    browser.await(
        () -> "Correct".equals(browser.run("return document.activeElement.innerText")),
        "the button");
  }

  @Test
  void axeFindsNothingInLightDarkAndPhoneWidth() throws IOException {
    browser.open(server.address());
    browser.assertAccessible("the empty page");
    for (String hash : List.of("", "#teacher")) {
      ask(hash);
      if (hash.isEmpty()) {
        write(ANSWER);
        browser.click("#keep");
        write(ANSWER + " It is so because of the gulls.");
      }
      browser.click(".card[data-code='b2'] button");
      for (String scheme : List.of("light", "dark")) {
        for (int width : List.of(1280, 360)) {
          browser.look(width, 900, scheme);
          browser.assertAccessible(hash + " " + scheme + " " + width);
          browser.assertFits(hash + " " + width);
        }
      }
    }
  }

  @Test
  void aPictureForTheDocs() throws IOException {
    ask("");
    write(ANSWER);
    browser.run("document.getElementById('said').textContent = ''");
    browser.picture("student-page.png");
  }

  /** A page of another origin knows the address by treason; it can still neither read nor post. */
  @Test
  void anotherOriginNeitherReadsNorPosts() throws IOException {
    HttpServer evil =
        HttpServer.create(
            new InetSocketAddress(InetAddress.getByAddress(new byte[] {127, 0, 0, 1}), 0), 0);
    evil.createContext(
        "/",
        exchange -> {
          byte[] page = "<!doctype html><title>evil</title>".getBytes(StandardCharsets.UTF_8);
          exchange.getResponseHeaders().set("Content-Type", "text/html");
          exchange.sendResponseHeaders(200, page.length);
          exchange.getResponseBody().write(page);
          exchange.close();
        });
    evil.start();
    try {
      browser.driver().get("http://127.0.0.1:" + evil.getAddress().getPort() + "/");
      String tried =
          "const done = arguments[1]; const said = [];"
              + "const attempt = (name, options) => fetch(arguments[0] + 'prompt', options)"
              + ".then((answer) => answer.type === 'opaque' ? 'opaque' : answer.text())"
              + ".then((text) => said.push(name + ' ' + text), () => said.push(name + ' failed'));"
              + "Promise.all([attempt('read', {}), attempt('post', {method: 'POST', body: '{}'}),"
              + "attempt('blind', {method: 'POST', mode: 'no-cors', body: '{}'})])"
              + ".then(() => done(said.sort()))";
      Object said = browser.runUntilDone(tried, server.address());
      assertTrue(String.valueOf(said).contains("post failed"), String.valueOf(said));
      assertTrue(String.valueOf(said).contains("read failed"), String.valueOf(said));
      Object framed =
          browser.runUntilDone(
              "const done = arguments[1]; const frame = document.createElement('iframe');"
                  + "frame.src = arguments[0]; frame.onload = () => {"
                  + "try { done(frame.contentDocument ? 'seen' : 'shut'); }"
                  + "catch (error) { done('shut'); } }; document.body.append(frame)",
              server.address());
      assertEquals("shut", framed);
      assertFalse(browser.console().isEmpty(), "the browser tells of the refusals");
    } finally {
      evil.stop(0);
    }
  }
}
