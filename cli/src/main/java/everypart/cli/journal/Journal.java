package everypart.cli.journal;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.prompt.Prompt;
import java.io.BufferedReader;
import java.io.Closeable;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicLong;

/**
 * Remembers results on disk, a line each, written as soon as they are there: whatever ends the
 * program, those lines are kept. A line that was cut off is passed over.
 *
 * <p>A result is found again by the prompt's id, the response's id and its text, so a text that has
 * changed meanwhile is judged anew.
 */
public final class Journal implements Analysis, Closeable {
  private static final String FORMAT = "everypart-journal";
  private static final JsonMapper MAPPER = new JsonMapper();

  private final Path file;
  private final Analysis analyzer;
  private final Map<String, String> kept;
  private final AtomicLong recalled = new AtomicLong();
  private final Writer out;
  private boolean closed;

  /**
   * The first line.
   *
   * @param basis what the results rest on, by name
   */
  private record Head(String format, Map<String, String> basis) {}

  private Journal(Path file, Analysis analyzer, Map<String, String> kept, Writer out) {
    this.file = file;
    this.analyzer = analyzer;
    this.kept = Map.copyOf(kept);
    this.out = out;
  }

  /**
   * Begins a journal; one that is there is replaced.
   *
   * @param basis what the results rest on, by name: the program, the prompts, the settings
   */
  public static Journal begin(Path file, Map<String, String> basis, Analysis analyzer)
      throws IOException {
    Files.deleteIfExists(file);
    Writer out =
        Files.newBufferedWriter(file, StandardCharsets.UTF_8, StandardOpenOption.CREATE_NEW);
    out.write(json(new Head(FORMAT, new LinkedHashMap<>(basis))) + "\n");
    out.flush();
    return new Journal(file, analyzer, Map.of(), out);
  }

  /** Goes on with a journal. */
  public static Journal resume(Path file, Analysis analyzer) throws IOException {
    Map<String, String> kept = new HashMap<>();
    try (BufferedReader in = reader(file)) {
      for (String line = in.readLine(); line != null; line = in.readLine()) {
        Optional<JournalEntry> one = read(line, JournalEntry.class);
        if (one.isPresent()) {
          kept.put(one.get().key(), line);
        }
      }
    }
    Writer out = Files.newBufferedWriter(file, StandardCharsets.UTF_8, StandardOpenOption.APPEND);
    out.write("\n");
    out.flush();
    return new Journal(file, analyzer, kept, out);
  }

  /**
   * Returns the names of what differs between a journal's basis and this one; nothing where there
   * is no journal to go on with.
   */
  public static Optional<List<String>> differences(Path file, Map<String, String> basis)
      throws IOException {
    if (!Files.isRegularFile(file)) {
      return Optional.empty();
    }
    Optional<Head> head;
    try (BufferedReader in = reader(file)) {
      head = read(String.valueOf(in.readLine()), Head.class);
    }
    if (head.isEmpty() || !FORMAT.equals(head.get().format())) {
      return Optional.empty();
    }
    Map<String, String> old = head.get().basis();
    Map<String, String> all = new LinkedHashMap<>(basis);
    all.putAll(old);
    List<String> differing = new ArrayList<>();
    for (String name : all.keySet()) {
      if (!String.valueOf(old.get(name)).equals(basis.get(name))) {
        differing.add(name);
      }
    }
    return Optional.of(differing);
  }

  /** Reads bytes that may be cut off within a letter. */
  private static BufferedReader reader(Path file) throws IOException {
    return new BufferedReader(
        new InputStreamReader(Files.newInputStream(file), StandardCharsets.UTF_8));
  }

  private static <T> Optional<T> read(String line, Class<T> type) {
    try {
      return Optional.ofNullable(MAPPER.readValue(line, type));
    } catch (JsonProcessingException e) {
      return Optional.empty();
    }
  }

  private static String json(Object value) {
    try {
      return MAPPER.writeValueAsString(value);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("a record is always JSON", e);
    }
  }

  @Override
  public Coverage analyze(Prompt prompt, String responseId, String text) {
    String key = key(prompt.id(), responseId, text);
    Optional<JournalEntry> old =
        Optional.ofNullable(kept.get(key)).flatMap(line -> read(line, JournalEntry.class));
    if (old.isPresent()) {
      recalled.incrementAndGet();
      return old.get().restored(prompt, responseId, text);
    }
    Coverage coverage = analyzer.analyze(prompt, responseId, text);
    keep(JournalEntry.of(key, coverage));
    return coverage.withoutTokens();
  }

  /** Writes a line as it comes: of a long text it is much longer than the text. */
  private synchronized void keep(JournalEntry entry) {
    if (closed) {
      return;
    }
    try {
      try {
        MAPPER
            .writer()
            .without(JsonGenerator.Feature.AUTO_CLOSE_TARGET)
            .without(SerializationFeature.FLUSH_AFTER_WRITE_VALUE)
            .writeValue(out, entry);
      } finally {
        out.write('\n'); // one for which memory ran out is a line that was cut off
      }
      out.flush();
    } catch (IOException e) {
      // The results suffer from the same full disk and say so; the journal ends here.
      closed = true;
    }
  }

  /** Returns how many results were recalled rather than judged. */
  public long recalled() {
    return recalled.get();
  }

  /** Closes the journal and leaves it there. */
  @Override
  public synchronized void close() throws IOException {
    closed = true;
    out.close();
  }

  /** Takes the journal away, since all it was kept for is done. */
  public void finish() throws IOException {
    close();
    Files.deleteIfExists(file);
  }

  private static String key(String... of) {
    try {
      MessageDigest digest = MessageDigest.getInstance("SHA-256");
      for (String one : of) {
        byte[] bytes = one.getBytes(StandardCharsets.UTF_8);
        digest.update((bytes.length + ":").getBytes(StandardCharsets.UTF_8));
        digest.update(bytes);
      }
      return HexFormat.of().formatHex(digest.digest());
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
