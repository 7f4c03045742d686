package everypart.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The script that starts the program, with a stand-in for Java that writes down what it is given.
 */
class LauncherTest {
  private static final Path SHELL = Path.of("/bin/sh");

  @TempDir
  @SuppressWarnings("NullAway.Init")
  Path folder;

  @SuppressWarnings("NullAway.Init")
  private Path launcher;

  @SuppressWarnings("NullAway.Init")
  private Path jar;

  private record Ended(int status, List<String> out, String err) {}

  @BeforeEach
  void install() throws IOException {
    assumeTrue(Files.isExecutable(SHELL), "there is no /bin/sh: the launcher is not tested");
    folder = folder.toRealPath();
    Path home = folder.resolve("a home");
    launcher = Files.createDirectories(home.resolve("bin")).resolve("everypart");
    Files.copy(Path.of("bin", "everypart"), launcher);
    executable(launcher);
    jar = Files.createDirectories(home.resolve("target")).resolve("everypart.jar");
    Files.createFile(jar);
    Path java = Files.createDirectories(folder.resolve("jdk/bin")).resolve("java");
    Files.writeString(java, "#!/bin/sh\nprintf '%s\\n' \"$@\"\nexit 7\n");
    executable(java);
  }

  private static void executable(Path file) throws IOException {
    Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rwxr-xr-x"));
  }

  private Ended run(String javaHome, Path start, String... arguments) throws Exception {
    List<String> words = new ArrayList<>(List.of(start.toString()));
    words.addAll(List.of(arguments));
    Path out = folder.resolve("out");
    Path err = folder.resolve("err");
    ProcessBuilder process =
        new ProcessBuilder(words)
            .directory(Files.createDirectories(folder.resolve("elsewhere")).toFile())
            .redirectOutput(out.toFile())
            .redirectError(err.toFile());
    process.environment().put("JAVA_HOME", javaHome);
    int status = process.start().waitFor();
    return new Ended(status, Files.readAllLines(out), Files.readString(err));
  }

  private void passesAllOn(Path start) throws Exception {
    Ended ended =
        run(folder.resolve("jdk").toString(), start, "screen", "my question.txt", "", "a\"b $c *");
    assertEquals(7, ended.status(), ended.err());
    assertEquals(
        List.of(
            "-XX:MaxRAMPercentage=50",
            "-Deverypart.terminal=false",
            "-Deverypart.watched=false",
            "-jar",
            jar.toString(),
            "screen",
            "my question.txt",
            "",
            "a\"b $c *"),
        ended.out());
  }

  @Test
  void argumentsAndStatusPassThroughFromAnyFolder() throws Exception {
    passesAllOn(launcher);
  }

  @Test
  void theJarIsFoundThroughLinks() throws Exception {
    Path links = Files.createDirectories(folder.resolve("links"));
    Path first = Files.createSymbolicLink(links.resolve("first"), launcher);
    passesAllOn(first);
    Path relative = Path.of("..", "a home", "bin", "everypart");
    passesAllOn(Files.createSymbolicLink(links.resolve("relative"), relative));
    passesAllOn(Files.createSymbolicLink(folder.resolve("chain"), Path.of("links", "relative")));
  }

  /** A stand-in for Java that writes the archive which it is told to, and ends with a status. */
  private void javaThatKeepsAnArchive(int status) throws IOException {
    Path java = folder.resolve("jdk/bin/java");
    Files.writeString(
        java,
        "#!/bin/sh\nprintf '%s\\n' \"$@\"\ncase $1 in -XX:ArchiveClassesAtExit=*)"
            + " : >\"${1#*=}\";; esac\nexit "
            + status
            + "\n");
    Files.setLastModifiedTime(java, FileTime.from(Instant.EPOCH));
    Files.setLastModifiedTime(jar, FileTime.from(Instant.EPOCH));
  }

