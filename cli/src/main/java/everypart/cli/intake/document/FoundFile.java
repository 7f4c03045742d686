package everypart.cli.intake.document;

import java.time.Instant;
import java.util.List;
import java.util.Optional;

/**
 * A file of a class set, or an entry of one that is no file to read.
 *
 * @param shown where it is, for messages: the path as given, with what is inside a zip file behind
 *     the path of that
 * @param name its own name, with its ending
 * @param folders the folders it stands in, below the folder or zip file that was given
 * @param changed when it was last changed, as far as the folder or the zip file tells
 * @param lost why it cannot be read; empty for a file
 * @param content gives its bytes, until the tree moves on
 */
public record FoundFile(
    String shown,
    String name,
    List<String> folders,
    Optional<Instant> changed,
    Optional<FileRemark> lost,
    Content content) {
  /** Gives a file's bytes. */
  public interface Content {
    /**
     * Reads the file.
     *
     * @throws DocumentException when it cannot be read
     */
    byte[] bytes() throws DocumentException;
  }

  /** Copies the folders. */
  public FoundFile {
    folders = List.copyOf(folders);
  }

  static FoundFile lost(String shown, String name, List<String> folders, FileRemark why) {
    return new FoundFile(
        shown,
        name,
        folders,
        Optional.empty(),
        Optional.of(why),
        () -> {
          throw new DocumentException(why);
        });
  }

  /**
   * Reads the file.
   *
   * @throws DocumentException when it cannot be read
   */
  public byte[] bytes() throws DocumentException {
    return content.bytes();
  }
}
