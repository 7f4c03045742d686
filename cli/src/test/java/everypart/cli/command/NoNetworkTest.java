package everypart.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import everypart.cli.Programs;
import everypart.cli.run.Console;
import everypart.cli.run.StatusLine;
import everypart.cli.run.Stop;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * No command touches the network: every one is run on the demo data, and on documents that ask for
 * something outside, in a Java whose sockets are traps. Where strace is installed, the same is
 * watched from outside Java, looking up of names and native code included.
 */
@Timeout(300)
class NoNetworkTest {
  private static final Path DEMO = Path.of("..", "demo-data");
  private static final String PROMPT = DEMO.resolve("prompts/lost-star.txt").toString();
  private static final String CLASS = DEMO.resolve("class.csv").toString();

  /** What asks the system to reach another machine, or to be reached by one. */
  private static final Pattern REACHED =
      Pattern.compile("\\b(connect|bind|sendto|sendmsg|sendmmsg|listen)\\(.*AF_(INET|NETLINK)");

  @TempDir
  @SuppressWarnings("NullAway.Init")
  Path folder;

  @SuppressWarnings("NullAway.Init")
  private Path touched;

  @SuppressWarnings("NullAway.Init")
  private Path watched;

  @BeforeEach
  void nameTheLogs() {
    touched = folder.resolve("touched.txt");
    watched = folder.resolve("watched.txt");
  }

  /** A call and its status; {@code status} is empty where either 0 or 3 will do. */
  private record Call(String status, String line) {}

  private Call call(String status, String... words) {
    return new Call(status, String.join("\t", words).replace("OUT", folder.toString()));
  }

  private List<Call> calls() {
    return List.of(
        call("0", "outline", "--format", "jsonl", DEMO.resolve("prompts").toString()),
        call("0", "check", PROMPT, "OUT/answer.txt", "--format", "html"),
        call(
            "0",
            "screen",
            PROMPT,
            CLASS,
            "--earlier",
            CLASS,
            "--slips",
            "html,txt,docx",
            "--pseudonyms",
            "OUT/key",
            "--out",
            "OUT/screen"),
        call("0", "study", "--prompts", PROMPT, "--responses", CLASS, "--out", "OUT/study"),
        call(
            "0",
            "study",
            "--prompts",
            PROMPT,
            "--responses",
            CLASS,
            "--out",
            "OUT/1",
            "--shard",
            "1/2"),
        call(
            "0",
            "study",
            "--prompts",
            PROMPT,
            "--responses",
            CLASS,
            "--out",
            "OUT/2",
            "--shard",
            "2/2"),
        call("0", "merge", "OUT/1", "OUT/2", "--out", "OUT/merged"),
        call(
            "0",
            "agree",
            "--codes",
            DEMO.resolve("codes.csv").toString(),
            "--results",
            "OUT/study/results.jsonl"),
        call("0", "trace", "--format", "jsonl", "OUT/answer.txt"),
        call("0", "lexicon", "check", DEMO.resolve("economics/lexicon").toString()),
        call("0", "lexicon", "search", "because"),
        call("0", "lexicon", "suggest", "--from", CLASS, "--prompts", PROMPT),
        call("0", "completion"),
        call("", "outline", "OUT/asking/page.html"),
        call("", "screen", PROMPT, "OUT/asking", "--out", "OUT/asked"));
  }

  /** Writes documents that ask a reader to fetch something. */
  private void writeDocumentsThatAsk() throws IOException {
    Path asking = Files.createDirectories(folder.resolve("asking"));
    Files.writeString(
        asking.resolve("page.html"),
        asking(
            "<!DOCTYPE html PUBLIC \"x\" \"HTTP\"><base href=HTTP><link rel=stylesheet href=HTTP>"
                + "<meta http-equiv=refresh content=\"0;url=HTTP\"><script src=HTTP></script>"
                + "<img src=HTTP><iframe src=HTTP></iframe><p>(a) Describe the tide pool."));
    Files.writeString(
        asking.resolve("linked.rtf"),
        asking("{\\rtf1{\\field{\\*\\fldinst INCLUDEPICTURE \"HTTP\"}} The pool is deep.}"));
    String doctype = "<!DOCTYPE x SYSTEM \"HTTP\" [<!ENTITY y SYSTEM \"HTTP\">]>";
    zip(
        asking.resolve("entity.docx"),
        "word/document.xml",
        doctype
            + "<w:document xmlns:w=\"http://schemas.openxmlformats.org/wordprocessingml/2006/main\">"
            + "<w:body><w:p><w:r><w:t>The pool &y; is deep.</w:t></w:r></w:p></w:body>"
            + "</w:document>");
    String names = "urn:oasis:names:tc:opendocument:xmlns:";
    zip(
        asking.resolve("entity.odt"),
        "content.xml",
        doctype
            + "<office:document-content xmlns:office=\""
            + names
            + "office:1.0\" xmlns:text=\""
            + names
            + "text:1.0\"><office:body><office:text><text:p>The pool &y; is deep.</text:p>"
            + "</office:text></office:body></office:document-content>");
  }

