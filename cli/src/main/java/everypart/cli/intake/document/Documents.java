package everypart.cli.intake.document;

import java.io.IOException;
import java.io.InputStream;
import java.io.Reader;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.ExecutionException;
import javax.xml.stream.XMLStreamException;
import org.jspecify.annotations.Nullable;

/**
 * The way into this room. Turns files into text (.txt, .md, .docx, .odt, .rtf, .pdf and .html),
 * opens class sheets, and finds the files of a class set.
 *
 * <p>What a file is called says how it is read, unless its first bytes say otherwise: rich text
 * saved under a name in .docx is read as rich text, with a remark. One reader serves all threads.
 */
public final class Documents {
  /** A file that marks a folder as one that results are written into; such a folder is no input. */
  public static final String RESULTS_MARK = FileTree.RESULTS_MARK;

  private final boolean markdown;
  private final Limits limits;

  /** Makes a reader that gives plain text, for responses. */
  public Documents() {
    this(Limits.USUAL);
  }

  /** Makes a reader that gives plain text, with bounds of its own. */
  public Documents(Limits limits) {
    this(false, limits);
  }

  private Documents(boolean markdown, Limits limits) {
    this.markdown = markdown;
    this.limits = limits;
  }

  /** Returns a reader that keeps headings and bold words in their Markdown signs, for prompts. */
  public static Documents withMarkdown(Limits limits) {
    return new Documents(true, limits);
  }

  /** Tells by its name whether a file is one of the formats that are read. */
  public static boolean reads(String name) {
    return Format.ofName(name).isPresent();
  }

  /** Tells by its name whether a file is plain text or Markdown. */
  public static boolean isPlainText(String name) {
    return Format.ofName(name).filter(Format.TEXT::equals).isPresent();
  }

  /** Tells by its name whether a file is a class sheet. */
  public static boolean isSheet(String name) {
    return Sheet.reads(name);
  }

  /** Tells by its name whether a file is a zip file of files. */
  public static boolean isZip(String name) {
    return FileTree.isZip(name);
  }

  /** Returns the endings of the files that are read, with their dots. */
  public static List<String> endings() {
    List<String> endings = new ArrayList<>();
    for (Format format : Format.values()) {
      endings.addAll(format.endings());
    }
    return List.copyOf(endings);
  }

  /**
   * Reads a file.
   *
   * @throws DocumentException when there is no such file, or it cannot be read
   */
  public Document read(Path file) throws DocumentException {
    return read(String.valueOf(file.getFileName()), bytes(file, limits));
  }

  /**
   * Opens a class sheet.
   *
   * @throws DocumentException when there is no such file, or it cannot be read
   */
  public Sheet sheet(Path file) throws DocumentException {
    return sheet(String.valueOf(file.getFileName()), bytes(file, limits));
  }

  /**
   * Opens a class sheet that is in memory.
   *
   * @param name what it is called; its ending says its format
   * @throws DocumentException when it cannot be read
   */
  public Sheet sheet(String name, byte[] bytes) throws DocumentException {
    return Sheet.open(name, bytes, limits);
  }

  /**
   * Returns the files of a class set.
   *
   * @param start a file, a folder or a zip file
   * @param shown how messages name it
   */
  public FileTree files(Path start, String shown) {
    return new FileTree(start, shown, limits);
  }

  /**
   * Returns a table of any length in which cells and rows are cut off one character and one cell
   * past the bound, so that neither is ever held whole.
   *
   * @param between the sign between cells
   */
  public Reader cells(Reader table, char between) {
    return new BoundedCells(table, between, limits);
  }

