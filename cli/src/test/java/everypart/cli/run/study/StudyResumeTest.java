package everypart.cli.run.study;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.cli.Main;
import everypart.cli.Programs;
import everypart.cli.command.Run;
import everypart.cli.report.StudyLog;
import everypart.cli.run.ExitStatus;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Interrupted studies that are gone on with, and studies repeated from their logs. */
final class StudyResumeTest {
  private static final Path DEMO = Path.of("..", "demo-data");
  private static final List<String> TABLES = List.of("results.jsonl", "demands.csv");
  private static final Object[] DESIGN = {
    "--by", "class", "--cluster", "student", "--writer", "student", "--draft", "draft"
  };

  @TempDir
  @SuppressWarnings("NullAway.Init")
  Path folder;

  private Path prompts = Path.of("");
  private Path responses = Path.of("");
  private Path lexicon = Path.of("");

  /** Copies the demo files, so that a test can change them, and adds rows that are lost. */
  @BeforeEach
  void inputs() throws IOException {
    prompts = Files.createDirectory(folder.resolve("prompts"));
    try (var files = Files.list(DEMO.resolve("prompts"))) {
      for (Path file : files.toList()) {
        Files.copy(file, prompts.resolve(file.getFileName()));
      }
    }
    lexicon = Files.createDirectory(folder.resolve("words"));
    Files.copy(
        DEMO.resolve("economics/lexicon/concepts-economics.yaml"),
        lexicon.resolve("concepts-economics.yaml"));
    String demo = Files.readString(DEMO.resolve("study.csv"));
    String rows = demo.substring(demo.indexOf('\n') + 1);
    responses =
        Files.writeString(
            folder.resolve("responses.csv"),
            demo
                + "s01,lost-star,s01,east,1,English,\"an id taken twice, \u00fcber"
                + " \"\"quoted\"\"\"\n"
                + "u1,no-such-prompt,s01,east,1,English,lost\n"
                + ",lost-star,s01,east,1,English,no id\n"
                + rows.replaceAll("(?m)^s(\\d\\d)", "=v$1")
                + "u2,no-such-prompt,s01,east,1,English,lost at the end\n");
  }

  private List<Object> words(Path out, Object... more) {
    List<Object> words =
        new ArrayList<>(
            List.of("study", "--prompts", prompts, "--responses", responses, "--out", out));
    words.addAll(Arrays.asList(DESIGN));
    words.addAll(Arrays.asList(more));
    return words;
  }

  private Run study(Path out, Object... more) {
    return Run.of(words(out, more).toArray());
  }

  /** Returns the bytes of each file of a folder, as Latin-1 so that they compare as text. */
  private static Map<String, String> files(Path folder) throws IOException {
    Map<String, String> files = new TreeMap<>();
    try (var found = Files.walk(folder)) {
      for (Path file : found.filter(Files::isRegularFile).toList()) {
        if (file.endsWith(".everypart")) {
          continue; // the list of what was written, which a folder made by hand lacks
        }
        files.put(
            folder.relativize(file).toString(),
            new String(Files.readAllBytes(file), StandardCharsets.ISO_8859_1));
      }
    }
    return files;
  }

  /**
   * Makes a folder look as if its run had been killed with so many bytes of each table written.
   *
   * @param zip what zipping adds to the names of the tables
   */
  private void interrupt(Path whole, Path out, String zip, int results, int demands)
      throws IOException {
    Files.createDirectories(out.resolve("unfinished"));
    int[] kept = {results, demands};
    for (int table = 0; table < kept.length; table++) {
      byte[] bytes = Files.readAllBytes(whole.resolve(TABLES.get(table) + zip));
      Files.write(
          out.resolve("unfinished").resolve(TABLES.get(table) + zip),
          Arrays.copyOf(bytes, Math.min(bytes.length, kept[table])));
    }
    // The note of a run is its log before anything came of it.
    var log = StudyLog.read(Files.readString(whole.resolve("study.log.json"))).orElseThrow();
    var shard = log.shard();
    var note =
        new StudyLog(
            log.program(),
            log.settings(),
            log.inputs(),
            shard,
            log.whole().rows(),
            List.of(),
            List.of());
    Files.writeString(out.resolve("unfinished/asked.json"), note.json());
  }

