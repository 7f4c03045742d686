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
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** Checksums of files, so that a run can say what it read and wrote. */
public final class Checksum {
  private Checksum() {}

  /**
   * Returns the SHA-256 of a file in hexadecimal, of a folder of Parquet files that of their bytes
   * one after the other in the order of their names; nothing for standard input, which can be read
   * only once, and for any other folder.
   *
   * @throws IOException when the file cannot be read
   */
  public static Optional<String> sha256(String name) throws IOException {
    if (name.equals(Sources.STANDARD_INPUT)) {
      return Optional.empty();
    }
    Path path = Path.of(name);
    boolean folder = Files.isDirectory(path) && ParquetParts.isParquet(name);
    List<Path> files =
        folder ? ParquetParts.files(path) : Files.isRegularFile(path) ? List.of(path) : List.of();
    if (files.isEmpty()) {
      return Optional.empty();
    }
    try (DigestInputStream in = new DigestInputStream(new InTurn(files), digest())) {
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

  /** The bytes of files one after the other, one open at a time. */
  private static final class InTurn extends InputStream {
    private final Iterator<Path> left;
    private InputStream open;

    InTurn(List<Path> files) throws IOException {
      this.left = files.iterator();
      this.open = left.hasNext() ? Files.newInputStream(left.next()) : nullInputStream();
    }

    @Override
    public int read() throws IOException {
      byte[] one = new byte[1];
      return read(one, 0, 1) < 0 ? -1 : one[0] & 0xFF;
    }

    @Override
    public int read(byte[] bytes, int from, int length) throws IOException {
      while (true) {
        int read = open.read(bytes, from, length);
        if (read >= 0 || !left.hasNext()) {
          return read;
        }
        open.close();
        open = Files.newInputStream(left.next());
      }
    }

    @Override
    public void close() throws IOException {
      open.close();
    }
  }

  /** A file whose bytes are counted into a checksum as they are read. */
  static final class OfFile extends DigestInputStream {
    private @Nullable String sum;

    OfFile(Path file) throws IOException {
      this(List.of(file));
    }

    OfFile(List<Path> files) throws IOException {
      super(new InTurn(files), Checksum.digest());
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
