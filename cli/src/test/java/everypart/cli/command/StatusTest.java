package everypart.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import everypart.cli.Main;
import everypart.cli.Programs;
import everypart.cli.run.Console;
import everypart.cli.run.ExitStatus;
import everypart.cli.run.StatusLine;
import everypart.cli.run.Stop;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Each way to end has a status of its own, and no trace of the program reaches a user. */
class StatusTest {
  @TempDir
  @SuppressWarnings("NullAway.Init")
  Path folder;

  @SuppressWarnings("NullAway.Init")
  private Path question;

  @BeforeEach
  void writeQuestion() throws IOException {
    question = write("q.txt", "(a) Explain why the pipkins hide.\n");
  }

  private Path write(String name, String text) throws IOException {
    return Files.writeString(folder.resolve(name), text);
  }

  private static Run run(InputStream in, Writer out, String... arguments) {
    StringWriter err = new StringWriter();
    PrintWriter messages = new PrintWriter(err);
    int status =
        Program.run(
            arguments,
            new Console(
                in,
                new PrintWriter(out),
                messages,
                false,
                true,
                new StatusLine(messages, false),
                new Stop()));
    return new Run(status, out.toString(), err.toString());
  }

  /** Input that breaks in a way that nothing is made for. */
  private static InputStream broken() {
    return new InputStream() {
      @Override
      public int read() {
        throw new IllegalStateException("never foreseen");
      }

      @Override
      public int read(byte[] bytes, int from, int length) {
        throw new IllegalStateException("never foreseen");
      }
    };
  }

  @Test
  void whatIsNotForeseenHasAStatusOfItsOwnAndNoTrace() {
    String[] call = {"check", question.toString(), "-"};
    Run run = run(broken(), new StringWriter(), call);
    assertEquals(ExitStatus.UNFORESEEN, run.status(), run.err());
    assertTrue(
        run.err().contains("something went wrong inside everypart (IllegalStateException"),
        run.err());
    assertTrue(run.err().contains("please report it"), run.err());
    assertFalse(run.err().contains("\tat "), run.err());
    Run traced = run(broken(), new StringWriter(), "check", question.toString(), "-", "--trace");
    assertTrue(traced.err().contains("\tat "), traced.err());
  }

  @Test
  void outputThatCannotBeWrittenIsAnError() {
    Writer full =
        new Writer() {
          @Override
          public void write(char[] signs, int from, int length) throws IOException {
            throw new IOException("No space left on device");
          }

          @Override
          public void flush() {}

          @Override
          public void close() {}
        };
    Run run =
        run(
            new ByteArrayInputStream(
                "They hide.".getBytes(java.nio.charset.StandardCharsets.UTF_8)),
            full,
            "check",
            question.toString(),
            "-");
    assertEquals(ExitStatus.NOT_WRITTEN, run.status(), run.err());
    assertTrue(run.err().contains("could not be written"), run.err());
  }

  @Test
  void nothingReadIsNotDone() throws IOException {
    Path empty = write("class.csv", "response_id,prompt_id,text\n");
    Run screened = Run.of("screen", question, empty, "--out", folder.resolve("a"));
    assertEquals(ExitStatus.INPUT_LOST, screened.status(), screened.err());
    assertTrue(screened.err().contains("there is no response in it"), screened.err());
    Run studied =
        Run.of("study", "--prompts", question, "--responses", empty, "--out", folder.resolve("b"));
    assertEquals(ExitStatus.INPUT_LOST, studied.status(), studied.err());
  }

  @Test
  void helpBehindAnUnknownCommandIsAWrongCall() {
    Run run = Run.of("chekc", "--help");
    assertEquals(ExitStatus.WRONG_CALL, run.status());
    assertTrue(run.err().contains("chekc"), run.err());
  }