  /** Reads a file's bytes, as long as they keep to the bound. */
  static byte[] bytes(Path file, Limits limits) throws DocumentException {
    try {
      // A pipe or a device may never end.
      if (Files.exists(file) && !Files.isRegularFile(file) && !Files.isDirectory(file)) {
        throw new DocumentException(Faults.NO_FILE);
      }
      if (Files.size(file) > limits.bytes(Limit.FILE)) {
        throw new DocumentException(limits.exceeded(Limit.FILE));
      }
      try (InputStream in =
          Packed.bounded(Files.newInputStream(file), limits.bytes(Limit.FILE), read -> {})) {
        return in.readAllBytes();
      }
    } catch (OutOfMemoryError e) {
      throw new DocumentException(Faults.NO_MEMORY);
    } catch (Packed.TooMuch e) {
      throw new DocumentException(limits.exceeded(Limit.FILE));
    } catch (NoSuchFileException e) {
      throw new DocumentException(
          Sayings.of("documents.noSuchFile"), Sayings.of("documents.checkNameFolder"));
    } catch (AccessDeniedException e) {
      throw new DocumentException(
          Sayings.of("documents.fileMayRead"), Sayings.of("documents.askOwnerRight"));
    } catch (IOException e) {
      throw new DocumentException(
          Files.isDirectory(file)
              ? Sayings.of("documents.folder")
              : Sayings.of("documents.fileCannotRead"),
          Files.isDirectory(file)
              ? Sayings.of("documents.giveFile")
              : Sayings.of("documents.copyAnotherPlace"));
    }
  }

  /**
   * Reads a file that is in memory.
   *
   * @param name what it is called; its ending says its format
   * @throws DocumentException when it cannot be read
   */
  public Document read(String name, byte[] bytes) throws DocumentException {
    Optional<Format> named = Format.ofName(name);
    if (named.isEmpty()) {
      throw new DocumentException(Format.unread(name));
    }
    if (bytes.length == 0) {
      throw new DocumentException(
          Sayings.of("documents.fileEmptyBytes"), Sayings.of("documents.checkRightFile"));
    }
    if (Bytes.latin(bytes, Format.COMPOUND.length()).equals(Format.COMPOUND)) {
      throw new DocumentException(
          Bytes.holds(bytes, "EncryptedPackage") ? Faults.LOCKED : Format.unread("old.doc"));
    }
    List<FileRemark> remarks = new ArrayList<>();
    Format format = Format.ofContent(bytes, named.get()).orElse(named.get());
    if (format != named.get()) {
      remarks.add(
          new FileRemark(
              Sayings.of("documents.fileCalledRead", Format.ending(name), format.words()),
              Sayings.of("documents.giveRightEnding")));
    }
    if (format == Format.TEXT && Format.isZip(bytes)) {
      throw new DocumentException(PlainTextReader.NO_TEXT_FILE);
    }
    Meter meter = new Meter(limits);
    String text = read(format, bytes, meter, remarks);
    if (text.isBlank() && remarks.isEmpty()) {
      remarks.add(Faults.NO_TEXT);
    }
    return new Document(text, remarks);
  }

  private String read(Format format, byte[] bytes, Meter meter, List<FileRemark> remarks)
      throws DocumentException {
    try {
      return Watch.over(
          meter,
          () -> {
            Blocks blocks = new Blocks(markdown, meter);
            format.reader().read(bytes, blocks, remarks, meter);
            return blocks.text();
          });
    } catch (ExecutionException e) {
      throw fault(e.getCause(), limits);
    }
  }

  /** Returns what is said of a file that a library could not read. */
  static DocumentException fault(@Nullable Throwable cause, Limits limits) {
    for (Throwable at = cause; at != null; at = at.getCause()) {
      if (at instanceof DocumentException known) {
        return known;
      }
      if (at instanceof Packed.TooMuch
          || (at instanceof XMLStreamException xml
              && xml.getNestedException() instanceof Packed.TooMuch)) {
        return new DocumentException(limits.exceeded(Limit.UNPACKED));
      }
    }
    // Libraries meet a broken file with whatever breaks first in them.
    return new DocumentException(Faults.DAMAGED);
  }
}