  private void resumesFromEverywhere(String zip, Object... more) throws IOException {
    Path whole = folder.resolve("whole");
    int status = study(whole, more).status();
    Map<String, String> expected = files(whole);
    int results = (int) Files.size(whole.resolve(TABLES.get(0) + zip));
    int demands = (int) Files.size(whole.resolve(TABLES.get(1) + zip));
    var random = new SplittableRandom(4);
    List<int[]> cuts = new ArrayList<>(List.of(new int[] {0, 0}, new int[] {results, demands}));
    for (int cut = 0; cut < 3; cut++) {
      cuts.add(new int[] {random.nextInt(results), random.nextInt(demands)});
    }
    int copied = 0;
    for (int[] cut : cuts) {
      Path out = folder.resolve("cut-" + cut[0] + "-" + cut[1]);
      interrupt(whole, out, zip, cut[0], cut[1]);
      List<Object> resumed = new ArrayList<>(Arrays.asList(more));
      resumed.addAll(List.of("--resume", "--threads", 1 + cut[0] % 4));
      Run run = study(out, resumed.toArray());
      assertEquals(status, run.status(), run.err());
      assertEquals(expected, files(out), "cut at " + Arrays.toString(cut));
      copied += run.err().contains("taken over from the interrupted run") ? 1 : 0;
    }
    assertTrue(copied >= 3, "results were copied in " + copied + " runs only");
  }

  @Test
  void aRunCutOffAnywhereEndsInTheSameBytes() throws IOException {
    resumesFromEverywhere("");
  }

  @Test
  void aShareCutOffAnywhereEndsInTheSameBytes() throws IOException {
    resumesFromEverywhere("", "--shard", "2/3", "--quick", "--least-words", "40");
  }

  @Test
  void zippedTablesCutOffAnywhereEndInTheSameBytes() throws IOException {
    Path whole = folder.resolve("whole");
    study(whole, "--gzip");
    Map<String, String> expected = files(whole);
    for (int cut : new int[] {0, 5, 400, 1500, 1 << 20}) {
      Path out = folder.resolve("cut-" + cut);
      interrupt(whole, out, ".gz", cut, cut);
      Run run = study(out, "--gzip", "--resume");
      assertEquals(ExitStatus.INPUT_LOST, run.status(), run.err());
      assertEquals(expected, files(out), "cut at " + cut);
    }
  }

  @Test
  void aTableWithDamageInItsMiddleIsJudgedAnewFromThere() throws IOException {
    Path whole = folder.resolve("whole");
    study(whole);
    Path out = folder.resolve("out");
    interrupt(whole, out, "", 1 << 20, 1 << 20);
    Path table = out.resolve("unfinished/results.jsonl");
    byte[] bytes = Files.readAllBytes(table);
    Arrays.fill(bytes, bytes.length / 2, bytes.length / 2 + 4096, (byte) 0);
    Files.write(table, bytes);
    study(out, "--resume");
    assertEquals(files(whole), files(out));
  }

  @Test
  void aRunInterruptedAfterItsTablesWereWholeJudgesNothingAnew() throws IOException {
    Path whole = folder.resolve("whole");
    study(whole);
    Map<String, String> expected = files(whole);
    var log = StudyLog.read(Files.readString(whole.resolve("study.log.json"))).orElseThrow();
    var tables = log.outputs().stream().filter(output -> TABLES.contains(output.name())).toList();
    Files.writeString(
        Files.createDirectory(whole.resolve("unfinished")).resolve("asked.json"),
        log.whole().wrote(tables).json());
    Files.delete(whole.resolve("study.log.json"));
    Files.delete(whole.resolve("report.html"));
    Run run = study(whole, "--resume");
    assertTrue(run.err().contains("121 results were taken over"), run.err());
    assertEquals(expected, files(whole));
  }