  @Test
  void checkTakesTheArchiveThatACallBeforeHasKept() throws Exception {
    String home = folder.resolve("jdk").toString();
    Path archive = jar.resolveSibling("everypart-check.jsa");
    javaThatKeepsAnArchive(2);
    Ended wrong = run(home, launcher, "check", "my question.txt");
    assertEquals(2, wrong.status());
    assertFalse(Files.exists(archive), "kept by a call that went wrong");

    javaThatKeepsAnArchive(0);
    Ended first = run(home, launcher, "check", "my question.txt");
    assertEquals(0, first.status(), first.err());
    assertTrue(first.out().get(0).startsWith("-XX:ArchiveClassesAtExit=" + archive), first + "");
    assertTrue(Files.exists(archive));
    try (Stream<Path> files = Files.list(archive.getParent())) {
      assertEquals(Set.of(jar, archive), files.collect(Collectors.toSet()));
    }

    Ended second = run(home, launcher, "check", "my question.txt", "a\"b $c *");
    assertEquals("-XX:SharedArchiveFile=" + archive, second.out().get(0));
    assertTrue(second.out().contains("-XX:+UseSerialGC"), second + "");
    int at = second.out().indexOf("-jar");
    assertEquals(
        List.of("-jar", jar.toString(), "check", "my question.txt", "a\"b $c *"),
        second.out().subList(at, second.out().size()));

    Files.setLastModifiedTime(jar, FileTime.from(Instant.now().plusSeconds(60)));
    Ended newer = run(home, launcher, "check", "my question.txt");
    assertTrue(newer.out().get(0).startsWith("-XX:ArchiveClassesAtExit="), newer + "");
  }

  @Test
  void withoutTheJarItSaysHowToBuildIt() throws Exception {
    Files.delete(jar);
    Ended ended = run(folder.resolve("jdk").toString(), launcher, "check");
    assertEquals(2, ended.status());
    assertEquals(List.of(), ended.out());
    assertEquals(
        "everypart: " + jar + " is not there; build it with: mvn -DskipTests package\n",
        ended.err());
  }

  @Test
  void aWrongJavaHomeDoesNotStopIt() throws Exception {
    Ended ended = run(folder.resolve("nowhere").toString(), launcher, "check");
    // The Java of the path is started, and cannot read the stand-in for the jar.
    assertTrue(ended.status() != 0 && ended.out().isEmpty(), ended.toString());
    assertTrue(ended.err().contains(jar.toString()) || ended.err().contains("Java"), ended.err());
  }

  /**
   * The one for Windows cannot be run here: it is held to what the other one does, and to what cmd
   * stumbles over.
   */
  @Test
  void theOneForWindowsStartsTheSameJarInTheSameWay() throws IOException {
    String cmd = Files.readString(Path.of("bin", "everypart.cmd")).replace("\r\n", "\n");
    String unix = Files.readString(Path.of("bin", "everypart"));
    assertTrue(cmd.contains("%~dp0..\\target\\everypart.jar"), "the jar beside the folder bin");
    assertTrue(cmd.contains(" -jar \"%JAR%\" %*\n"), cmd);
    assertTrue(cmd.contains("exit /b %ERRORLEVEL%\n"), cmd);
    for (String both :
        List.of(
            "-XX:MaxRAMPercentage=50",
            "EVERYPART_MEMORY",
            "-Xmx",
            "is not there; build it with: mvn -DskipTests package",
            "Java is not there; install Java 17 or newer, or set JAVA_HOME")) {
      assertTrue(cmd.contains(both) && unix.contains(both), both);
    }
    List<String> lines = cmd.lines().filter(line -> !line.startsWith("rem ")).toList();
    for (String line : lines) {
      assertTrue(!line.contains("(") && !line.contains(")"), "a path may end this block: " + line);
      if (line.contains("goto ")) {
        String label = ":" + line.substring(line.indexOf("goto ") + 5).strip();
        assertTrue(lines.contains(label), label);
      }
    }
  }
}
