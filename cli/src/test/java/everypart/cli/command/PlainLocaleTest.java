package everypart.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.cli.Main;
import everypart.cli.Programs;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A system whose language setting knows no letters beyond a to z. */
class PlainLocaleTest {
  @TempDir
  @SuppressWarnings("NullAway.Init")
  Path folder;

  @Test
  void aNameThatCannotBeReadIsToldAndItsResponseIsJudged() throws Exception {
    Path question = Files.writeString(folder.resolve("q.txt"), "Explain why the pipkins hide.\n");
    Path set = Files.createDirectories(folder.resolve("set"));
    Files.writeString(set.resolve("Zo\u00eb.txt"), "They hide because birds hunt them.");
    Path out = folder.resolve("out");
    String said = run("screen", question, set, "--quick", "--out", out);
    assertTrue(said.contains("set LC_ALL=C.UTF-8 before the call."), said);
    assertFalse(said.contains("\tat "), said);
    assertEquals(1, Files.readAllLines(out.resolve("results.jsonl")).size());
  }

  private String run(Object... arguments) throws IOException, InterruptedException {
    ProcessBuilder builder = new ProcessBuilder(Programs.java(Main.class));
    for (Object argument : arguments) {
      builder.command().add(argument.toString());
    }
    builder.environment().put("LC_ALL", "C");
    Path said = folder.resolve("said.txt");
    Process process = builder.redirectErrorStream(true).redirectOutput(said.toFile()).start();
    assertTrue(process.waitFor(5, TimeUnit.MINUTES), "it did not end in time");
    return Files.readString(said, StandardCharsets.ISO_8859_1);
  }
}
