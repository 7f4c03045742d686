package everypart.cli.intake.document;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javax.xml.stream.XMLStreamException;

/**
 * Turns files into text: .txt, .md, .docx, .odt, .rtf, .pdf and .html.
 *
 * <p>What a file is called says how it is read, unless its first bytes say otherwise: rich text
 * saved under a name in .docx is read as rich text, with a remark. One reader serves all threads.
 */
public final class Documents {
  private final boolean markdown;
  private final Limits limits;

  /** Makes a reader that gives plain text, for responses. */
  public Documents() {
    this(false, Limits.USUAL);
  }

  private Documents(boolean markdown, Limits limits) {
    this.markdown = markdown;
    this.limits = limits;
  }

  /** Returns a reader that keeps headings and bold words in their Markdown signs, for prompts. */
  public static Documents withMarkdown() {
    return new Documents(true, Limits.USUAL);
  }

  /** Returns a reader with bounds of its own. */
  static Documents within(Limits limits) {
    return new Documents(false, limits);
  }

  /** Tells by its name whether a file is one of the formats that are read. */
  public static boolean reads(String name) {
    return Format.ofName(name).isPresent();
  }

  /** Tells by its name whether a file is plain text or Markdown. */
  public static boolean isPlainText(String name) {
    return Format.ofName(name).filter(Format.TEXT::equals).isPresent();
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

  /** Reads a file's bytes, as long as they keep to the bound. */
  static byte[] bytes(Path file, Limits limits) throws DocumentException {
    try (InputStream in =
        Packed.bounded(Files.newInputStream(file), limits.fileBytes(), read -> {})) {
      return in.readAllBytes();
    } catch (Packed.TooMuch e) {
      throw new DocumentException(tooLarge(limits));
    } catch (NoSuchFileException e) {
      throw new DocumentException("there is no such file", "check the name and the folder");
    } catch (AccessDeniedException e) {
      throw new DocumentException(
          "the file may not be read", "ask its owner for the right to read it");
    } catch (IOException e) {
      throw new DocumentException(
          Files.isDirectory(file) ? "this is a folder" : "the file cannot be read",
          Files.isDirectory(file) ? "give a file in it" : "copy it to another place and try again");
    }
  }

  static Remark tooLarge(Limits limits) {
    return new Remark(
        "the file is larger than " + Limits.inWords(limits.fileBytes()),
        "leave out its pictures, or save its text alone");
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
          "the file is empty (0 bytes)", "check that the right file was saved and sent whole");
    }
    if (Bytes.latin(bytes, Format.COMPOUND.length()).equals(Format.COMPOUND)) {
      throw new DocumentException(
          Bytes.holds(bytes, "EncryptedPackage") ? Faults.LOCKED : Format.unread("old.doc"));
    }
    List<Remark> remarks = new ArrayList<>();
    Format format = Format.ofContent(bytes, named.get()).orElse(named.get());
    if (format != named.get()) {
      remarks.add(
          new Remark(
              "the file is called "
                  + Format.ending(name)
                  + " and is "
                  + format.words()
                  + ", so it was read as that",
              "give it the right ending"));
    }
    if (format == Format.TEXT && Format.isZip(bytes)) {
      throw new DocumentException(PlainTextReader.NO_TEXT_FILE);
    }
    Blocks blocks = new Blocks(markdown, limits.characters());
    read(format, bytes, blocks, remarks);
    if (blocks.text().isBlank() && remarks.isEmpty()) {
      remarks.add(Faults.NO_TEXT);
    }
    return new Document(blocks.text(), remarks);
  }

  private void read(Format format, byte[] bytes, Blocks blocks, List<Remark> remarks)
      throws DocumentException {
    try {
      format.reader().read(bytes, blocks, remarks, limits);
    } catch (Packed.TooMuch e) {
      throw new DocumentException(Faults.TOO_MUCH_PACKED);
    } catch (XMLStreamException e) {
      throw new DocumentException(
          e.getNestedException() instanceof Packed.TooMuch
              ? Faults.TOO_MUCH_PACKED
              : Faults.DAMAGED);
    } catch (IOException | RuntimeException | StackOverflowError e) {
      // Libraries meet a broken file with whatever breaks first in them.
      throw new DocumentException(Faults.DAMAGED);
    }
  }
}
