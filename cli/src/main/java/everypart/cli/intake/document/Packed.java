package everypart.cli.intake.document;

import java.io.ByteArrayInputStream;
import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.zip.ZipException;
import org.apache.commons.compress.archivers.zip.ZipArchiveEntry;
import org.apache.commons.compress.archivers.zip.ZipFile;
import org.apache.commons.compress.utils.SeekableInMemoryByteChannel;
import org.apache.commons.io.input.BoundedInputStream;

/** A document that is a zip file of parts; bounds what its parts may unpack to. */
final class Packed implements Closeable {
  /** Says that a part unpacks to more than it may. */
  static final class TooMuch extends IOException {
    private static final long serialVersionUID = 1L;
  }

  private final ZipFile zip;
  private final Meter meter;
  private long left;

  private Packed(ZipFile zip, Meter meter) {
    this.zip = zip;
    this.meter = meter;
    this.left = meter.limits().bytes(Limit.UNPACKED);
  }

  static Packed open(byte[] bytes, Meter meter) throws DocumentException, IOException {
    ZipFile zip;
    try {
      zip = ZipFile.builder().setSeekableByteChannel(new SeekableInMemoryByteChannel(bytes)).get();
    } catch (ZipException | IllegalArgumentException e) {
      throw new DocumentException(Faults.DAMAGED);
    }
    for (var all = zip.getEntries(); all.hasMoreElements(); all.nextElement()) {
      meter.add(Limit.ENTRIES, 1);
    }
    return new Packed(zip, meter);
  }

  boolean has(String name) {
    return zip.getEntry(name) != null;
  }

  /** Opens a part; one that is absent is empty. */
  InputStream part(String name) throws IOException, DocumentException {
    ZipArchiveEntry entry = zip.getEntry(name);
    if (entry == null) {
      return new ByteArrayInputStream(new byte[0]);
    }
    if (entry.getGeneralPurposeBit().usesEncryption()) {
      throw new DocumentException(Faults.LOCKED);
    }
    InputStream in = zip.getInputStream(entry);
    return bounded(
        in,
        left,
        read -> {
          left -= Math.max(read, 0);
          meter.look();
        });
  }

  /** Returns the names of all parts, in the order of the file. */
  List<String> names() {
    List<String> names = new ArrayList<>();
    zip.getEntries().asIterator().forEachRemaining(entry -> names.add(entry.getName()));
    return names;
  }

  /** Tells how much was read of a stream. */
  interface Count {
    void read(long bytes);
  }

  /** Stops a stream that holds more than it may. */
  static InputStream bounded(InputStream in, long most, Count count) throws IOException {
    return BoundedInputStream.builder()
        .setInputStream(in)
        .setMaxCount(most + 1)
        .setOnMaxCount(
            (max, read) -> {
              throw new TooMuch();
            })
        .setAfterRead(count::read)
        .get();
  }

  @Override
  public void close() throws IOException {
    zip.close();
  }
}
