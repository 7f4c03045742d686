package everypart.cli.intake;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.DigestInputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

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
        DigestInputStream in = new DigestInputStream(file, digest())) {
      in.transferTo(OutputStream.nullOutputStream());
      return Optional.of(HexFormat.of().formatHex(in.getMessageDigest().digest()));
    }
  }

  /** A checksum of a text that comes in pieces. */
  public static final class OfText implements Appendable {
    private final MessageDigest digest = Checksum.digest();

    @Override
    public OfText append(CharSequence piece) {
      digest.update(piece.toString().getBytes(StandardCharsets.UTF_8));
      return this;
    }

    @Override
    public OfText append(CharSequence piece, int from, int to) {
      return append(piece.subSequence(from, to));
    }

    @Override
    public OfText append(char one) {
      return append(String.valueOf(one));
    }

    /** Returns the SHA-256 of all pieces in UTF-8. */
    public String hexadecimal() {
      return HexFormat.of().formatHex(digest.digest());
    }
  }

  /** A file whose bytes are counted into a checksum as they are read. */
  static final class OfFile extends DigestInputStream {
    private @Nullable String sum;

    OfFile(Path file) throws IOException {
      super(Files.newInputStream(file), Checksum.digest());
    }

    @Override
    public int read() throws IOException {
      return ended(super.read());
    }

    @Override
    public int read(byte[] bytes, int from, int length) throws IOException {
      return ended(super.read(bytes, from, length));
    }

    private int ended(int read) {
      if (read < 0 && sum == null) {
        sum = HexFormat.of().formatHex(getMessageDigest().digest());
      }
      return read;
    }

    /**
     * Returns the SHA-256 in hexadecimal, after reading what nobody wanted; nothing where the file
     * was closed before its end.
     */
    Optional<String> sum() {
      try {
        if (sum == null) {
          transferTo(OutputStream.nullOutputStream());
        }
      } catch (IOException e) {
        return Optional.empty();
      }
      return Optional.ofNullable(sum);
    }
  }

  /** Returns the SHA-256 of a text in UTF-8 in hexadecimal. */
  public static String ofText(String text) {
    return HexFormat.of().formatHex(digest().digest(text.getBytes(StandardCharsets.UTF_8)));
  }

  private static MessageDigest digest() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
