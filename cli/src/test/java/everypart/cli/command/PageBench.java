package everypart.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.analyzer.coverage.CoverageAnalyzer;
import everypart.cli.Browser;
import everypart.cli.open.LocalServer;
import everypart.lexicon.Lexicon;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * How quick the pages are: not one of the usual tests, since its name does not say Test. {@code
 * docs/performance.md} has the call and the figures. Each time runs from the key or click to the
 * frame that shows what came of it.
 *
 * <p>{@code -Deverypart.address=...} measures typing in a running {@code everypart open
 * --no-browser}, as in an app with its reader; without it, in a server of its own that judges
 * without the reader. {@code -Deverypart.students=10000} measures the class page alone, with so
 * many students instead of 1000.
 */
class PageBench {
  private static final Path DEMO = Path.of("..", "demo-data");
  private static final int TIMES = 40;
  private static final int OPENINGS = 9;
  private static final int FEW = 100;
  private static final int MANY = Integer.getInteger("everypart.students", 1000);
  private static final String SHOWN =
      "requestAnimationFrame(() => setTimeout(() => done(performance.now() - from)));";

  @TempDir
  @SuppressWarnings("NullAway.Init")
  static Path folder;

  /** What was measured some times over. */
  private record Measured(String what, List<Double> times) {
    Measured {
      times = times.stream().sorted().toList();
    }

    double median() {
      return times.get(times.size() / 2);
    }

    String row(Measured base) {
      return String.format(
          Locale.ROOT,
          "%-44s %8.0f %8.0f %8.2f%n",
          what,
          median(),
          times.get(times.size() - 1),
          median() / base.median());
    }
  }

  private final StringBuilder table =
      new StringBuilder(
          String.format(
              Locale.ROOT, "%-44s %8s %8s %8s%n", "ms", "median", "slowest", "over base"));

