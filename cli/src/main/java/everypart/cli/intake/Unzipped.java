package everypart.cli.intake;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.util.zip.GZIPInputStream;
import org.apache.commons.io.input.BoundedInputStream;

/**
 * What a .gz file unpacks to, ended where that is out of all proportion to the file. Tables of text
 * pack to a third or a tenth; what packs to less than a hundredth over a long stretch holds
 * nothing.
 */
final class Unzipped extends FilterInputStream {
  private static final int BUFFER = 1 << 16;
  private static final long FREE = 64L << 20;
  private static final long RATIO = 100;

  private final BoundedInputStream packed;
  private long count;

  private Unzipped(BoundedInputStream packed) throws IOException {
    super(new GZIPInputStream(packed, BUFFER));
    this.packed = packed;
  }

  static InputStream of(InputStream file) throws IOException {
    try {
      return new Unzipped(BoundedInputStream.builder().setInputStream(file).get());
    } catch (IOException e) {
      file.close();
      throw e;
    }
  }

  @Override
  public int read() throws IOException {
    byte[] one = new byte[1];
    return read(one, 0, 1) < 0 ? -1 : one[0] & 0xFF;
  }

  @Override
  public int read(byte[] bytes, int from, int length) throws IOException {
    int read = super.read(bytes, from, length);
    count += Math.max(read, 0);
    if (count > FREE && count / RATIO > packed.getCount()) {
      throw new IOException(Sayings.of("unzipped.unpacksMoreThan", RATIO));
    }
    return read;
  }
}
