package everypart.cli.intake.document;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.apache.pdfbox.contentstream.operator.Operator;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.text.PDFTextStripper;
import org.apache.pdfbox.text.TextPosition;

/**
 * The lines of all pages, in the order in which they stand in the file. The tree of pages is walked
 * once, since the library would walk it again for each page that is asked for.
 */
final class PdfPages extends PDFTextStripper {
  /** No page is larger; a place beyond it is a number that was made up. */
  private static final float MOST = 20_000;

  private final List<PdfPage> pages = new ArrayList<>();
  private final List<Integer> scanned = new ArrayList<>();
  private final Meter meter;
  private List<PdfLine> lines = new ArrayList<>();
  private List<PdfLine.Run> runs = new ArrayList<>();
  private float base;
  private float size;
  private long characters;

  PdfPages(Meter meter) throws IOException {
    this.meter = meter;
    setSuppressDuplicateOverlappingText(true);
  }

  /** Returns the pages that hold text. */
  List<PdfPage> pages() {
    return pages;
  }

  /** Returns the numbers of the pages that hold a picture and no text. */
  List<Integer> scanned() {
    return scanned;
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
      pages.add(new PdfPage(lines));
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
    if (runs.isEmpty()) {
      base = onPage(first.getYDirAdj());
      size = Math.max(1, onPage(first.getHeightDir()) * 1.4f);
    }
    float left = onPage(first.getXDirAdj());
    float right = Math.max(left, onPage(last.getXDirAdj() + last.getWidthDirAdj()));
    runs.add(new PdfLine.Run(words, left, right, firstWord(places)));
  }

  /** Returns a place that can be reckoned with, whatever the file says. */
  private static float onPage(float place) {
    return Float.isFinite(place) ? Math.min(Math.max(place, -MOST), MOST) : 0;
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
    return onPage(end - start + (Float.isFinite(space) ? space : 0));
  }

  @Override
  protected void writeWordSeparator() {}

  @Override
  protected void writeLineSeparator() {
    endLine();
  }

  @Override
  protected void writeParagraphSeparator() {
    endLine();
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
    if (runs.stream().anyMatch(run -> !run.text().isBlank())) {
      lines.add(new PdfLine(runs, base, size));
    }
    runs = new ArrayList<>();
  }
}
