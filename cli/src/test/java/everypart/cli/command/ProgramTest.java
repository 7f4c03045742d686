package everypart.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.cli.run.Stop;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The commands as a person uses them. */
class ProgramTest {
  private static final String QUESTION =
      "(a) Describe the tide pool.\n(b) Explain why the pipkins hide.\n";

  @TempDir
  @SuppressWarnings("NullAway.Init")
  Path folder;

  private Path write(String name, String text) throws IOException {
    return Files.writeString(folder.resolve(name), text);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "check",
        "screen",
        "outline",
        "study",
        "merge",
        "agree",
        "trace",
        "lexicon",
        "completion"
      })
  void everyCommandHasHelpWithAnExample(String command) {
    Run run = Run.of(command, "--help");
    assertEquals(0, run.status());
    assertTrue(run.out().contains("everypart " + command), run.out());
    assertTrue(run.out().contains("Example"), run.out());
    assertEquals("", run.err());
  }

  @Test
  void aWrongCallSaysWhereHelpIs() {
    Run run = Run.of("screen", "q.txt");
    assertEquals(2, run.status());
    assertTrue(run.err().contains("--out"), run.err());
    assertTrue(run.err().contains("See: everypart screen --help"), run.err());
    assertEquals(2, Run.of().status());
    assertTrue(Run.of("chekc").err().contains("everypart check"));
  }

  @Test
  void onlyOneInputComesFromStandardInput() {
    Run run = Run.of("check", "-", "-");
    assertEquals(2, run.status());
    assertTrue(run.err().contains("only one of PROMPT and RESPONSE"), run.err());
  }

  @Test
  void aResponseComesFromStandardInput() throws IOException {
    Run run =
        Run.with(
            "(a) The pool is deep.",
            false,
            false,
            "check",
            write("q.txt", QUESTION),
            "-",
            "--format",
            "json");
    assertEquals(0, run.status(), run.err());
    assertTrue(run.out().contains("\"The pool is deep"), run.out());
  }

  @Test
  void coloursAppearOnlyWhereTheyAreWanted() throws IOException {
    Path question = write("q.txt", QUESTION);
    Path answer = write("a.txt", "(a) The pool is deep.");
    String escape = "\u001b[";
    assertTrue(Run.with("", true, false, "check", question, answer).out().contains(escape));
    assertFalse(Run.with("", true, true, "check", question, answer).out().contains(escape));
    assertFalse(Run.with("", false, false, "check", question, answer).out().contains(escape));
    assertTrue(Run.of("check", question, answer, "--color", "always").out().contains(escape));
    assertFalse(
        Run.with("", true, false, "check", question, answer, "--colour", "never")
            .out()
            .contains(escape));
  }

  @Test
  void withoutColoursTheWordsAreTheSame() throws IOException {
    Path question = write("q.txt", QUESTION);
    Path answer = write("a.txt", "(a) The pool is deep.");
    String plain = Run.of("check", question, answer).out();
    String coloured = Run.of("check", question, answer, "--color", "always").out();
    assertEquals(plain, coloured.replaceAll("\u001b\\[[0-9;]*m", ""));
    assertTrue(plain.contains("not found") && plain.contains("not a mark"), plain);
  }

  @Test
  void anOpenDemandBecomesAnExitStatusWhenAskedFor() throws IOException {
    Path question = write("q.txt", QUESTION);
    Path empty = write("a.txt", "");
    assertEquals(0, Run.of("check", question, empty).status());
    assertEquals(1, Run.of("check", question, empty, "--fail-on", "missing").status());
    assertEquals(0, Run.of("check", question, empty, "--fail-on", "partly").status());
    assertEquals(
        1,
        Run.of(
                "screen",
                question,
                write("s1.csv", "response_id,text\ns1,\n"),
                "--out",
                folder.resolve("out"),
                "--fail-on",
                "partly,missing")
            .status());
  }

  @Test
  void offsetsCountCodePoints() throws IOException {
    Path answer = write("a.txt", "\ud83d\udc1f The pool is deep.");
    String line = Run.of("trace", "--format", "jsonl", answer).out();
    assertTrue(line.contains("\"end\":19"), line);
  }

  @Test
  void resultsComeInTheOrderOfTheInput() throws IOException {
    StringBuilder rows = new StringBuilder("response_id,text\n");
    for (int i = 0; i < 1000; i++) {
      rows.append('r').append(i).append(",\"(a) ").append("The pool is deep. ".repeat(i % 7 * 9));
      rows.append("\"\n");
    }
    Run run =
        Run.with(
            rows.toString(),
            false,
            false,
            "study",
            "--prompts",
            write("q.txt", QUESTION),
            "--responses",
            "-",
            "--out",
            folder.resolve("out"));
    assertEquals(0, run.status(), run.err());
    List<String> lines = Files.readAllLines(folder.resolve("out/results.jsonl"));
    assertEquals(1000, lines.size());
    for (int i = 0; i < 1000; i++) {
      assertTrue(lines.get(i).startsWith("{\"responseId\":\"r" + i + "\","), lines.get(i));
    }
  }

  @Test
  void groupsAreKept() throws IOException {
    Path rows = write("class.csv", "response_id,class,text\nr1,east,deep\n");
    Run run = Run.of("screen", write("q.txt", QUESTION), rows, "--out", folder.resolve("out"));
    assertEquals(0, run.status(), run.err());
    assertTrue(
        Files.readString(folder.resolve("out/results.jsonl"))
            .contains("\"groups\":{\"class\":\"east\"}"));
    assertTrue(Files.readString(folder.resolve("out/demands.csv")).contains(",east\r\n"));
    assertTrue(Files.readString(folder.resolve("out/matrix.csv")).contains(",east\r\n"));
  }

  @Test
  void aCellIsNeverAFormula() throws IOException {
    Path rows = write("class.csv", "response_id,text\n=1+1,@deep\n");
    Run.of("screen", write("q.txt", QUESTION), rows, "--out", folder.resolve("out"));
    for (String name : List.of("demands.csv", "matrix.csv")) {
      String table = Files.readString(folder.resolve("out").resolve(name));
      assertTrue(table.contains("\n'=1+1,"), table);
      assertFalse(table.contains(",@"), table);
    }
  }

  @Test
  void completionNamesEveryCommand() {
    String script = Run.of("completion").out();
    for (String command : List.of("check", "screen", "outline", "study", "agree", "trace")) {
      assertTrue(script.contains("everypart_" + command), command);
    }
  }

  @Test
  void aSavedFileIsLookedAtAnewWhenItIsWatched() throws Exception {
    Path file = write("watched.txt", "one");
    Path saved = write("saved.txt", "two words");
    Watched watched = new Watched(file);
    Stop stop = new Stop();
    Thread writer =
        new Thread(
            () -> {
              try {
                Files.move(saved, file, StandardCopyOption.REPLACE_EXISTING);
              } catch (IOException e) {
                throw new IllegalStateException(e);
              }
            });
    writer.start();
    assertTrue(watched.awaitChange(stop));
    writer.join();
    Thread stopper = new Thread(stop::ask);
    stopper.start();
    assertFalse(watched.awaitChange(stop));
    stopper.join();
    Run run = Run.of("check", write("q.txt", QUESTION), "-", "--watch");
    assertEquals(2, run.status());
    assertTrue(run.err().contains("--watch needs a file"), run.err());
  }
}
