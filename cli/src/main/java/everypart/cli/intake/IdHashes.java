package everypart.cli.intake;

import java.nio.charset.StandardCharsets;
import org.apache.commons.codec.digest.MurmurHash3;

/**
 * The ids seen so far, each as 64 bits, so that ten million of them take 128 MB.
 *
 * <p>Two ids with the same hash are taken for one: among ten million ids the chance that any two
 * are is about 3 in a million (n squared over 2 to the 65th). What then happens is that a response
 * gets a longer id, and a message says so; nothing is lost.
 *
 * <p>A table with open addressing (Knuth DE (1998) The Art of Computer Programming, volume 3,
 * section 6.4, algorithm L); the hash is the first half of MurmurHash3 x64 128.
 */
final class IdHashes {
  private static final int FIRST_SIZE = 1 << 10;

  private long[] table = new long[FIRST_SIZE];
  private int used;

  /** Adds an id and returns whether it is new. */
  boolean add(String id) {
    if (used >= table.length / 4 * 3) {
      grow();
    }
    long hash = MurmurHash3.hash128x64(id.getBytes(StandardCharsets.UTF_8))[0];
    // Zero marks an empty place.
    if (!put(table, hash == 0 ? 1 : hash)) {
      return false;
    }
    used++;
    return true;
  }

  private void grow() {
    long[] larger = new long[table.length * 2];
    for (long hash : table) {
      if (hash != 0) {
        put(larger, hash);
      }
    }
    table = larger;
  }

  private static boolean put(long[] table, long hash) {
    int mask = table.length - 1;
    int at = (int) hash & mask;
    while (table[at] != 0) {
      if (table[at] == hash) {
        return false;
      }
      at = (at + 1) & mask;
    }
    table[at] = hash;
    return true;
  }
}
