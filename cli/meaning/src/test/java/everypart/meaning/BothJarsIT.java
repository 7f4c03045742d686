package everypart.meaning;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.jar.JarFile;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Both jars as a user runs them, in a folder of their own. */
class BothJarsIT {
  private static final Pattern LIBRARY = Pattern.compile("^\\s+[\\w.-]+:([\\w.-]+):jar:");
  private static final Path BUILT = Path.of("..", "target");
  private static final Path DEMO = Path.of("..", "..", "demo-data").toAbsolutePath().normalize();
  private static final String PROMPT = DEMO.resolve("prompts/lost-star.txt").toString();
  private static final String CLASS = DEMO.resolve("class.csv").toString();

  @TempDir
  @SuppressWarnings("NullAway.Init")
  Path folder;

  /** What a run is started by, to be watched. */
  private List<String> watcher = List.of();

  private record Ended(int status, String out, String err) {}

  @BeforeEach
  void installTheProgram() throws IOException {
    Files.copy(BUILT.resolve("everypart.jar"), folder.resolve("everypart.jar"));
  }

  private void installTheModel() throws IOException {
    Files.copy(BUILT.resolve("everypart-meaning.jar"), folder.resolve("everypart-meaning.jar"));
  }

  private Ended run(List<String> options, String... arguments) throws Exception {
    List<String> command = new ArrayList<>(watcher);
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(options);
    command.addAll(List.of("-jar", folder.resolve("everypart.jar").toString()));
    command.addAll(List.of(arguments));
    Path out = Files.createTempFile(folder, "out", "");
    Path err = Files.createTempFile(folder, "err", "");
    Process process =
        new ProcessBuilder(command)
            .redirectOutput(out.toFile())
            .redirectError(err.toFile())
            .start();
    int status = process.waitFor();
    return new Ended(status, Files.readString(out), Files.readString(err));
  }

  private Ended screen(String name, String... more) throws Exception {
    List<String> arguments = new ArrayList<>();
    arguments.addAll(List.of("screen", PROMPT, CLASS, "--out", folder.resolve(name).toString()));
    arguments.addAll(List.of(more));
    return run(List.of(), arguments.toArray(String[]::new));
  }

  private String results(String name) throws IOException {
    return Files.readString(folder.resolve(name).resolve("results.jsonl"));
  }

  private void assertOneSentence(Ended ended, String... said) {
    assertEquals(2, ended.status(), ended.err());
    assertEquals("", ended.out());
    assertEquals(1, ended.err().lines().count(), ended.err());
    for (String words : said) {
      assertTrue(ended.err().contains(words), ended.err());
    }
  }

  @Test
  void withoutTheSecondJarItSaysWhatIsMissingAndWhere() throws Exception {
    assertOneSentence(
        run(List.of(), "check", PROMPT, CLASS, "--meaning"),
        folder.resolve("everypart-meaning.jar").toString(),
        "is not there",
        "mvn -DskipTests package");
    assertOneSentence(screen("out", "--meaning"), "is not there");
    assertFalse(Files.exists(folder.resolve("out")));
  }

  @Test
  void aBrokenSecondJarIsSaidToBeBroken() throws Exception {
    Files.writeString(folder.resolve("everypart-meaning.jar"), "no jar at all");
    assertOneSentence(
        run(List.of(), "check", PROMPT, CLASS, "--meaning"),
        "cannot be used",
        "leave --meaning out");
  }

  @Test
  void aSystemThatTheRuntimeDoesNotKnowIsSaidToBeOne() throws Exception {
    installTheModel();
    assertOneSentence(
        run(List.of("-Dos.arch=abacus"), "check", PROMPT, CLASS, "--meaning"),
        "does not run on this system",
        "abacus",
        "leave --meaning out");
  }

  @Tag("slow")
  @Test
  void resultsSayThatMeaningsWereComparedAndAreTheSameEveryTime() throws Exception {
    installTheModel();
    assertEquals(0, screen("first", "--meaning").status());
    assertEquals(0, screen("second", "--meaning").status());
    assertEquals(results("first"), results("second"));
    int compared = 0;
    for (String line : results("first").lines().toList()) {
      JsonNode result = new JsonMapper().readTree(line);
      int sentences = 0;
      for (JsonNode sentence : result.path("sentences")) {
        sentences += sentence.path("meaning").asBoolean() ? 1 : 0;
      }
      assertEquals(sentences, result.path("meaning").asInt(), line);
      compared += sentences;
    }
    assertTrue(compared > 0, "no sentence of the demo data was compared");
    assertTrue(
        Files.readString(folder.resolve("first").resolve("index.html")).contains("(--meaning)"));
  }

