package everypart.parquet;

import io.airlift.compress.Compressor;
import io.airlift.compress.Decompressor;
import io.airlift.compress.lz4.Lz4Decompressor;
import io.airlift.compress.snappy.SnappyCompressor;
import io.airlift.compress.snappy.SnappyDecompressor;
import io.airlift.compress.zstd.ZstdDecompressor;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.Set;
import java.util.zip.GZIPInputStream;
import org.apache.parquet.bytes.BytesInput;
import org.apache.parquet.compression.CompressionCodecFactory;
import org.apache.parquet.hadoop.metadata.CompressionCodecName;

/**
 * Unpacks pages: Snappy, Zstandard and LZ4 by a library in Java alone, gzip by the JDK. What is
 * written is packed by Snappy.
 */
final class Codecs implements CompressionCodecFactory {
  /** What is unpacked. */
  static final Set<CompressionCodecName> READ =
      EnumSet.of(
          CompressionCodecName.UNCOMPRESSED,
          CompressionCodecName.SNAPPY,
          CompressionCodecName.ZSTD,
          CompressionCodecName.LZ4_RAW,
          CompressionCodecName.GZIP);

  /** No page that a program writes is near this; one that claims more is broken. */
  private static final int LARGEST_PAGE = 256 << 20;

  @Override
  public BytesInputCompressor getCompressor(CompressionCodecName name) {
    if (name != CompressionCodecName.SNAPPY) {
      throw new IllegalArgumentException("nothing is written as " + name);
    }
    Compressor snappy = new SnappyCompressor();
    return new BytesInputCompressor() {
      @Override
      public BytesInput compress(BytesInput bytes) throws IOException {
        byte[] whole = whole(bytes);
        byte[] packed = new byte[snappy.maxCompressedLength(whole.length)];
        int length = snappy.compress(whole, 0, whole.length, packed, 0, packed.length);
        return BytesInput.from(packed, 0, length);
      }

      @Override
      public CompressionCodecName getCodecName() {
        return name;
      }

      @Override
      public void release() {}
    };
  }

  @Override
  public BytesInputDecompressor getDecompressor(CompressionCodecName name) {
    return new BytesInputDecompressor() {
      @Override
      public BytesInput decompress(BytesInput bytes, int size) throws IOException {
        return BytesInput.from(unpacked(name, whole(bytes), size));
      }

      @Override
      public void decompress(ByteBuffer from, int length, ByteBuffer to, int size)
          throws IOException {
        byte[] packed = new byte[length];
        from.get(packed);
        to.put(unpacked(name, packed, size));
      }

      @Override
      public void release() {}
    };
  }

  private static byte[] unpacked(CompressionCodecName name, byte[] packed, int size)
      throws IOException {
    if (size < 0 || size > LARGEST_PAGE) {
      throw new IOException("a page claims to hold " + size + " bytes");
    }
    return switch (name) {
      case UNCOMPRESSED -> packed;
      case SNAPPY -> unpacked(new SnappyDecompressor(), packed, size);
      case ZSTD -> unpacked(new ZstdDecompressor(), packed, size);
      case LZ4_RAW -> unpacked(new Lz4Decompressor(), packed, size);
      case GZIP -> {
        try (InputStream in = new GZIPInputStream(new ByteArrayInputStream(packed))) {
          yield in.readNBytes(size);
        }
      }
      default -> throw new IOException("it is packed by " + name);
    };
  }

  private static byte[] unpacked(Decompressor by, byte[] packed, int size) {
    byte[] whole = new byte[size];
    int length = by.decompress(packed, 0, packed.length, whole, 0, size);
    return length == size ? whole : Arrays.copyOf(whole, length);
  }

  @Override
  public void release() {}

  private static byte[] whole(BytesInput bytes) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream(Math.toIntExact(bytes.size()));
    bytes.writeAllTo(out);
    return out.toByteArray();
  }
}
