package everypart.cli.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.cli.command.Run;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A run harms no file but those that a run wrote, and no other run harms its own. */
class OutputFolderTest {
  private static final String ROWS =
      "response_id,prompt_id,text\nr1,q,They hide since birds hunt.\n";

  @TempDir
  @SuppressWarnings("NullAway.Init")
  Path folder;

  @SuppressWarnings("NullAway.Init")
  private Path question;

  @SuppressWarnings("NullAway.Init")
  private Path out;

  @BeforeEach
  void writeQuestion() throws IOException {
    question = write("questions/q.txt", "(a) Explain why the pipkins hide.\n");
    out = folder.resolve("out");
  }

  private Path write(String name, String text) throws IOException {
    Path file = folder.resolve(name);
    Files.createDirectories(file.getParent());
    return Files.writeString(file, text);
  }

  private List<String> files() throws IOException {
    try (Stream<Path> all = Files.walk(out)) {
      return all.filter(Files::isRegularFile)
          .map(file -> out.relativize(file).toString())
          .filter(name -> !name.startsWith("."))
          .sorted()
          .toList();
    }
  }

  private static void refused(Run run, String words) {
    assertEquals(ExitStatus.WRONG_CALL, run.status(), run.err());
    assertTrue(run.err().contains(words), run.err());
  }

  @Test
  void aSecondRunInTheSameFolderIsRefused() throws Exception {
    Path sheet = write("class.csv", ROWS);
    try (OutputFolder held = OutputFolder.open(out, List.of(), List.of())) {
      assertEquals(out, held.path());
      refused(Run.of("screen", question, sheet, "--out", out), "another run is writing");
      refused(
          Run.of("screen", question, sheet, "--out", out, "--resume"), "another run is writing");
      refused(
          Run.of("study", "--prompts", question, "--responses", sheet, "--out", out),
          "another run is writing");
    }
    assertEquals(List.of(), files());
    assertEquals(0, Run.of("screen", question, sheet, "--out", out).status());
  }

  @Test
  void anInputThatHasAnOutputsNameIsNotWrittenOver() throws Exception {
    Path sheet = write("out/matrix.csv", ROWS);
    refused(Run.of("screen", question, sheet, "--out", out), "this input lies in");
    assertEquals(ROWS, Files.readString(sheet));
    Path table = write("out/demands.csv", ROWS);
    refused(
        Run.of("study", "--prompts", question, "--responses", table, "--out", out),
        "this input lies in");
    assertEquals(ROWS, Files.readString(table));
    refused(
        Run.of("screen", question, write("class.csv", ROWS), "--out", folder.resolve("questions")),
        "this input lies in");
  }

  @Test
  void aFileThatNoRunWroteIsNotWrittenOver() throws Exception {
    Path own = write("out/index.html", "mine");
    refused(
        Run.of("screen", question, write("class.csv", ROWS), "--out", out), "that no run wrote");
    assertEquals("mine", Files.readString(own));
    Path sheet = write("coded.csv", "mine");
    write("study.csv", ROWS);
    Path study = folder.resolve("study");
    Run.of(
        "study", "--prompts", question, "--responses", folder.resolve("study.csv"), "--out", study);
    refused(
        Run.of(
            "agree", "--results", study.resolve("results.jsonl"), "--sample", "1", "--out", sheet),
        "is there already");
    assertEquals("mine", Files.readString(sheet));
  }

  @Test
  void aReportAmongTheAnswersIsNotReadAsAnswers() throws Exception {
    Path set = folder.resolve("set");
    write("set/s1.txt", "They hide because birds hunt.");
    for (int i = 0; i < 2; i++) {
      Run run = Run.of("screen", question, set, "--out", set.resolve("report"), "--slips", "txt");
      assertEquals(0, run.status(), run.err());
      assertEquals(1, Files.readAllLines(set.resolve("report/results.jsonl")).size());
    }
    Run other = Run.of("screen", question, set, "--out", out);
    assertEquals(0, other.status(), other.err());
    assertEquals(1, Files.readAllLines(out.resolve("results.jsonl")).size());
  }

  @Test
  void whatAFormerRunWroteIsTakenAway() throws Exception {
    Path sheet = write("class.csv", ROWS.replace("r1", "Ann Smith"));
    Object[] call = {"screen", question, sheet, "--out", out, "--slips", "txt,html"};
    assertEquals(0, Run.of(call).status());
    assertTrue(files().contains("slips/Ann Smith.txt"), files().toString());
    Run again =
        Run.of(
            "screen",
            question,
            sheet,
            "--out",
            out,
            "--slips",
            "txt",
            "--pseudonyms",
            folder.resolve("key"));
    assertEquals(0, again.status(), again.err());
    assertFalse(files().toString().contains("Smith"), files().toString());
    assertFalse(files().contains("slips.html"), files().toString());
    assertEquals(5, files().size(), files().toString());
  }

  @Test
  void resultsAreTheirOwnersAlone() throws Exception {
    assertEquals(
        0,
        Run.of("screen", question, write("class.csv", ROWS), "--out", out, "--slips", "txt")
            .status());
    if (Files.getFileStore(out).supportsFileAttributeView("posix")) {
      try (Stream<Path> all = Files.walk(out)) {
        for (Path file : all.toList()) {
          String rights = PosixFilePermissions.toString(Files.getPosixFilePermissions(file));
          assertTrue(rights.endsWith("------"), file + " " + rights);
        }
      }
    }
  }

  @Test
  void nothingIsWrittenThroughALink() throws Exception {
    Path mine = write("mine.txt", "mine");
    Files.createDirectories(out);
    for (String name : List.of(".index.html.unfinished", ".matrix.csv.unfinished")) {
      Files.createSymbolicLink(out.resolve(name), mine);
    }
    Path sheet = write("class.csv", ROWS);
    Run run = Run.of("screen", question, sheet, "--out", out);
    assertEquals(0, run.status(), run.err());
    assertEquals("mine", Files.readString(mine));
    Files.createDirectories(folder.resolve("elsewhere"));
    Files.createSymbolicLink(out.resolve("slips"), folder.resolve("elsewhere"));
    refused(Run.of("screen", question, sheet, "--out", out, "--slips", "txt"), "this is a link");
    Files.delete(out.resolve("slips"));
    Files.createSymbolicLink(out.resolve("unfinished"), folder.resolve("elsewhere"));
    refused(Run.of("screen", question, sheet, "--out", out), "this is a link");
  }
}
