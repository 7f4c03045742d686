package everypart.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;

import everypart.analyzer.coverage.CoverageAnalyzer;
import everypart.analyzer.prompt.Prompt;
import everypart.cli.intake.InputException;
import everypart.lexicon.Lexicon;
import everypart.lexicon.LexiconCheck;
import everypart.lexicon.LexiconException;
import everypart.lexicon.LexiconRemark;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;

/**
 * What a fuzzer that is guided by the code is aimed at: {@code .ci/fuzz}. The first byte of an
 * input says which kind of file it is, the rest is the file; of packed files also what is packed in
 * them, since hardly any change to a packed file leaves it one. {@code -Deverypart.fuzz.kind=NAME}
 * leaves one kind.
 */
public final class FuzzTarget {
  /** No input is judged that is longer, so that many are tried. */
  private static final int MOST_JUDGED = 2_000;

  private static final char BETWEEN = '\u0000';

  /** What is done with the rest of an input. */
  private interface Trial {
    void run(byte[] input) throws InputException, IOException;
  }

  @SuppressWarnings("ArrayRecordComponent") // nobody compares kinds
  private record Kind(String name, byte[] good, Trial trial) {}

  private static final class Once {
    static final FuzzTarget TARGET = make();

    private static FuzzTarget make() {
      try {
        return new FuzzTarget();
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }

  private final Path folder = Files.createTempDirectory("everypart-fuzz");
  private final CoverageAnalyzer analyzer = new CoverageAnalyzer(Lexicon.bundled());
  private final List<Kind> kinds = new ArrayList<>();

  private FuzzTarget() throws IOException {
    for (ReadableKinds.Kind kind : new ReadableKinds().all()) {
      kinds.add(
          new Kind(
              kind.name(),
              kind.good(),
              input -> kind.reader().read(Files.write(folder.resolve(kind.name()), input))));
      for (String entry : List.of("word/document.xml", "content.xml", "xl/worksheets/sheet1.xml")) {
        Map<String, byte[]> entries = entries(kind.good());
        if (entries.containsKey(entry)) {
          kinds.add(packed(kind, entries, entry));
        }
      }
    }
    for (String name : List.of("concepts-economics.yaml", "task-verbs-economics.yaml")) {
      Path lexicon = Files.createDirectories(folder.resolve("lexicon-" + kinds.size()));
      kinds.add(
          new Kind(
              name,
              Files.readAllBytes(Path.of("..", "demo-data", "economics", "lexicon", name)),
              input -> {
                Files.write(lexicon.resolve(name), input);
                lexicon(lexicon);
              }));
    }
    kinds.add(
        new Kind(
            "analysis",
            "(a) Describe the pool.\n(b) Explain why.\u0000a) It is cold. (b) since birds hunt"
                .getBytes(StandardCharsets.UTF_8),
            this::analyze));
    String only = System.getProperty("everypart.fuzz.kind", "");
    kinds.removeIf(kind -> !only.isEmpty() && !kind.name().equals(only));
    if (kinds.isEmpty()) {
      throw new IllegalArgumentException("no kind of input is called " + only);
    }
  }

  private Kind packed(ReadableKinds.Kind kind, Map<String, byte[]> entries, String entry) {
    return new Kind(
        kind.name() + "-" + entry.replace('/', '-'),
        entries.getOrDefault(entry, new byte[0]),
        input -> {
          Map<String, byte[]> changed = new LinkedHashMap<>(entries);
          changed.put(entry, input);
          kind.reader().read(Files.write(folder.resolve(kind.name()), ReadableKinds.zip(changed)));
        });
  }

  private static Map<String, byte[]> entries(byte[] file) throws IOException {
    Map<String, byte[]> entries = new LinkedHashMap<>();
    try (ZipInputStream zip = new ZipInputStream(new ByteArrayInputStream(file))) {
      for (ZipEntry entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
        entries.put(entry.getName(), zip.readAllBytes());
      }
    }
    return entries;
  }

  private static void lexicon(Path folder) {
    try {
      for (LexiconRemark remark : LexiconCheck.of(folder)) {
        ReadableKinds.namesNoException(remark.toString());
      }
    } catch (LexiconException e) {
      ReadableKinds.namesNoException(String.valueOf(e.getMessage()));
    }
  }

  private void analyze(byte[] input) {
    String text = new String(input, StandardCharsets.UTF_8);
    if (text.length() > MOST_JUDGED) {
      return;
    }
    int end = Math.max(0, text.indexOf(BETWEEN));
    Prompt prompt = analyzer.prompts().read("q", text.substring(0, end));
    Marks.check(analyzer.analyze(prompt, "r", text.substring(end)));
  }

  /** Returns the names of the kinds of input, in order. */
  static List<String> names() {
    return Once.TARGET.kinds.stream().map(Kind::name).toList();
  }

  /** Loads what is tried, which takes longer than an input may. */
  public static void fuzzerInitialize() throws IOException {
    for (Kind kind : Once.TARGET.kinds) {
      Once.TARGET.tryOne(kind, kind.good);
    }
  }

  /** Tries one input, which the fuzzer made. */
  public static void fuzzerTestOneInput(byte[] input) throws IOException {
    if (input.length > 0) {
      FuzzTarget target = Once.TARGET;
      Kind kind = target.kinds.get(Byte.toUnsignedInt(input[0]) % target.kinds.size());
      target.tryOne(kind, Arrays.copyOfRange(input, 1, input.length));
    }
  }

  private void tryOne(Kind kind, byte[] input) throws IOException {
    PrintStream console = System.err;
    ByteArrayOutputStream said = new ByteArrayOutputStream();
    System.setErr(new PrintStream(said, true, StandardCharsets.UTF_8));
    try {
      kind.trial.run(input);
    } catch (InputException e) {
      ReadableKinds.sentence(e.problem());
    } finally {
      System.setErr(console);
    }
    assertEquals("", said.toString(StandardCharsets.UTF_8), "a library spoke to the user");
  }

  /**
   * Writes what the fuzzer begins with: a good file of each kind.
   *
   * @param args the folder to write to
   */
  public static void main(String[] args) throws IOException {
    Path corpus = Files.createDirectories(Path.of(args[0]));
    List<Kind> kinds = Once.TARGET.kinds;
    for (int i = 0; i < kinds.size(); i++) {
      ByteArrayOutputStream seed = new ByteArrayOutputStream();
      seed.write(i);
      seed.writeBytes(kinds.get(i).good);
      Files.write(corpus.resolve(kinds.get(i).name), seed.toByteArray());
    }
  }
}
