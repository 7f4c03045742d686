package everypart.cli.intake.document;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.contentstream.operator.Operator;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.io.MemoryUsageSetting;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.encryption.InvalidPasswordException;
import org.apache.pdfbox.text.PDFTextStripper;
import org.apache.pdfbox.text.TextPosition;

/**
 * Reads the text layer of .pdf files.
 *
 * <p>A PDF knows lines, not paragraphs. A line goes on in the next one when the first word of that
 * would not have fitted on it; a line that left room for it ended where its writer ended it.
 */
final class PdfReader implements FormatReader {
  private static final Remark SCANNED =
      new Remark(Sayings.of("pdfReader.scanned"), Sayings.of("pdfReader.scanned.mend"));

  private static final Pattern ITEM =
      Pattern.compile(
          "^(?:[-*\u2022\u2013\u25e6\u25cf\u25aa]\\s|[(\\[]?(?:\\d{1,2}|[A-Za-z]|[ivxIVX]{1,4})[)\\].:](?:\\s|$))");

  private static final Pattern BULLET = Pattern.compile("^[\u2022\u25e6\u25cf\u25aa]\\s*");

  @Override
  public void read(byte[] bytes, Blocks blocks, List<Remark> remarks, Meter meter)
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
      Pages pages = new Pages(meter);
      pages.getText(pdf);
      pages.pages.forEach(page -> lay(page, blocks));
      if (pages.pages.isEmpty() && !pages.scanned.isEmpty()) {
        throw new DocumentException(SCANNED);
      }
      if (!pages.scanned.isEmpty()) {
        remarks.add(new Remark(pages(pages.scanned) + SCANNED.what(), SCANNED.mend()));
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

  /**
   * A line of a page.
   *
   * @param left where it begins
   * @param right where it ends
   * @param firstWord how wide its first word is, with a blank
   * @param gap whether more room than usual is above it
   */
  private record Line(String text, float left, float right, float firstWord, boolean gap) {}

  /**
   * The lines of all pages, in the order in which they stand in the file. The tree of pages is
   * walked once, since the library would walk it again for each page that is asked for.
   */
  private static final class Pages extends PDFTextStripper {
    final List<List<Line>> pages = new ArrayList<>();
    final List<Integer> scanned = new ArrayList<>();
    private final Meter meter;
    private List<Line> lines = new ArrayList<>();
    private final StringBuilder text = new StringBuilder();
    private float left;
    private float right;
    private float firstWord;
    private boolean gap;
    private long characters;

    Pages(Meter meter) throws IOException {
      this.meter = meter;
      setSuppressDuplicateOverlappingText(true);
    }

    @Override
    protected void processOperator(Operator operator, List<COSBase> operands) throws IOException {
      meter.add(Limit.STEPS, 1);
      super.processOperator(operator, operands);
    }

    @Override
    protected void processTextPosition(TextPosition text) {
      meter.atMost(Limit.PAGE, ++characters);
      super.processTextPosition(text);
    }

    @Override
    protected void startPage(PDPage page) {
      meter.add(Limit.PAGES, 1);
      characters = 0;
    }

    @Override
    protected void endPage(PDPage page) {
      if (!lines.isEmpty()) {
        pages.add(lines);
        lines = new ArrayList<>();
      } else if (page.getResources() != null
          && page.getResources().getXObjectNames().iterator().hasNext()) {
        scanned.add(getCurrentPageNo());
      }
    }

    @Override
    protected void writeString(String words, List<TextPosition> places) throws IOException {
      if (places.isEmpty()) {
        return;
      }
      meter.add(Limit.TEXT, words.length());
      TextPosition first = places.get(0);
      TextPosition last = places.get(places.size() - 1);
      if (text.isEmpty()) {
        left = first.getXDirAdj();
        firstWord = firstWord(places);
      }
      right = last.getXDirAdj() + last.getWidthDirAdj();
      text.append(words);
    }

    private static float firstWord(List<TextPosition> places) {
      float start = places.get(0).getXDirAdj();
      float end = start;
      float space = places.get(0).getWidthOfSpace();
      for (TextPosition place : places) {
        if (place.getUnicode().isBlank()) {
          break;
        }
        end = place.getXDirAdj() + place.getWidthDirAdj();
      }
      return end - start + (Float.isFinite(space) ? space : 0);
    }

    @Override
    protected void writeWordSeparator() {
      text.append(' ');
    }

    @Override
    protected void writeLineSeparator() {
      endLine();
    }

    @Override
    protected void writeParagraphSeparator() {
      endLine();
      gap = true;
    }

    @Override
    protected void writeParagraphStart() {}

    @Override
    protected void writeParagraphEnd() {}

    @Override
    protected void writePageEnd() {
      endLine();
    }

    private void endLine() {
      if (!text.toString().isBlank()) {
        lines.add(new Line(text.toString().strip(), left, right, firstWord, gap));
        gap = false;
      }
      text.setLength(0);
    }
  }

  /** Joins the lines of a paragraph and lays the paragraphs out. */
  private static void lay(List<Line> lines, Blocks blocks) {
    float margin = 0;
    for (Line line : lines) {
      margin = Math.max(margin, line.right);
    }
    StringBuilder paragraph = new StringBuilder();
    for (int i = 0; i < lines.size(); i++) {
      Line line = lines.get(i);
      Line before = i == 0 ? null : lines.get(i - 1);
      if (before != null && !goesOn(before, line, margin)) {
        put(paragraph, blocks);
      }
      if (!paragraph.isEmpty()) {
        paragraph.append(' ');
      }
      paragraph.append(line.text);
    }
    put(paragraph, blocks);
  }

  private static boolean goesOn(Line line, Line next, float margin) {
    return !ITEM.matcher(next.text).find() && line.right + next.firstWord > margin;
  }

  private static void put(StringBuilder paragraph, Blocks blocks) {
    String text = paragraph.toString();
    paragraph.setLength(0);
    if (BULLET.matcher(text).find()) {
      blocks.item("-", BULLET.matcher(text).replaceFirst(""));
    } else if (ITEM.matcher(text).find()) {
      blocks.item("", text);
    } else {
      blocks.paragraph(text);
    }
  }
}
