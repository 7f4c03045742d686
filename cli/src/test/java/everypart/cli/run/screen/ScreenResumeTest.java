package everypart.cli.run.screen;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.json.JsonMapper;
import everypart.cli.Main;
import everypart.cli.Programs;
import everypart.cli.command.Run;
import everypart.cli.run.Stop;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVPrinter;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A run that is stopped midway, as by Ctrl-C or a power cut, and one that goes on from there. */
@Timeout(300)
class ScreenResumeTest {
  private static final Path DEMO = Path.of("..", "demo-data");
  private static final int ROWS = 300;
  private static final int JUDGED_BEFORE_THE_STOP = 60;

  @TempDir
  @SuppressWarnings("NullAway.Init")
  static Path folder;

  @SuppressWarnings("NullAway.Init")
  private static Path rows;

  @SuppressWarnings("NullAway.Init")
  private static Path drafts;

  /** The folder of a run that nobody stopped, once there was one. */
  private static @Nullable Path whole;

  @BeforeAll
  static void writeTheRows() throws IOException {
    rows = folder.resolve("rows.csv");
    drafts = folder.resolve("drafts.csv");
    try (CSVParser demo =
            CSVFormat.RFC4180
                .builder()
                .setHeader()
                .setSkipHeaderRecord(true)
                .get()
                .parse(Files.newBufferedReader(DEMO.resolve("study.csv")));
        CSVPrinter now = printer(rows);
        CSVPrinter before = printer(drafts)) {
      var records = demo.getRecords();
      for (int i = 0; i < ROWS; i++) {
        var record = records.get(i % records.size());
        var other = records.get((i + 1) % records.size());
        String id = String.format(Locale.ROOT, "w%04d", i);
        now.printRecord(id, record.get("prompt_id"), record.get("text"), record.get("class"));
        if (i < 100) {
          before.printRecord(id, record.get("prompt_id"), other.get("text"), "");
        }
      }
    }
  }

  /** Returns what a run without a stop wrote; it is run once for all stops. */
  private static Path whole() throws Exception {
    Path out = folder.resolve("whole");
    if (whole == null) {
      Process process = start(out);
      assertEquals(0, process.waitFor(), Files.readString(out.resolveSibling("whole.err")));
      assertFalse(Files.exists(out.resolve("unfinished")));
      assertEquals(ROWS, Files.readAllLines(out.resolve("results.jsonl")).size());
      whole = out;
    }
    return out;
  }

  private static CSVPrinter printer(Path file) throws IOException {
    return CSVFormat.RFC4180
        .builder()
        .setHeader("response_id", "prompt_id", "text", "class")
        .get()
        .print(Files.newBufferedWriter(file));
  }

  /** Starts the program as a process of its own. */
  private static Process start(Path out, String... options) throws IOException {
    List<String> words = Programs.java(Main.class);
    words.addAll(
        List.of(
            "screen",
            DEMO.resolve("prompts").toString(),
            rows.toString(),
            "--earlier",
            drafts.toString(),
            "--slips",
            "html,txt",
            "--out",
            out.toString()));
    words.addAll(List.of(options));
    return new ProcessBuilder(words)
        .redirectError(out.resolveSibling(out.getFileName() + ".err").toFile())
        .redirectOutput(ProcessBuilder.Redirect.DISCARD)
        .start();
  }

  private static List<String> lines(Path file) throws IOException {
    return Files.exists(file) ? Files.readAllLines(file, StandardCharsets.ISO_8859_1) : List.of();
  }

  /** Returns every file under a folder with its bytes. */
  private static List<String> files(Path of) throws IOException {
    List<String> files = new ArrayList<>();
    try (Stream<Path> all = Files.walk(of)) {
      for (Path file : all.filter(Files::isRegularFile).sorted().toList()) {
        files.add(of.relativize(file) + "\n" + Files.readString(file, StandardCharsets.ISO_8859_1));
      }
    }
    return files;
  }

  /** Starts a run and ends its process when some responses are judged. */
  private static Path stopped(boolean atOnce) throws Exception {
    Path out = folder.resolve(atOnce ? "killed" : "interrupted");
    Process process = start(out);
    Path results = out.resolve("unfinished").resolve("results.jsonl");
    while (process.isAlive() && lines(results).size() < JUDGED_BEFORE_THE_STOP) {
      process.waitFor(20, TimeUnit.MILLISECONDS);
    }
    assertTrue(
        process.isAlive(),
        "the run ended before it could be stopped: "
            + Files.readString(out.resolveSibling(out.getFileName() + ".err")));
    (atOnce ? process.destroyForcibly() : stop(process)).waitFor();
    return out;
  }

  private static Process stop(Process process) {
    process.destroy();
    return process;
  }