  @Tag("slow")
  @Test
  void quickLeavesTheSecondJarOutAndResultsSayWhichJudged() throws Exception {
    assertEquals(0, screen("alone").status());
    installTheModel();
    assertEquals(0, screen("beside", "--quick").status());
    for (String name : List.of("results.jsonl", "index.html", "matrix.csv", "demands.csv")) {
      assertEquals(
          Files.readString(folder.resolve("alone").resolve(name)),
          Files.readString(folder.resolve("beside").resolve(name)),
          name);
    }
    assertFalse(results("alone").contains("\"meaning\""));
    assertTrue(results("alone").contains("\"judge\":\"features\""));
    assertEquals(0, screen("read").status());
    assertTrue(results("read").contains("\"judge\":\"features and reader\""));
  }

  @Tag("slow")
  @Test
  void theJarsAndTheModelReachNothingOutside() throws Exception {
    Path seen = folder.resolve("seen.txt");
    watcher = List.of("strace", "-f", "-qq", "-e", "trace=network", "-o", seen.toString());
    assumeTrue(mayWatch(), "strace is not installed or may not watch: left out");
    installTheModel();
    assertEquals(0, screen("watched", "--meaning").status());
    // That the watcher sees such calls is tested beside the commands.
    Pattern reached =
        Pattern.compile("\\b(connect|bind|sendto|sendmsg|sendmmsg|listen)\\(.*AF_(INET|NETLINK)");
    assertEquals(
        List.of(),
        Files.readAllLines(seen).stream().filter(line -> reached.matcher(line).find()).toList());
  }

  private boolean mayWatch() throws InterruptedException {
    List<String> words = new ArrayList<>(watcher);
    words.add("true");
    try {
      return new ProcessBuilder(words)
              .redirectErrorStream(true)
              .redirectOutput(ProcessBuilder.Redirect.DISCARD)
              .start()
              .waitFor()
          == 0;
    } catch (IOException e) {
      return false;
    }
  }

  @Test
  void theProgramsJarHoldsNothingOfTheRuntimeAndTheSecondItsLicences() throws Exception {
    try (JarFile program = new JarFile(BUILT.resolve("everypart.jar").toFile());
        JarFile second = new JarFile(BUILT.resolve("everypart-meaning.jar").toFile())) {
      assertTrue(program.stream().noneMatch(entry -> entry.getName().contains("onnx")));
      for (String name :
          List.of(
              "META-INF/NOTICE",
              "META-INF/license.txt",
              "META-INF/licenses/onnxruntime.txt",
              "ThirdPartyNotices.txt")) {
        assertNotNull(second.getEntry(name), name);
      }
    }
  }

  /** Each library in the jar has its licence there, or is named beside the licence it is under. */
  @Test
  void theJarHoldsTheLicenceOfEachLibraryInIt() throws IOException {
    try (JarFile jar = new JarFile(folder.resolve("everypart.jar").toFile())) {
      String own = text(jar, "README.txt");
      int libraries = 0;
      for (String line : text(jar, "LIBRARIES.txt").lines().toList()) {
        Matcher library = LIBRARY.matcher(line);
        if (!library.find()) {
          continue;
        }
        libraries++;
        String name = library.group(1);
        boolean brought =
            jar.stream()
                .anyMatch(
                    file ->
                        file.getName().startsWith("META-INF/licenses/" + name + "-jar/")
                            && file.getName().toUpperCase(Locale.ROOT).contains("LICENSE")
                            && file.getSize() > 1_000);
        Matcher named = Pattern.compile("(?m)^" + name + " .*\\((\\S+\\.txt)\\)$").matcher(own);
        assertTrue(
            brought || (named.find() && text(jar, named.group(1)).length() > 1_000),
            name + " has no licence in the jar");
      }
      assertTrue(libraries > 25, "only " + libraries + " libraries are listed");
    }
  }

  private static String text(JarFile jar, String name) throws IOException {
    var entry = jar.getJarEntry("META-INF/licenses/" + name);
    assertNotNull(entry, name);
    try (InputStream in = jar.getInputStream(entry)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }
}
