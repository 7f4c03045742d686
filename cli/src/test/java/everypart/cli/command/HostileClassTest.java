package everypart.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.cli.Main;
import everypart.cli.Programs;
import everypart.cli.intake.document.HostileFiles;
import everypart.cli.run.ExitStatus;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A class of thirty is reported in 512 MB, whatever else lies in its folder. */
@Tag("slow")
class HostileClassTest {
  private static final int GOOD = 30;

  /** Far above what it takes, so that a busy machine does not fail the test. */
  private static final int MINUTES = 8;

  @TempDir
  @SuppressWarnings("NullAway.Init")
  Path folder;

  private record Ended(int status, String err) {}

  private Ended run(String memory, Object... arguments) throws IOException, InterruptedException {
    List<String> words = Programs.java(Main.class, "-Xmx" + memory);
    for (Object argument : arguments) {
      words.add(argument.toString());
    }
    Path err = folder.resolve("err.txt");
    Process process =
        new ProcessBuilder(words)
            .redirectError(err.toFile())
            .redirectOutput(ProcessBuilder.Redirect.DISCARD)
            .start();
    assertTrue(process.waitFor(MINUTES, TimeUnit.MINUTES), "it did not end in time");
    return new Ended(process.exitValue(), Files.readString(err));
  }

  private Path question() throws IOException {
    return Files.writeString(folder.resolve("q.txt"), "(a) Explain why the pipkins hide.\n");
  }

  private Path goodFiles() throws IOException {
    Path set = Files.createDirectories(folder.resolve("set"));
    for (int i = 0; i < GOOD; i++) {
      Files.writeString(
          set.resolve("m" + i + ".txt"), "They hide because birds hunt them, " + i + " at a time.");
    }
    return set;
  }

  @Test
  void textsThatFillTheMemoryLeaveRoomForTheOthers() throws Exception {
    Path question = question();
    Path set = goodFiles();
    // Each is of a length that is read, and all together are more than the memory holds.
    byte[] text = "They hide so. ".repeat(12_000).getBytes(StandardCharsets.UTF_8);
    for (int i = 0; i < 60; i++) {
      Files.write(set.resolve("b" + i + ".txt"), text);
    }
    Ended ended = run("96m", "screen", question, set, "--quick", "--out", folder.resolve("out"));
    assertEquals(ExitStatus.INPUT_LOST, ended.status(), ended.err());
    List<String> results = Files.readAllLines(folder.resolve("out/results.jsonl"));
    assertEquals(
        GOOD, results.stream().filter(line -> line.startsWith("{\"responseId\":\"m")).count());
    long told =
        ended.err().lines().filter(line -> line.contains(".txt: ") && line.endsWith(".")).count();
    assertEquals(GOOD + 60, results.size() + told, "each is reported or named: " + ended.err());
    assertFalse(ended.err().contains("\tat "), ended.err());
  }

  @Test
  void thirtyGoodFilesAreReportedWithEachHostileFileAmongThem() throws Exception {
    Path question = question();
    Path set = goodFiles();
    for (Map.Entry<String, HostileFiles.Hostile> file : HostileFiles.all().entrySet()) {
      try (OutputStream out = Files.newOutputStream(set.resolve(file.getKey()))) {
        file.getValue().content().to(out);
      }
    }
    boolean pipe =
        new ProcessBuilder("mkfifo", set.resolve("pipe.txt").toString()).start().waitFor() == 0;
    Files.createSymbolicLink(set.resolve("zero.txt"), Path.of("/dev/zero"));
    Ended ended = run("512m", "screen", question, set, "--out", folder.resolve("out"));
    assertEquals(ExitStatus.INPUT_LOST, ended.status(), ended.err());
    assertFalse(ended.err().contains("\tat "), ended.err());
    List<String> results = Files.readAllLines(folder.resolve("out/results.jsonl"));
    assertEquals(
        GOOD, results.stream().filter(line -> line.startsWith("{\"responseId\":\"m")).count());
    assertTrue(Files.exists(folder.resolve("out/index.html")));
    for (Map.Entry<String, HostileFiles.Hostile> file : HostileFiles.all().entrySet()) {
      boolean named =
          ended
              .err()
              .lines()
              .anyMatch(
                  line ->
                      line.contains("/" + file.getKey())
                          && line.contains(file.getValue().told())
                          && line.endsWith("."));
      assertTrue(named || file.getValue().told().isEmpty(), file.getKey() + ": " + ended.err());
    }
    assertTrue(!pipe || ended.err().contains("pipe.txt: this is a pipe"), ended.err());
    assertTrue(ended.err().contains("zero.txt: this is a pipe or a device"), ended.err());
    Files.delete(set.resolve("zero.txt")); // JUnit warns of a link that leads out of the folder
  }
}
