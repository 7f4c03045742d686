package everypart.cli.intake.document;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.font.PDType1Font;
import org.apache.pdfbox.pdmodel.font.Standard14Fonts.FontName;

/** A PDF that is set by hand: lines at places, in the order in which they are put. */
public final class PrintedPdf implements AutoCloseable {
  private static final float TOP = 792;

  static {
    PdfFonts.useOwn();
  }

  private static final PDType1Font FONT = new PDType1Font(FontName.HELVETICA);

  private final PDDocument pdf = new PDDocument();
  private PDPageContentStream content;

  /** Begins with an empty page of 612 by 792 points. */
  public PrintedPdf() throws IOException {
    content = page();
  }

  private PDPageContentStream page() throws IOException {
    PDPage page = new PDPage();
    pdf.addPage(page);
    return new PDPageContentStream(pdf, page);
  }

  /** Begins another page. */
  public PrintedPdf next() throws IOException {
    content.close();
    content = page();
    return this;
  }

  /** Puts a line so many points from the left and from the top. */
  public PrintedPdf put(float left, float down, float size, String text) throws IOException {
    content.beginText();
    content.setFont(FONT, size);
    content.newLineAtOffset(left, TOP - down);
    content.showText(text);
    content.endText();
    return this;
  }

  /** Puts lines below each other, 14 points apart. */
  public PrintedPdf lines(float left, float down, List<String> lines) throws IOException {
    for (int i = 0; i < lines.size(); i++) {
      put(left, down + 14 * i, 11, lines.get(i));
    }
    return this;
  }

  /** Puts one line. */
  public PrintedPdf line(float left, float down, String line) throws IOException {
    return put(left, down, 11, line);
  }

  /** Returns a text in lines that are no wider than so many points, as a word processor sets it. */
  public static List<String> wrapped(float width, String text) throws IOException {
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder();
    for (String word : text.split(" ")) {
      String longer = line.isEmpty() ? word : line + " " + word;
      if (!line.isEmpty() && FONT.getStringWidth(longer) * 11 / 1000 > width) {
        lines.add(line.toString());
        longer = word;
      }
      line.setLength(0);
      line.append(longer);
    }
    lines.add(line.toString());
    return lines;
  }

  /** Returns the file. */
  public byte[] bytes() throws IOException {
    content.close();
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    pdf.save(out);
    return out.toByteArray();
  }

  @Override
  public void close() throws IOException {
    pdf.close();
  }
}
