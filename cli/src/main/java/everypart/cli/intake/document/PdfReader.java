package everypart.cli.intake.document;

import java.io.IOException;
import java.util.List;
import java.util.regex.Pattern;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.io.MemoryUsageSetting;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.encryption.InvalidPasswordException;

/**
 * Reads the text layer of .pdf files.
 *
 * <p>A PDF knows lines, not paragraphs, columns or margins: {@link PdfMargins} finds the running
 * heads and feet, {@link PdfColumns} the columns, {@link PdfParagraphs} the paragraphs, and {@link
 * PdfHyphens} joins the words that a line's end parted.
 */
final class PdfReader implements FormatReader {
  private static final FileRemark SCANNED =
      new FileRemark(Sayings.of("pdfReader.scanned"), Sayings.of("pdfReader.scanned.mend"));

  private static final Pattern BULLET = Pattern.compile("^[\u2022\u25e6\u25cf\u25aa]\\s*");

  @Override
  public void read(byte[] bytes, Blocks blocks, List<FileRemark> remarks, Meter meter)
      throws DocumentException, IOException {
    PdfFonts.useOwn();
    try (PDDocument pdf =
        Loader.loadPDF(
            bytes,
            "",
            null,
            null,
            MemoryUsageSetting.setupMainMemoryOnly(meter.limits().bytes(Limit.UNPACKED))
                .streamCache)) {
      meter.atMost(Limit.PAGES, pdf.getNumberOfPages());
      PdfPages pages = new PdfPages(meter);
      pages.getText(pdf);
      lay(PdfMargins.without(pages.pages()), blocks, meter);
      if (pages.pages().isEmpty() && !pages.scanned().isEmpty()) {
        throw new DocumentException(SCANNED);
      }
      if (!pages.scanned().isEmpty()) {
        remarks.add(new FileRemark(pages(pages.scanned()) + SCANNED.what(), SCANNED.mend()));
      }
    } catch (InvalidPasswordException e) {
      throw new DocumentException(Faults.LOCKED);
    }
  }

  private static String pages(List<Integer> numbers) {
    StringBuilder out = new StringBuilder(numbers.size() == 1 ? "page " : "pages ");
    for (int i = 0; i < numbers.size(); i++) {
      if (i == 10) {
        out.append(" and ").append(numbers.size() - i).append(" more");
        break;
      }
      out.append(i == 0 ? "" : ", ").append(numbers.get(i));
    }
    return out.append(": ").toString();
  }

  /** Lays out paragraphs, which may go on in the next column or on the next page. */
  private static void lay(List<PdfPage> pages, Blocks blocks, Meter meter) {
    PdfHyphens hyphens = new PdfHyphens(pages, meter);
    PdfColumns columns = new PdfColumns(meter);
    PdfParagraphs paragraphs = new PdfParagraphs(hyphens, text -> put(text, blocks));
    for (PdfPage page : pages) {
      for (PdfColumns.Region region : columns.of(page.lines())) {
        meter.step();
        paragraphs.add(region);
      }
    }
    paragraphs.end();
  }

  private static void put(String text, Blocks blocks) {
    if (BULLET.matcher(text).find()) {
      blocks.item("-", BULLET.matcher(text).replaceFirst(""));
    } else if (PdfParagraphs.isItem(text)) {
      blocks.item("", text);
    } else {
      blocks.paragraph(text);
    }
  }
}
