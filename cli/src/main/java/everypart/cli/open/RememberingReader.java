package everypart.cli.open;

import everypart.analyzer.judge.Reader;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CancellationException;
import java.util.function.BooleanSupplier;
import java.util.function.Supplier;

/**
 * A reader that reads nothing twice, and stops where nobody waits any longer. A page asks about the
 * same words again and again: the draft that was kept, the answer after one demand was corrected,
 * the whole class after that. What it remembers are digests and opinions, no words.
 */
public final class RememberingReader implements Reader {
  private static final int MOST = 20_000;

  private static final ThreadLocal<BooleanSupplier> WANTED =
      ThreadLocal.withInitial(() -> () -> true);

  private final Reader reader;
  private final Map<ByteBuffer, Opinion> known =
      Collections.synchronizedMap(
          new LinkedHashMap<>(16, 0.75f, true) {
            @Override
            protected boolean removeEldestEntry(Map.Entry<ByteBuffer, Opinion> eldest) {
              return size() > MOST;
            }
          });

  /** Remembers what a reader says. */
  public RememberingReader(Reader reader) {
    this.reader = reader;
  }

  /**
   * Does some work on this thread as long as it is wanted; that is asked before each reading.
   *
   * @throws CancellationException when it is no longer wanted
   */
  static <T> T whileWanted(BooleanSupplier wanted, Supplier<T> work) {
    WANTED.set(wanted);
    try {
      return work.get();
    } finally {
      WANTED.remove();
    }
  }

  @Override
  public double share() {
    return reader.share();
  }

  @Override
  public Reader oneAtATime() {
    Reader alone = reader.oneAtATime();
    return alone == reader ? this : new RememberingReader(alone);
  }

  @Override
  public Opinion read(String demand, List<String> own, List<String> rest) {
    if (!WANTED.get().getAsBoolean()) {
      throw new CancellationException();
    }
    ByteBuffer key = digest(demand, own, rest);
    Opinion before = known.get(key);
    if (before != null) {
      return before;
    }
    Opinion opinion = reader.read(demand, own, rest);
    known.put(key, opinion);
    return opinion;
  }

  private static ByteBuffer digest(String demand, List<String> own, List<String> rest) {
    try {
      MessageDigest digest = MessageDigest.getInstance("SHA-256");
      add(digest, List.of(demand));
      add(digest, own);
      add(digest, rest);
      return ByteBuffer.wrap(digest.digest());
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }

  /** Lengths stand before what they count, so that no two lists of words look the same. */
  private static void add(MessageDigest digest, List<String> words) {
    digest.update(ByteBuffer.allocate(Integer.BYTES).putInt(0, words.size()));
    for (String one : words) {
      byte[] bytes = one.getBytes(StandardCharsets.UTF_8);
      digest.update(ByteBuffer.allocate(Integer.BYTES).putInt(0, bytes.length));
      digest.update(bytes);
    }
  }
}
