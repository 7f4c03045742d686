package everypart.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What CI runs leaves no check out unseen where a program is not installed. */
class CiRunTest {
  private static final Path BASH = Path.of("/bin/bash");

  @TempDir
  @SuppressWarnings("NullAway.Init")
  Path folder;

  private record Ended(int status, String said) {}

  private void program(String name, String script) throws IOException {
    Path file = folder.resolve(name);
    Files.writeString(file, "#!/bin/bash\n" + script + "\n");
    Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rwx------"));
  }

  /** Runs it on a machine that has Maven, a shell and what was put there, and no more. */
  private Ended run(String ci) throws IOException, InterruptedException {
    assumeTrue(Files.isExecutable(BASH), "there is no bash: what CI runs is not tested");
    program("dirname", "echo \"${1%/*}\"");
    program("id", "echo 1000");
    program("mvn", "echo \"mvn $*\"");
    Path said = folder.resolve("said");
    ProcessBuilder builder =
        new ProcessBuilder(List.of(BASH.toString(), Path.of("..", ".ci", "run").toString()))
            .redirectErrorStream(true)
            .redirectOutput(said.toFile());
    builder.environment().clear();
    builder.environment().put("PATH", folder.toString());
    if (!ci.isEmpty()) {
      builder.environment().put("CI", ci);
    }
    int status = builder.start().waitFor();
    return new Ended(status, Files.readString(said));
  }

  @Test
  void inCiAMissingProgramIsNamedAndNothingRuns() throws IOException, InterruptedException {
    Ended ended = run("true");
    assertEquals(1, ended.status(), ended.said());
    for (String name : List.of("chromium", "libreoffice", "strace", "poppler", "r-base")) {
      assertTrue(ended.said().contains(name), ended.said());
    }
    assertTrue(
        ended.said().contains("of the programs that checks need are not there"), ended.said());
    assertFalse(ended.said().contains("mvn"), ended.said());
  }

  @Test
  void elsewhereItIsNamedAndTheRestRuns() throws IOException, InterruptedException {
    Ended ended = run("");
    assertEquals(0, ended.status(), ended.said());
    assertTrue(ended.said().contains("NOT INSTALLED: chromium"), ended.said());
    assertTrue(ended.said().contains("mvn -B -ntp verify"), ended.said());
  }

  @Test
  void whatIsThereIsNotCalledMissing() throws IOException, InterruptedException {
    for (String name :
        List.of(
            "python3", "chromium", "chromedriver", "soffice", "strace", "pdftotext", "Rscript")) {
      program(name, "exit 0");
    }
    program("tee", "exit 0");
    Ended ended = run("true");
    assertFalse(ended.said().contains("NOT INSTALLED"), ended.said());
    assertTrue(ended.said().contains("mvn -B -ntp verify"), ended.said());
  }
}
