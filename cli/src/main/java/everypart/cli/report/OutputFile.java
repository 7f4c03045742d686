package everypart.cli.report;

import java.io.BufferedWriter;
import java.io.IOException;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.Writer;
import java.nio.channels.Channels;
import java.nio.charset.StandardCharsets;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Set;
import java.util.zip.GZIPOutputStream;
import org.jspecify.annotations.Nullable;

/**
 * A file that is written beside its final place and moved there when it is whole, so that what was
 * there before is never damaged. UTF-8, lines end as the writer says.
 */
public final class OutputFile implements AutoCloseable {
  private static final int BUFFER = 1 << 16;

  private final Path target;
  private final Path beside;
  private final BufferedWriter writer;
  private final boolean kept;
  private boolean done;

  /** Begins a file; one whose name ends with .gz is zipped. */
  public OutputFile(Path target) throws IOException {
    this(target, unfinished(target), false);
  }

  /**
   * Begins a file.
   *
   * @param beside where it stands until it is whole
   */
  public OutputFile(Path target, Path beside) throws IOException {
    this(target, beside, false);
  }

  /**
   * Begins a file that stays where it is when it is not finished, so that what was written is not
   * lost.
   *
   * @param beside where it stands until it is whole
   */
  public static OutputFile kept(Path target, Path beside) throws IOException {
    return new OutputFile(target, beside, true);
  }

  private OutputFile(Path target, Path beside, boolean kept) throws IOException {
    this.target = target;
    this.beside = beside;
    this.kept = kept;
    OutputStream bytes = create(beside);
    this.writer =
        new BufferedWriter(
            new OutputStreamWriter(
                target.toString().endsWith(".gz") ? new GZIPOutputStream(bytes, BUFFER) : bytes,
                StandardCharsets.UTF_8),
            BUFFER);
  }

  private static Path unfinished(Path target) {
    return target.resolveSibling("." + target.getFileName() + ".unfinished");
  }

  /**
   * Makes a file that only its owner may read. What was there before is taken away first, so that a
   * link is never written through.
   */
  public static OutputStream create(Path file) throws IOException {
    Files.deleteIfExists(file);
    return Channels.newOutputStream(
        Files.newByteChannel(
            file,
            Set.of(StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE),
            ownerOnly(file.toAbsolutePath().getParent(), false)));
  }

  /** Makes a folder, with those it lies in, that only its owner may open, unless it is there. */
  public static Path createFolder(Path folder) throws IOException {
    if (Files.isDirectory(folder)) {
      return folder;
    }
    Path parent = folder.toAbsolutePath().getParent();
    return parent == null
        ? Files.createDirectories(folder)
        : Files.createDirectories(folder, ownerOnly(existing(parent), true));
  }

  private static Path existing(Path folder) {
    Path at = folder;
    while (!Files.exists(at)) {
      Path parent = at.getParent();
      if (parent == null) {
        return at;
      }
      at = parent;
    }
    return at;
  }

  /**
   * Returns the rights of what is made in a folder: results quote what students wrote, so they are
   * their owner's alone. Nothing where the system has no such rights.
   */
  public static FileAttribute<?>[] ownerOnly(@Nullable Path in, boolean folder) throws IOException {
    return in != null && Files.getFileStore(in).supportsFileAttributeView("posix")
        ? new FileAttribute<?>[] {
          PosixFilePermissions.asFileAttribute(
              PosixFilePermissions.fromString(folder ? "rwx------" : "rw-------"))
        }
        : new FileAttribute<?>[0];
  }

  /** Returns the writer of its content. */
  public Writer writer() {
    return writer;
  }

  /** Moves the whole file to its place. */
  public void finish() throws IOException {
    writer.close();
    try {
      Files.move(
          beside, target, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
    } catch (AtomicMoveNotSupportedException e) {
      Files.move(beside, target, StandardCopyOption.REPLACE_EXISTING);
    }
    done = true;
  }

  /** Drops the file when it was not finished, unless what was written is kept. */
  @Override
  public void close() throws IOException {
    if (!done) {
      try {
        writer.close();
      } finally {
        if (!kept) {
          Files.deleteIfExists(beside);
        }
      }
    }
  }

  /** Writes a whole file. */
  public static void write(Path target, String content) throws IOException {
    try (OutputFile file = new OutputFile(target)) {
      file.writer().write(content);
      file.finish();
    }
  }

  /** Writes a whole file of bytes. */
  public static void write(Path target, byte[] content) throws IOException {
    Path beside = unfinished(target);
    try (OutputStream out = create(beside)) {
      out.write(content);
    }
    Files.move(beside, target, StandardCopyOption.REPLACE_EXISTING);
  }
}
