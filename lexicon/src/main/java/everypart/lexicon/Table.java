package everypart.lexicon;

import java.io.ByteArrayOutputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.Optional;
import java.util.function.ObjIntConsumer;

/**
 * Words with a number each, in the form in which they lie in a file: looked up without being read
 * into objects first, so that a list of a hundred thousand words costs a start next to nothing.
 *
 * <p>The form: how many words; how long the longest is; how many slots, a power of two; for each
 * slot where its word stands, 0 for an empty one; then for each word its number, its length and its
 * letters, two bytes each. Words are in the order in which they were given. A word is looked for
 * from the slot of its hash code on.
 */
final class Table {
  /** What a word gets that is not in it. */
  static final int ABSENT = -1;

  private static final int HEADER = 12;

  /** Where the letters of a word begin, behind its number and its length. */
  private static final int LETTERS = 6;

  private final byte[] file;
  private final ByteBuffer bytes;
  private final int mask;

  private Table(byte[] file) {
    this.file = file;
    this.bytes = ByteBuffer.wrap(file);
    this.mask = bytes.getInt(8) - 1;
  }

  /**
   * Makes a table.
   *
   * @param numbers words with their numbers, 0 or more
   */
  static Table of(Map<String, Integer> numbers) {
    return new Table(bytes(numbers));
  }

  /** Reads a table beside this class, if it is there: the build makes it. */
  static Optional<Table> bundled(String name) {
    try (InputStream in = Table.class.getResourceAsStream(name)) {
      return Optional.ofNullable(in == null ? null : new Table(in.readAllBytes()));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Returns a table as it lies in a file. */
  static byte[] bytes(Map<String, Integer> numbers) {
    int slots = Integer.highestOneBit(Math.max(1, numbers.size())) * 4;
    int[] places = new int[slots];
    ByteArrayOutputStream words = new ByteArrayOutputStream();
    int longest = 0;
    for (Map.Entry<String, Integer> entry : numbers.entrySet()) {
      String word = entry.getKey();
      int slot = slot(word, slots - 1);
      while (places[slot] != 0) {
        slot = (slot + 1) & (slots - 1);
      }
      places[slot] = HEADER + 4 * slots + words.size();
      words.writeBytes(ByteBuffer.allocate(4).putInt(entry.getValue()).array());
      words.writeBytes(ByteBuffer.allocate(2).putChar((char) word.length()).array());
      words.writeBytes(word.getBytes(StandardCharsets.UTF_16BE));
      longest = Math.max(longest, word.length());
    }
    ByteArrayOutputStream all = new ByteArrayOutputStream();
    try (DataOutputStream out = new DataOutputStream(all)) {
      out.writeInt(numbers.size());
      out.writeInt(longest);
      out.writeInt(slots);
      for (int place : places) {
        out.writeInt(place);
      }
      words.writeTo(out);
    } catch (IOException e) {
      throw new UncheckedIOException("a table is made in memory; no file is written", e);
    }
    return all.toByteArray();
  }

  private static int slot(String word, int mask) {
    int hash = word.hashCode();
    return (hash ^ (hash >>> 16)) & mask;
  }

  /** Returns it as it lies in a file. */
  byte[] toBytes() {
    return file.clone();
  }

  /** Returns the number of a word, or {@link #ABSENT}. */
  int get(String word) {
    for (int slot = slot(word, mask); ; slot = (slot + 1) & mask) {
      int place = bytes.getInt(HEADER + 4 * slot);
      if (place == 0) {
        return ABSENT;
      }
      if (isAt(place, word)) {
        return bytes.getInt(place);
      }
    }
  }

  private boolean isAt(int place, String word) {
    int length = word.length();
    if (lengthAt(place) != length) {
      return false;
    }
    for (int i = 0; i < length; i++) {
      if (bytes.getChar(place + LETTERS + 2 * i) != word.charAt(i)) {
        return false;
      }
    }
    return true;
  }

  private int lengthAt(int place) {
    return bytes.getChar(place + 4);
  }

  boolean has(String word) {
    return get(word) != ABSENT;
  }

  int size() {
    return bytes.getInt(0);
  }

  /** Returns how long its longest word is. */
  int longest() {
    return bytes.getInt(4);
  }

  /** Hands over each word with its number, in order. */
  void forEach(ObjIntConsumer<String> to) {
    for (int place = HEADER + 4 * (mask + 1);
        place < bytes.limit();
        place += LETTERS + 2 * lengthAt(place)) {
      int length = lengthAt(place);
      to.accept(
          new String(file, place + LETTERS, 2 * length, StandardCharsets.UTF_16BE),
          bytes.getInt(place));
    }
  }
}
