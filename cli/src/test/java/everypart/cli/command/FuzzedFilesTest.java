package everypart.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.cli.intake.InputException;
import everypart.cli.run.ExitStatus;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

/**
 * Every reader on files that were good until bytes of them were changed, cut out, doubled or put
 * in: {@value #EACH} of each of 16 kinds, the same in every run; {@code -Deverypart.fuzz=N} makes N
 * of each. A reader either reads such a file or refuses it in a sentence. What a lexicon's reader
 * thinks of one is in {@link #LEXICONS} more.
 */
class FuzzedFilesTest {
  private static final int EACH = 120;
  private static final int LEXICONS = 80;
  private static final long SEED = 20_261_128;

  /** Bytes and words at which readers of these formats have stumbled, here or elsewhere. */
  private static final List<String> ODD =
      List.of(
          "\u0000",
          "\"",
          "'",
          "<",
          ">",
          "&",
          "{",
          "}",
          "[",
          "]",
          "\\",
          "\n",
          "\r",
          "\t",
          ",",
          ":",
          "- ",
          "\u00ff",
          "\ufeff",
          "\ud83d\ude00",
          "&#0;",
          "]]>",
          "<![CDATA[",
          "<!DOCTYPE x [",
          "%",
          "-1",
          "0",
          "999999999999",
          "1e999",
          "\\bin99999",
          "\\u-1?",
          "endobj",
          "stream",
          "/Length 9",
          "((((",
          "null",
          "true",
          "*",
          "&a *a",
          "!!int",
          "||",
          "a: ");

  @TempDir
  @SuppressWarnings("NullAway.Init")
  Path folder;

  private final ReadableKinds kinds = new ReadableKinds();
  private int read;
  private int refused;

  @TestFactory
  Stream<DynamicTest> aChangedFileIsReadOrRefusedInASentence() throws IOException {
    return kinds.all().stream().map(kind -> DynamicTest.dynamicTest(kind.name(), () -> fuzz(kind)));
  }

  /** A reader's library must not talk to the user either. */
  private void fuzz(ReadableKinds.Kind kind) throws Exception {
    PrintStream console = System.err;
    ByteArrayOutputStream said = new ByteArrayOutputStream();
    System.setErr(new PrintStream(said, true, StandardCharsets.UTF_8));
    try {
      changeAndRead(kind);
    } finally {
      System.setErr(console);
    }
    assertEquals("", said.toString(StandardCharsets.UTF_8));
  }

  private void changeAndRead(ReadableKinds.Kind kind) throws Exception {
    SplittableRandom random = new SplittableRandom(SEED + kind.name().hashCode());
    int each = Integer.getInteger("everypart.fuzz", EACH);
    read = 0;
    refused = 0;
    kind.reader().read(Files.write(folder.resolve(kind.name()), kind.good()));
    for (int i = 0; i < each; i++) {
      byte[] bytes = changed(kind.good(), random);
      Path file = Files.write(folder.resolve(kind.name()), bytes);
      try {
        if (kind.reader().read(file)) {
          read++;
        } else {
          refused++;
        }
      } catch (InputException e) {
        ReadableKinds.sentence(e.problem());
        refused++;
      } catch (RuntimeException | StackOverflowError | OutOfMemoryError | AssertionError e) {
        Path kept = Files.write(Path.of("target", "fuzzed-" + i + "-" + kind.name()), bytes);
        throw new AssertionError("input " + i + ", kept as " + kept + ": " + e, e);
      }
    }
    assertEquals(each, read + refused);
  }

  private static byte[] changed(byte[] good, SplittableRandom random) throws IOException {
    boolean packed = good.length > 2 && good[0] == 'P' && good[1] == 'K';
    if (!packed || random.nextInt(3) == 0) {
      return mutated(good, random);
    }
    Map<String, byte[]> entries = new LinkedHashMap<>();
    try (ZipInputStream zip = new ZipInputStream(new ByteArrayInputStream(good))) {
      for (ZipEntry entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
        entries.put(entry.getName(), zip.readAllBytes());
      }
    }
    List<String> names = List.copyOf(entries.keySet());
    entries.computeIfPresent(
        names.get(random.nextInt(names.size())), (name, bytes) -> mutated(bytes, random));
    return ReadableKinds.zip(entries);
  }

  private static byte[] mutated(byte[] good, SplittableRandom random) {
    byte[] bytes = good.clone();
    int changes = 1 + random.nextInt(4);
    for (int change = 0; change < changes; change++) {
      int at = random.nextInt(bytes.length + 1);
      int to = Math.min(bytes.length, at + random.nextInt(1 + Math.min(200, bytes.length)));
      byte[] put =
          switch (random.nextInt(6)) {
            case 0 -> new byte[] {(byte) random.nextInt(256)};
            case 1 -> ReadableKinds.utf8(ODD.get(random.nextInt(ODD.size())));
            case 2 ->
                ReadableKinds.utf8(
                    ODD.get(random.nextInt(ODD.size())).repeat(1 + random.nextInt(300)));
            case 3 -> twice(Arrays.copyOfRange(bytes, at, to));
            case 4 -> new byte[0];
            default -> Arrays.copyOfRange(bytes, 0, random.nextInt(bytes.length + 1));
          };
      boolean inPlace = random.nextBoolean();
      int from = inPlace ? Math.min(bytes.length, at + put.length) : to;
      ByteArrayOutputStream out = new ByteArrayOutputStream();
      out.write(bytes, 0, at);
      out.writeBytes(put);
      out.write(bytes, from, bytes.length - from);
      bytes = out.toByteArray();
    }
    return bytes;
  }

  private static byte[] twice(byte[] bytes) {
    byte[] twice = Arrays.copyOf(bytes, bytes.length * 2);
    System.arraycopy(bytes, 0, twice, bytes.length, bytes.length);
    return twice;
  }

  @Tag("slow")
  @Test
  void aChangedLexiconIsReadOrRefusedInASentence() throws IOException {
    byte[] good;
    try (InputStream in =
        Files.newInputStream(
            Path.of("..", "demo-data", "economics", "lexicon", "concepts-economics.yaml"))) {
      good = in.readAllBytes();
    }
    SplittableRandom random = new SplittableRandom(SEED);
    Path lexicon = Files.createDirectories(folder.resolve("lexicon"));
    int bad = 0;
    for (int i = 0; i < LEXICONS; i++) {
      Files.write(lexicon.resolve("concepts-economics.yaml"), mutated(good, random));
      Run run = Run.of("lexicon", "check", lexicon);
      assertTrue(run.status() == 0 || run.status() == ExitStatus.INPUT_LOST, i + ": " + run.err());
      assertFalse(run.err().contains("Exception"), i + ": " + run.err());
      bad += run.status() == 0 ? 0 : 1;
    }
    assertTrue(bad > LEXICONS / 4, "hardly any of them was bad: " + bad);
  }
}
