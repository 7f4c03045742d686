package everypart.cli.intake.document;

import java.nio.charset.StandardCharsets;

/** Looks at the raw bytes of a file. */
final class Bytes {
  private Bytes() {}

  /** Returns the first bytes, one a character. */
  static String latin(byte[] bytes, int most) {
    return new String(bytes, 0, Math.min(bytes.length, most), StandardCharsets.ISO_8859_1);
  }

  /** Tells whether a name stands in a compound file's list of streams, which is in UTF-16. */
  static boolean holds(byte[] bytes, String name) {
    byte[] wanted = name.getBytes(StandardCharsets.UTF_16LE);
    for (int i = 0; i + wanted.length <= bytes.length; i++) {
      int at = 0;
      while (at < wanted.length && bytes[i + at] == wanted[at]) {
        at++;
      }
      if (at == wanted.length) {
        return true;
      }
    }
    return false;
  }
}
