package everypart.cli.intake;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.DigestInputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.Optional;

/** Checksums of files, so that a run can say what it read and wrote. */
public final class Checksum {
  private Checksum() {}

  /**
   * Returns the SHA-256 of a file in hexadecimal; nothing for standard input, which can be read
   * only once, and for a folder.
   *
   * @throws IOException when the file cannot be read
   */
  public static Optional<String> sha256(String name) throws IOException {
    if (name.equals(Sources.STANDARD_INPUT) || !Files.isRegularFile(Path.of(name))) {
      return Optional.empty();
    }
    try (InputStream file = Files.newInputStream(Path.of(name));
        DigestInputStream in = new DigestInputStream(file, MessageDigest.getInstance("SHA-256"))) {
      in.transferTo(OutputStream.nullOutputStream());
      return Optional.of(HexFormat.of().formatHex(in.getMessageDigest().digest()));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
