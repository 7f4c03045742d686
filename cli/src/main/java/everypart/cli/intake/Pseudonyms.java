package everypart.cli.intake;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.GeneralSecurityException;
import java.security.SecureRandom;
import java.util.HexFormat;
import java.util.function.Consumer;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;

/**
 * Names that stand for ids and cannot be turned back without a key: the first 60 bits of
 * HMAC-SHA-256 (RFC 2104) over the id, in twelve letters and digits. The same key gives the same
 * name every time.
 */
public final class Pseudonyms {
  private static final int SHORTEST_KEY = 16;
  private static final int NEW_KEY = 32;
  private static final int LENGTH = 12;
  private static final String SIGNS = "abcdefghijkmnpqrstuvwxyz23456789";

  private final byte[] key;

  Pseudonyms(byte[] key) {
    this.key = key.clone();
  }

  /**
   * Reads a key, or makes one where there is no such file.
   *
   * @param notes is told of a key that was made
   * @throws InputException when the file cannot be read or written, or is too short for a key
   */
  public static Pseudonyms withKey(Path file, Consumer<InputProblem> notes) throws InputException {
    Place place = Place.file(file.toString());
    try {
      if (Files.notExists(file)) {
        byte[] fresh = new byte[NEW_KEY];
        new SecureRandom().nextBytes(fresh);
        Files.writeString(
            file, HexFormat.of().formatHex(fresh) + "\n", StandardOpenOption.CREATE_NEW);
        if (Files.getFileStore(file).supportsFileAttributeView("posix")) {
          Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-------"));
        }
        notes.accept(
            InputProblem.note(
                place, Sayings.of("pseudonyms.noSuchKey"), Sayings.of("pseudonyms.keepOnlyDoes")));
      }
      byte[] key = Files.readString(file).strip().getBytes(StandardCharsets.UTF_8);
      if (key.length < SHORTEST_KEY) {
        throw new InputException(
            InputProblem.fault(
                place,
                Sayings.of("pseudonyms.keyShorterThan", SHORTEST_KEY),
                Sayings.of("pseudonyms.nameFileDoes")));
      }
      return new Pseudonyms(key);
    } catch (IOException e) {
      throw new InputException(
          InputProblem.fault(
              place,
              Sayings.of("pseudonyms.keyCanNeither", String.valueOf(e.getMessage())),
              Sayings.of("pseudonyms.nameTextFile")));
    }
  }

  /** Returns the name that stands for an id. */
  public String of(String id) {
    byte[] mac = hmac(key, id);
    long bits = 0;
    for (int i = 0; i < Long.BYTES; i++) {
      bits = (bits << Byte.SIZE) | (mac[i] & 0xFF);
    }
    StringBuilder name = new StringBuilder();
    for (int i = 0; i < LENGTH; i++) {
      name.append(SIGNS.charAt((int) (bits >>> (Long.SIZE - 5 * (i + 1))) & 31));
    }
    return name.toString();
  }

  static byte[] hmac(byte[] key, String text) {
    try {
      Mac mac = Mac.getInstance("HmacSHA256");
      mac.init(new SecretKeySpec(key, "HmacSHA256"));
      return mac.doFinal(text.getBytes(StandardCharsets.UTF_8));
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException("every Java has HMAC-SHA-256", e);
    }
  }
}
