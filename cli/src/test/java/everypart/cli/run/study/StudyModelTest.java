package everypart.cli.run.study;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.cli.Interpreter;
import everypart.cli.command.Run;
import everypart.cli.run.ExitStatus;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** The scripts that a study writes beside its table. */
class StudyModelTest {
  private static final Path DEMO = Path.of("..", "demo-data");

  @TempDir
  @SuppressWarnings("NullAway.Init")
  Path folder;

  private Run study(Object... more) {
    List<Object> words =
        new ArrayList<>(
            List.of(
                "study",
                "--quick",
                "--prompts",
                DEMO.resolve("prompts"),
                "--responses",
                DEMO.resolve("study.csv"),
                "--out",
                folder));
    words.addAll(Arrays.asList(more));
    return Run.of(words.toArray());
  }

  @Test
  void aStudyWithoutGroupsHasNoScripts() {
    Run run = study();
    assertEquals(ExitStatus.DONE, run.status(), run.err());
    assertFalse(Files.exists(folder.resolve("model.R")) || run.err().contains("model.R"));
  }

  @Test
  void theLogVouchesForTheScripts() throws IOException {
    Run run = study("--by", "class");
    assertEquals(ExitStatus.DONE, run.status(), run.err());
    assertTrue(run.err().contains("with model.R and model.py"), run.err());
    String log = Files.readString(folder.resolve("study.log.json"));
    assertTrue(log.contains("\"model.R\"") && log.contains("\"model.py\""), log);
    assertEquals(ExitStatus.DONE, study().status());
    assertFalse(Files.exists(folder.resolve("model.py")), "the next run takes them away");
  }

  @Tag("slow")
  @ParameterizedTest
  @EnumSource(Interpreter.class)
  void theScriptReadsTheTableThatTheStudyWrote(Interpreter interpreter)
      throws IOException, InterruptedException {
    Run run =
        study(
            "--by",
            "class,first_language",
            "--writer",
            "student",
            "--draft",
            "draft",
            "--gzip",
            "--leave-out-empty");
    assertEquals(ExitStatus.DONE, run.status(), run.err());
    String printed = interpreter.run(folder);
    assertTrue(printed.contains("== By class =="), printed);
    assertTrue(printed.contains("== By first_language =="), printed);
    assertTrue(printed.contains("against east:"), printed);
  }
}