  private static String asking(String text) {
    return text.replace("HTTP", "http://127.0.0.1:9/x");
  }

  private static void zip(Path file, String name, String xml) throws IOException {
    try (OutputStream out = Files.newOutputStream(file);
        ZipOutputStream zip = new ZipOutputStream(out)) {
      zip.putNextEntry(new ZipEntry(name));
      zip.write(asking(xml).getBytes(StandardCharsets.UTF_8));
    }
  }

  private List<String> run(List<String> before, String... arguments) throws Exception {
    List<String> options = new ArrayList<>(List.of("-Deverypart.trap=" + touched));
    if (!List.of(arguments).contains("--open")) {
      options.add("-Djava.nio.channels.spi.SelectorProvider=" + NetworkTrap.class.getName());
    }
    List<String> words = new ArrayList<>(before);
    words.addAll(Programs.java(NetworkTrap.class, options.toArray(String[]::new)));
    words.addAll(List.of(arguments));
    Path out = folder.resolve("out.txt");
    Path err = folder.resolve("err.txt");
    Process process =
        new ProcessBuilder(words).redirectOutput(out.toFile()).redirectError(err.toFile()).start();
    assertEquals(0, process.waitFor(), Files.readString(err));
    return Files.readAllLines(out);
  }

  private void everyCommandRuns(List<String> before) throws Exception {
    Files.writeString(folder.resolve("answer.txt"), "(a) They hide because birds hunt by day.");
    writeDocumentsThatAsk();
    List<Call> calls = calls();
    Path file = folder.resolve("calls.txt");
    Files.write(file, calls.stream().map(Call::line).toList());
    List<String> ran = run(before, file.toString());
    for (int i = 0; i < calls.size(); i++) {
      Call call = calls.get(i);
      String expected = call.status().isEmpty() ? "[03]" : call.status();
      assertTrue(
          ran.get(i).matches(expected + "\t.*"),
          ran.get(i) + "\n" + Files.readString(folder.resolve("err.txt")));
    }
    assertEquals(calls.size(), ran.size());
    assertFalse(Files.exists(touched), () -> "a command touched the network: " + read(touched));
  }

  private static String read(Path file) {
    try {
      return Files.readString(file);
    } catch (IOException e) {
      return e.toString();
    }
  }

  @Test
  void everyCommandIsTried() {
    PrintWriter nothing =
        new PrintWriter(OutputStream.nullOutputStream(), true, StandardCharsets.UTF_8);
    Console console =
        new Console(
            InputStream.nullInputStream(),
            nothing,
            nothing,
            false,
            true,
            new StatusLine(nothing, false),
            new Stop());
    TreeSet<String> tried = new TreeSet<>();
    calls().forEach(call -> tried.add(call.line().replaceFirst("\t.*", "")));
    // "open" is there to listen, to this machine alone: LocalServerTest holds it to that, and the
    // rules of ArchitectureTest to opening no connection.
    tried.add("open");
    assertEquals(new TreeSet<>(Program.commandLine(console).getSubcommands().keySet()), tried);
  }

  @Test
  void theTrapsWork() throws Exception {
    List<String> met = run(List.of());
    assertTrue(met.size() >= 8, met.toString());
    met.forEach(one -> assertTrue(one.endsWith("\tthe trap"), met.toString()));
    assertTrue(Files.readAllLines(touched).size() >= met.size());
  }

  @Test
  void noCommandTouchesATrap() throws Exception {
    everyCommandRuns(List.of());
  }

  @Tag("slow")
  @Test
  void noCommandReachesOutsideAsSeenFromOutsideJava() throws Exception {
    List<String> watcher =
        List.of("strace", "-f", "-qq", "-e", "trace=network", "-o", watched.toString());
    assumeTrue(
        works(watcher), "strace is not installed or may not watch: Java's traps alone are used");
    // The watcher sees what it is to see: uses of the network on this machine, without traps.
    run(watcher, "--open");
    assertTrue(
        Files.readAllLines(watched).stream().anyMatch(line -> REACHED.matcher(line).find()),
        "the watcher saw nothing");
    everyCommandRuns(watcher);
    assertEquals(
        List.of(),
        Files.readAllLines(watched).stream().filter(line -> REACHED.matcher(line).find()).toList());
  }

  private static boolean works(List<String> watcher) {
    List<String> words = new ArrayList<>(watcher);
    words.add("true");
    return Programs.run(words);
  }
}
