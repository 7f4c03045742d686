package everypart.cli.intake.document;

import java.util.List;

/**
 * The text of a file.
 *
 * <p>Paragraphs stand apart by an empty line; items of a list and rows of a table by a line break.
 * Cells of a table's row stand apart by a tab. Plain text is left as its writer laid it out.
 *
 * @param text the text; blank when the file holds none
 * @param remarks what a person should know of how it was read
 */
public record Document(String text, List<FileRemark> remarks) {
  /** Copies the remarks. */
  public Document {
    remarks = List.copyOf(remarks);
  }
}