  @Test
  void controlSignsAreMadeVisible() throws IOException {
    Path odd = write("q2.txt", "(a) Explain why \u001b[2J the \u202epipkins hide.\n");
    Run outline = Run.of("outline", odd);
    assertTrue(outline.out().contains("<1B>[2J"), outline.out());
    assertTrue(outline.out().contains("<202E>"), outline.out());
    Run named = Run.of("outline", folder.resolve("no\u001b]0;x\u0007.txt"));
    assertTrue(named.err().contains("no<1B>]0;x<07>.txt"), named.err());
    Run answer =
        Run.with(
            "They \u001b[31mhide since birds hunt\u0008 them.",
            true,
            false,
            "check",
            question,
            "-");
    assertFalse(answer.out().contains("\u0008"), answer.out());
    Run table = Run.with("They hide\u001b[2J.", false, false, "check", question, "-");
    assertFalse(table.out().contains("\u001b[2J"), table.out());
  }

  @Test
  void aPromptThatIsNestedTooDeepIsNamed() throws IOException {
    Path deep = write("deep.yaml", "parts: " + "[".repeat(5_000));
    Run run = Run.of("outline", deep);
    assertEquals(ExitStatus.INPUT_LOST, run.status(), run.err());
    assertFalse(run.err().contains("Exception"), run.err());
  }

  @Test
  void aKeyThatStandsTwiceIsNamed() throws IOException {
    Path twice =
        write("twice.yaml", "parts:\n  - text: Describe a.\nparts:\n  - text: Explain b.\n");
    Run run = Run.of("outline", twice);
    assertEquals(ExitStatus.INPUT_LOST, run.status(), run.out());
    assertTrue(run.err().contains("parts"), run.err());
  }

  @Test
  void oddLexiconsAreNamed() throws IOException {
    for (String odd :
        new String[] {"[".repeat(5_000), "&a [*a, *a]", "- ? [1]\n  : {}\n", "\u0000"}) {
      Path lexicon = Files.createDirectories(folder.resolve("words"));
      Files.writeString(lexicon.resolve("cues.yaml"), odd);
      Files.writeString(lexicon.resolve("concepts.yaml"), odd);
      Files.writeString(lexicon.resolve("task-verbs.yaml"), odd);
      Run run = Run.of("lexicon", "check", lexicon);
      assertEquals(ExitStatus.INPUT_LOST, run.status(), run.err());
    }
  }

  @Test
  void aStudyWhoseFileChangesWhileItIsReadVouchesForNothing() throws IOException {
    Path rows = folder.resolve("rows.csv");
    StringBuilder many = new StringBuilder("response_id,prompt_id,text\n");
    for (int i = 0; i < 10_000; i++) {
      many.append('r').append(i).append(",q,They hide since birds hunt them.\n");
    }
    Files.writeString(rows, many);
    Path out = folder.resolve("out");
    Thread writer =
        new Thread(
            () -> {
              try {
                while (!Files.exists(out.resolve("unfinished/results.jsonl"))) {
                  Thread.sleep(1);
                }
                Files.writeString(rows, many.toString().replace("birds", "cats!"));
              } catch (IOException | InterruptedException e) {
                throw new IllegalStateException(e);
              }
            });
    writer.start();
    Run run = Run.of("study", "--prompts", question, "--responses", rows, "--out", out);
    assertEquals(ExitStatus.INPUT_LOST, run.status(), run.err());
    assertTrue(run.err().contains("was changed while it was read"), run.err());
    assertFalse(Files.exists(out.resolve("study.log.json")));
  }

  /** The program in a process of its own, since a test's own output cannot be full. */
  @Test
  void aFullDiskBehindStandardOutputIsAnError() throws Exception {
    Path full = Path.of("/dev/full");
    assumeTrue(Files.exists(full), "this system has no /dev/full");
    Path err = folder.resolve("err.txt");
    List<String> words = Programs.java(Main.class);
    words.addAll(List.of("outline", question.toString()));
    Process process =
        new ProcessBuilder(words).redirectOutput(full.toFile()).redirectError(err.toFile()).start();
    assertEquals(ExitStatus.NOT_WRITTEN, process.waitFor(), Files.readString(err));
    assertTrue(Files.readString(err).contains("could not be written"), Files.readString(err));
  }
}