  /** The program in a process of its own, killed while it writes, and again while it goes on. */
  @Tag("slow")
  @ParameterizedTest(name = "{0} threads")
  @ValueSource(ints = {1, 4})
  void aKilledProcessIsGoneOnWith(int threads) throws IOException, InterruptedException {
    String demo = Files.readString(DEMO.resolve("study.csv"));
    String rows = demo.substring(demo.indexOf('\n') + 1);
    StringBuilder many = new StringBuilder(demo);
    for (int copy = 0; copy < 8; copy++) {
      many.append(rows.replaceAll("(?m)^s(\\d\\d)", "c" + copy + "-$1"));
    }
    Files.writeString(responses, many);
    Path whole = folder.resolve("whole");
    assertEquals(ExitStatus.DONE, study(whole).status());
    Path out = folder.resolve("out");
    for (Object[] more : new Object[][] {{}, {"--resume"}}) {
      List<Object> words = words(out, "--threads", threads);
      words.addAll(Arrays.asList(more));
      killed(words, out);
    }
    assertFalse(Files.exists(out.resolve("study.log.json")), "a killed run has no log");
    Run run = study(out, "--resume", "--threads", threads);
    assertEquals(ExitStatus.DONE, run.status(), run.err());
    assertTrue(run.err().contains("taken over from the interrupted run"), run.err());
    assertEquals(files(whole), files(out));
  }

  private void killed(List<Object> words, Path out) throws IOException, InterruptedException {
    List<String> command = Programs.java(Main.class);
    words.forEach(word -> command.add(word.toString()));
    Process process =
        new ProcessBuilder(command)
            .redirectErrorStream(true)
            .redirectOutput(folder.resolve("messages.txt").toFile())
            .start();
    while (process.isAlive() && !writes(out.resolve("unfinished"), words.contains("--resume"))) {
      process.waitFor(2, TimeUnit.MILLISECONDS);
    }
    process.destroyForcibly();
    assertTrue(process.waitFor() != 0, () -> "it ended before it was killed: " + folder.toString());
  }

  /** Returns whether both tables grow; in a run that goes on, whether they are new ones. */
  private static boolean writes(Path unfinished, boolean resumed) throws IOException {
    for (String table : TABLES) {
      Path growing = unfinished.resolve(table);
      if ((resumed && !Files.exists(unfinished.resolve("before-" + table)))
          || !Files.exists(growing)
          || Files.size(growing) == 0) {
        return false;
      }
    }
    return true;
  }

  @Test
  void aRunWithoutResumeThrowsNothingAway() throws IOException {
    Path whole = folder.resolve("whole");
    study(whole);
    Path out = folder.resolve("out");
    interrupt(whole, out, "", 2000, 2000);
    Map<String, String> before = files(out);
    Run run = study(out);
    assertEquals(ExitStatus.WRONG_CALL, run.status());
    assertTrue(run.err().contains("give --resume to carry on"), run.err());
    assertEquals(before, files(out), "a refusal changes nothing");
    study(out, "--resume");
    assertEquals(files(whole), files(out));
  }

  @Test
  void nothingToGoOnWithIsSaidAndTheStudyRun() throws IOException {
    Run run = study(folder.resolve("out"), "--resume");
    assertTrue(run.err().contains("there is no interrupted run"), run.err());
    assertTrue(Files.exists(folder.resolve("out/report.html")));
    Run again = study(folder.resolve("out"), "--resume");
    assertEquals(ExitStatus.INPUT_LOST, again.status(), "rows were lost, as before");
    assertTrue(again.err().contains("nothing was left to do"), again.err());
  }

  @Test
  void aStudyOfOtherSettingsIsNotGoneOnWith() throws IOException {
    Path whole = folder.resolve("whole");
    study(whole, "--lexicon", lexicon);
    Path out = folder.resolve("out");
    interrupt(whole, out, "", 2000, 2000);
    Map<String, String> before = files(out);
    refused(study(out, "--resume"), "--lexicon", "with nothing");
    refused(study(out, "--resume", "--lexicon", lexicon, "--level", "0.9"), "--level 0.95", "0.9");
    refused(
        study(out, "--resume", "--lexicon", lexicon, "--shard", "1/2"),
        "--shard nothing",
        "with 1/2");
    Files.writeString(
        lexicon.resolve("concepts-economics.yaml"),
        "# changed\n" + Files.readString(lexicon.resolve("concepts-economics.yaml")));
    refused(study(out, "--resume", "--lexicon", lexicon), "lexicon file", "has changed");
    Files.copy(
        DEMO.resolve("economics/lexicon/concepts-economics.yaml"),
        lexicon.resolve("concepts-economics.yaml"),
        StandardCopyOption.REPLACE_EXISTING);
    Path extra = Files.writeString(prompts.resolve("extra.txt"), "Explain why tides turn.\n");
    refused(study(out, "--resume", "--lexicon", lexicon), "extra.txt", "added");
    Files.delete(extra);
    Path prompt = prompts.resolve("lost-star.txt");
    String wording = Files.readString(prompt);
    Files.writeString(prompt, wording + "\n");
    refused(study(out, "--resume", "--lexicon", lexicon), "lost-star.txt", "has changed");
    Files.writeString(prompt, wording);
    String rows = Files.readString(responses);
    Files.writeString(responses, rows.replace("lost at the end", "found at the end"));
    refused(study(out, "--resume", "--lexicon", lexicon), "responses.csv", "has changed");
    Files.writeString(responses, rows);
    Path note = out.resolve("unfinished/asked.json");
    String asked = Files.readString(note);
    Files.writeString(
        note, asked.replaceFirst("\"everypart [^\"]*\"", "\"everypart 0.0.1 (build 1)\""));
    refused(study(out, "--resume", "--lexicon", lexicon), "everypart 0.0.1");
    Files.writeString(note, asked);
    assertEquals(before, files(out), "a refusal changes nothing");
    study(out, "--resume", "--lexicon", lexicon);
    assertEquals(files(whole), files(out));
  }