  private static List<Double> times(Browser browser, int count, String script) {
    List<Double> times = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      times.add(
          ((Number) browser.runUntilDone("const done = arguments[arguments.length - 1];" + script))
              .doubleValue());
    }
    return times;
  }

  private static String text(int words) throws IOException {
    StringBuilder text = new StringBuilder();
    List<String> answers = new ArrayList<>(MixedSet.responses().values());
    for (int i = 0; text.toString().split("\\s+", -1).length < words; i++) {
      text.append(answers.get(i % answers.size())).append('\n');
    }
    return String.join(" ", List.of(text.toString().split("\\s+", -1)).subList(0, words));
  }

  private static List<Measured> typing(Browser browser, String address, int words)
      throws IOException {
    browser.open(address);
    browser.run(
        "document.getElementById('question').value = arguments[0];"
            + "document.getElementById('read').click()",
        Files.readString(DEMO.resolve("prompts/lost-star.txt")));
    browser.await(() -> browser.all(".card").size() == 6, "six demands");
    String type =
        "delete document.body.dataset.judged; const from = performance.now();"
            + "answer.dispatchEvent(new Event('input', {bubbles: true}));"
            + "const look = () => document.body.dataset.judged ? "
            + SHOWN.replace(";", "")
            + " : setTimeout(look, 2); look();";
    browser.run("document.getElementById('answer').value = arguments[0]", text(words));
    String more = "const answer = document.getElementById('answer'); answer.value += ' so';" + type;
    times(browser, TIMES / 4, more); // the first keys pay for code that has just been started
    List<Measured> measured = new ArrayList<>();
    measured.add(new Measured("key to marks, " + words + " words", times(browser, TIMES, more)));
    if (Boolean.TRUE.equals(browser.run("return data.firstLook"))) {
      String whole =
          more.replace("dataset.judged ?", "dataset.look === 'whole' ?")
              .replace("dataset.judged;", "dataset.look;");
      measured.add(
          new Measured(
              "key to the reader's marks, " + words + " words", times(browser, OPENINGS, whole)));
    }
    return measured;
  }

  private static Path report(int students) throws IOException {
    List<String> texts = new ArrayList<>(MixedSet.responses().values());
    StringBuilder sheet = new StringBuilder("response_id,text\r\n");
    for (int i = 0; i < students; i++) {
      sheet
          .append(String.format(Locale.ROOT, "student-%04d,\"", i))
          .append(texts.get(i % texts.size()).replace("\"", "\"\""))
          .append("\"\r\n");
    }
    Path csv = Files.writeString(folder.resolve(students + ".csv"), sheet);
    Path out = folder.resolve("report" + students);
    Run run = Run.of("screen", DEMO.resolve("prompts/lost-star.txt"), csv, "--out", out);
    assertEquals(0, run.status(), run.err());
    return out.resolve("index.html");
  }

  private static List<Measured> page(Browser browser, int students) throws IOException {
    String address = report(students).toUri().toString();
    List<Double> opened = new ArrayList<>();
    List<Double> waited = new ArrayList<>();
    for (int i = 0; i < OPENINGS; i++) {
      long start = System.nanoTime();
      browser.open(address);
      browser.run(
          "if (document.querySelectorAll('#rows tr').length === 0) throw new Error('no row')");
      waited.add((System.nanoTime() - start) / 1e6);
      opened.add(
          ((Number)
                  browser.run(
                      "const one = performance.getEntriesByType('navigation')[0];"
                          + "return one.loadEventEnd - one.startTime"))
              .doubleValue());
    }
    String click = "const from = performance.now(); document.querySelector('%s').click();" + SHOWN;
    List<Double> filtered =
        times(browser, TIMES, String.format(Locale.ROOT, click, "[data-toggle=look]"));
    List<Double> cell =
        times(
            browser,
            TIMES,
            "const from = performance.now(); const row = current.rows[3];"
                + "step('x', [verdictChange(row, 1, row.v[1] === 'partly' ? 'missing' : 'partly')]);"
                + SHOWN);
    List<Double> column =
        times(
            browser,
            TIMES,
            "const from = performance.now();"
                + "const next = current.rows[0].v[1] === 'partly' ? 'missing' : 'partly';"
                + "step('x', current.rows.map((row) => verdictChange(row, 1, next)));"
                + SHOWN);
    List<Double> undone = times(browser, TIMES, "const from = performance.now(); undo();" + SHOWN);
    browser.run("document.getElementById('grid').scrollTo(0, 1e9)");
    browser.await(
        () ->
            browser
                .text("#rows tr:last-child .id")
                .endsWith("-" + String.format(Locale.ROOT, "%04d", students - 1)),
        "the last student");
    List<Double> atEnd =
        times(
            browser,
            TIMES,
            "const from = performance.now();"
                + "const next = current.rows[0].v[1] === 'partly' ? 'missing' : 'partly';"
                + "step('x', current.rows.map((row) => verdictChange(row, 1, next)));"
                + SHOWN);
    String of = ", " + students + " students";
    return List.of(
        new Measured("open the class page" + of, opened),
        new Measured("the same, asked for to rows found" + of, waited),
        new Measured("filter" + of, filtered),
        new Measured("overrule a cell" + of, cell),
        new Measured("overrule a column" + of, column),
        new Measured("undo it" + of, undone),
        new Measured("overrule a column at its end" + of, atEnd));
  }

  @Test
  void measure() throws IOException {
    String address = System.getProperty("everypart.address", "");
    boolean pagesAlone = Integer.getInteger("everypart.students") != null;
    try (Browser browser = Browser.start(folder);
        LocalServer own =
            new LocalServer(
                new CoverageAnalyzer(Lexicon.bundled()),
                fault -> {
                  throw new AssertionError(fault);
                })) {
      String at = address.isEmpty() ? own.address() : address;
      List<Measured> few = pagesAlone ? List.of() : typing(browser, at, 30);
      List<Measured> many = pagesAlone ? List.of() : typing(browser, at, 300);
      for (int i = 0; i < few.size(); i++) {
        table.append(few.get(i).row(few.get(i))).append(many.get(i).row(few.get(i)));
      }
      if (address.isEmpty()) {
        List<Measured> small = page(browser, FEW);
        List<Measured> large = page(browser, MANY);
        for (int i = 0; i < small.size(); i++) {
          table.append(small.get(i).row(small.get(i))).append(large.get(i).row(small.get(i)));
        }
      }
    }
    Path file = Path.of("target", address.isEmpty() ? "pages.txt" : "pages-at-address.txt");
    Files.writeString(file, table);
    assertTrue(table.length() > 0);
    System.out.print(table);
  }
}
