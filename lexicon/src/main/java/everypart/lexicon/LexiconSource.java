package everypart.lexicon;

import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/**
 * A file that a lexicon was read from, so that a report can say which lexicon it rests on.
 *
 * @param name the file's name
 * @param sha256 the SHA-256 of its bytes, in hexadecimal
 */
public record LexiconSource(String name, String sha256) {
  static LexiconSource of(String name, byte[] bytes) {
    try {
      byte[] digest = MessageDigest.getInstance("SHA-256").digest(bytes);
      return new LexiconSource(name, HexFormat.of().formatHex(digest));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
