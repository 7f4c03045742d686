package everypart.cli.intake.document;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.Consumer;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Joins the lines of a paragraph.
 *
 * <p>A line goes on in the next one when the first word of that would not have fitted on it; a line
 * that left room for it ended where its writer ended it. A paragraph goes on in the next column or
 * on the next page when it broke off in a sentence. The caption of a figure stands apart, after the
 * paragraph that it interrupts.
 */
final class PdfParagraphs {
  private static final Pattern ITEM =
      Pattern.compile(
          "^(?:[-*\\u2022\\u2013\\u25e6\\u25cf\\u25aa]\\s|[(\\[]?(?:\\d{1,2}|[A-Za-z]|[ivxIVX]{1,4})[)\\].:](?:\\s|$))");

  private static final Pattern CAPTION =
      Pattern.compile(
          "^(?:Figure|FIGURE|Fig\\.?|FIG\\.?|Table|TABLE|Diagram|Graph|Chart|Plate|Photo|Photograph"
              + "|Picture|Image|Map)\\s?\\d{1,3}[a-z]?(?:[.:]|\\s?[\\u2013\\u2014|-])(?:\\s|$)");

  /** How much more room than usual is above a line that begins anew. */
  private static final float GAP = 1.5f;

  /** How many distances of lines tell too little. */
  private static final int FEW = 3;

  /** How far apart lines stand where one is left free, in heights of letters. */
  private static final float DOUBLE = 1.7f;

  /** How much smaller letters of a caption are. */
  private static final float SMALLER = 0.93f;

  private final PdfHyphens hyphens;
  private final Consumer<String> out;
  private final StringBuilder paragraph = new StringBuilder();
  private final List<String> captions = new ArrayList<>();
  private @Nullable StringBuilder caption;
  private @Nullable PdfLine last;
  private float lastMargin;

  /**
   * Starts with no paragraph.
   *
   * @param out takes each paragraph when it is whole
   */
  PdfParagraphs(PdfHyphens hyphens, Consumer<String> out) {
    this.hyphens = hyphens;
    this.out = out;
  }

  /** Tells whether a line begins an item of a list. */
  static boolean isItem(String text) {
    return ITEM.matcher(text).find();
  }

  /** Adds the lines of a region. */
  void add(PdfColumns.Region region) {
    float margin = region.right();
    float spacing = spacing(region.lines());
    float size = size(region.lines());
    PdfLine before = null;
    for (PdfLine line : region.lines()) {
      String text = line.text();
      float drop = before == null ? Float.NaN : line.base() - before.base();
      boolean gap = before != null && (drop > GAP * spacing || drop < -line.size());
      StringBuilder started = caption;
      if (started != null
          && before != null
          && !gap
          && isCaptionStill(started, before, line, margin)) {
        append(started, text);
      } else if (startsCaption(text, line, before, gap, size)) {
        endCaption();
        caption = new StringBuilder(text);
      } else {
        boolean afterCaption = started != null;
        endCaption();
        boolean goesOn =
            (before == null || afterCaption) ? breaksOff(text) : goesOn(before, line, margin, gap);
        if (!goesOn) {
          endParagraph();
        }
        append(paragraph, text);
        last = line;
        lastMargin = margin;
      }
      before = line;
    }
  }

  private static boolean isCaptionStill(
      StringBuilder caption, PdfLine before, PdfLine line, float margin) {
    boolean sameSize = Math.abs(line.size() - before.size()) < before.size() * (1 - SMALLER);
    boolean full = before.right() + line.firstWord() > margin;
    boolean open = ".!?".indexOf(caption.charAt(caption.length() - 1)) < 0;
    return sameSize && (full || open);
  }

  /** "Figure 2." after some room, or in smaller letters, or in a region of its own. */
  private static boolean startsCaption(
      String text, PdfLine line, @Nullable PdfLine before, boolean gap, float size) {
    return CAPTION.matcher(text).find() && (before == null || gap || line.size() < size * SMALLER);
  }

  /** Tells whether the paragraph broke off in a sentence that a line of another place ends. */
  private boolean breaksOff(String next) {
    PdfLine line = last;
    if (paragraph.isEmpty() || line == null || next.isEmpty() || isItem(next)) {
      return false;
    }
    char end = paragraph.charAt(paragraph.length() - 1);
    return PdfHyphens.isParted(paragraph, next)
        || (Character.isLowerCase(next.charAt(0))
            && ".!?:;".indexOf(end) < 0
            && line.right() + line.size() * 5 > lastMargin);
  }

  private boolean goesOn(PdfLine line, PdfLine next, float margin, boolean gap) {
    String text = next.text();
    if (paragraph.isEmpty() || isItem(text)) {
      return false;
    }
    if (gap && !Character.isLowerCase(text.charAt(0))) {
      return false;
    }
    return line.right() + next.firstWord() > margin
        || (PdfHyphens.isParted(paragraph, text) && Character.isLowerCase(text.charAt(0)));
  }

  private void append(StringBuilder to, String text) {
    if (PdfHyphens.isParted(to, text)) {
      hyphens.join(to, text);
    } else {
      to.append(to.isEmpty() ? "" : " ").append(text);
    }
  }

  private void endCaption() {
    if (caption != null) {
      captions.add(caption.toString());
      caption = null;
    }
  }

  private void endParagraph() {
    if (!paragraph.isEmpty()) {
      out.accept(paragraph.toString());
      paragraph.setLength(0);
    }
    captions.forEach(out);
    captions.clear();
  }

  /** Hands over what is left. */
  void end() {
    endCaption();
    endParagraph();
  }

  /** Returns how far apart lines usually stand. */
  private static float spacing(List<PdfLine> lines) {
    float[] drops = new float[Math.max(0, lines.size() - 1)];
    int count = 0;
    for (int i = 1; i < lines.size(); i++) {
      float drop = lines.get(i).base() - lines.get(i - 1).base();
      if (drop > 0) {
        drops[count++] = drop;
      }
    }
    Arrays.sort(drops, 0, count);
    if (count < FEW) {
      // Too few to know: what is more than a line left free is much.
      return count == 0 ? Float.MAX_VALUE : Math.min(drops[0], DOUBLE * lines.get(0).size());
    }
    return drops[count / 2];
  }

  /** Returns how high letters usually are. */
  private static float size(List<PdfLine> lines) {
    float[] sizes = new float[lines.size()];
    for (int i = 0; i < sizes.length; i++) {
      sizes[i] = lines.get(i).size();
    }
    Arrays.sort(sizes);
    return sizes.length == 0 ? 0 : sizes[sizes.length / 2];
  }
}
