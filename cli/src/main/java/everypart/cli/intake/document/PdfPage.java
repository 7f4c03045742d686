package everypart.cli.intake.document;

import java.util.List;

/**
 * A page of a PDF that holds text.
 *
 * @param lines its lines, as they follow each other in the file
 */
record PdfPage(List<PdfLine> lines) {
  PdfPage {
    lines = List.copyOf(lines);
  }
}