  private static void refused(Run run, String... said) {
    assertEquals(ExitStatus.WRONG_CALL, run.status(), run.err());
    for (String word : said) {
      assertTrue(run.err().contains(word), run.err());
    }
  }

  @Test
  void aStudyIsRepeatedFromItsLog() throws IOException {
    Path first = folder.resolve("first");
    study(first, "--lexicon", lexicon, "--level", "0.9", "--seed", "5", "--gzip");
    Path again = folder.resolve("again");
    Run run = Run.of("study", "--from-log", first.resolve("study.log.json"), "--out", again);
    assertEquals(ExitStatus.INPUT_LOST, run.status(), "rows were lost, as before");
    assertTrue(run.err().contains("all files are the same, to the byte"), run.err());
    assertEquals(files(first), files(again));
    Path share = folder.resolve("share");
    study(share, "--shard", "2/3");
    Path shareAgain = folder.resolve("share-again");
    Run.of(
        "study",
        "--from-log",
        share.resolve("study.log.json"),
        "--out",
        shareAgain,
        "--threads",
        1);
    assertEquals(files(share), files(shareAgain));
  }

  @Test
  void aFileThatHasChangedSinceIsNamed() throws IOException {
    Path first = folder.resolve("first");
    study(first, "--codes", DEMO.resolve("codes.csv"));
    Path prompt = prompts.resolve("lost-star.txt");
    Files.writeString(prompt, Files.readString(prompt) + "\n");
    Path log = first.resolve("study.log.json");
    Path again = folder.resolve("again");
    Run run = Run.of("study", "--from-log", log, "--out", again);
    assertEquals(ExitStatus.INPUT_LOST, run.status());
    assertTrue(run.err().contains("lost-star.txt has changed since"), run.err());
    assertFalse(Files.exists(again), "nothing was run");
  }

  @Test
  void aLogThatWasChangedByHandIsFoundOut() throws IOException {
    Path first = folder.resolve("first");
    study(first);
    Path log = first.resolve("study.log.json");
    String text = Files.readString(log);
    Path changed =
        Files.writeString(
            folder.resolve("changed.json"),
            text.replaceAll("(\"report.html\",\\s*\"sha256\" : \")[0-9a-f]", "$1z"));
    Run run = Run.of("study", "--from-log", changed, "--out", folder.resolve("again"));
    assertEquals(ExitStatus.INPUT_LOST, run.status());
    assertTrue(run.err().contains("report.html"), run.err());
  }

  @Test
  void aLogIsTakenAloneAndIntoAnotherFolder() {
    Path first = folder.resolve("first");
    study(first);
    Path log = first.resolve("study.log.json");
    refused(
        Run.of("study", "--from-log", log, "--out", folder, "--by", "class"),
        "--by cannot be given with --from-log");
    refused(Run.of("study", "--from-log", log, "--out", first), "another one");
    refused(Run.of("study", "--out", first), "--prompts and --responses are needed");
    Run other = Run.of("study", "--from-log", prompts.resolve("lost-star.txt"), "--out", folder);
    assertEquals(ExitStatus.INPUT_LOST, other.status());
    assertTrue(other.err().contains("not the log of a study"), other.err());
  }
}