  @Tag("slow")
  @ParameterizedTest(name = "killed at once: {0}")
  @ValueSource(booleans = {false, true})
  void theResumedRunHasTheBytesOfOneThatWasNotStopped(boolean atOnce) throws Exception {
    Path out = stopped(atOnce);
    isDiscreet(out.resolve("unfinished/journal.jsonl"));
    List<String> all = Files.readAllLines(whole().resolve("results.jsonl"));
    // A program that is killed at once writes no page; its lines stay where they were written.
    Path left = atOnce ? out.resolve("unfinished") : out;
    List<String> done = Files.readAllLines(left.resolve("results.jsonl"));
    List<String> sure = atOnce ? done.subList(0, JUDGED_BEFORE_THE_STOP) : done;
    assertTrue(sure.size() >= JUDGED_BEFORE_THE_STOP && sure.size() < ROWS, "" + sure.size());
    assertEquals(all.subList(0, sure.size()), sure);
    if (!atOnce) {
      assertTrue(
          Files.readString(out.resolve("index.html"))
              .contains("the run: it was stopped after " + done.size() + " responses"));
      assertEquals(done.size() + 1, lines(out.resolve("matrix.csv")).size());
    }

    Process process = start(out, "--resume");
    String err = out.getFileName() + ".err";
    assertEquals(0, process.waitFor(), Files.readString(folder.resolve(err)));
    assertEquals(files(whole()), files(out));
    String said = Files.readString(folder.resolve(err));
    Matcher count = Pattern.compile("\\((\\d+) of the judgements made before").matcher(said);
    assertTrue(count.find(), said);
    assertTrue(Integer.parseInt(count.group(1)) >= JUDGED_BEFORE_THE_STOP, said);
  }

  private Run screen(Stop stop, boolean watched, Object... rest) {
    List<Object> words =
        new ArrayList<>(
            List.of(
                "screen",
                folder.resolve("lost-star.txt"),
                DEMO.resolve("class.csv"),
                "--bom",
                "--out"));
    words.add(folder.resolve("small"));
    words.addAll(List.of(rest));
    return Run.with("", false, false, watched, stop, words.toArray());
  }

  @Test
  void whatAnotherRunLeftInTheFolderStays() throws IOException {
    Path out = folder.resolve("shared");
    Path left = Files.createDirectories(out.resolve("unfinished")).resolve("of-a-study");
    Files.writeString(left, "kept");
    Run run =
        Run.of(
            "screen",
            DEMO.resolve("prompts/lost-star.txt"),
            DEMO.resolve("class.csv"),
            "--out",
            out);
    assertEquals(0, run.status(), run.err());
    assertEquals("kept", Files.readString(left));
  }

  @Test
  void otherSettingsPromptsOrResponsesAreNotMixed() throws IOException {
    Path question = DEMO.resolve("prompts").resolve("lost-star.txt");
    Files.copy(question, folder.resolve("lost-star.txt"));
    Stop stop = new Stop();
    stop.ask();
    Run run = screen(stop, false);
    assertEquals(3, run.status(), run.err());
    assertTrue(run.err().contains("it was stopped after 0 responses"), run.err());
    Path journal = folder.resolve("small/unfinished/journal.jsonl");
    String begun = Files.readString(journal);

    run = screen(new Stop(), false, "--newest", "--resume");
    assertEquals(2, run.status());
    assertTrue(
        run.err()
            .contains(
                "unfinished: the run that stopped there was started with another --newest, so its"
                    + " results do not fit; give the same again, or leave out --resume to start"
                    + " from the beginning."),
        run.err());
    assertEquals(begun, Files.readString(journal));

    Files.writeString(folder.resolve("lost-star.txt"), Files.readString(question) + "\n");
    run = screen(new Stop(), false, "--resume");
    assertTrue(run.err().contains("started with another prompt lost-star,"), run.err());
    Files.writeString(folder.resolve("lost-star.txt"), Files.readString(question));

    Files.writeString(journal, begun.replace("everypart (", "everypart 0 ("));
    run = screen(new Stop(), false, "--resume");
    assertTrue(run.err().contains("started with another version of the program,"), run.err());
    Files.writeString(journal, begun);

    // A line that was cut off, and one for a text that is no longer there, do no harm.
    Files.writeString(journal, begun + "{\"key\":\"0\",\"verd");
    run = screen(new Stop(), false, "--resume");
    assertEquals(0, run.status(), run.err());
    assertEquals(24, lines(folder.resolve("small/results.jsonl")).size());
    assertFalse(Files.exists(folder.resolve("small/unfinished")));

    run = screen(new Stop(), false, "--resume");
    assertEquals(0, run.status());
    assertTrue(run.err().contains("there is no run to carry on with"), run.err());
    assertFalse(run.err().contains("\u001b"), run.err());
    run = screen(new Stop(), true);
    assertTrue(run.err().contains("24 responses read"), run.err());
  }

  /** What has been judged is kept without words of the responses, ids and names of files. */
  private static void isDiscreet(Path journal) throws IOException {
    String text = Files.readString(journal);
    assertTrue(text.lines().count() > JUDGED_BEFORE_THE_STOP);
    var head = new JsonMapper().readTree(text.lines().findFirst().orElseThrow());
    assertEquals("everypart-journal", head.path("format").asText());
    assertFalse(text.contains("pipkins hide") || text.contains("tollops will"), "quoted");
    assertFalse(text.contains("w0001"), "an id");
    assertFalse(text.contains(folder.toString()), "a path");
  }
}
