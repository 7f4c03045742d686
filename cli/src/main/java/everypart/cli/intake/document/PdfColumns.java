package everypart.cli.intake.document;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;

/**
 * Puts the lines of a page into the order in which they are read: one column after the other.
 *
 * <p>Columns are two runs of lines side by side with room between them that no line crosses, where
 * both sides read like prose. Cells of a table, which are short, stay in their rows.
 */
final class PdfColumns {
  /** How wide a place is that is looked at for room between columns, in points. */
  private static final float STEP = 2;

  private static final int MOST_PLACES = 5_000;

  /** The least room between columns, in heights of letters. */
  private static final float ROOM = 0.9f;

  /** The least room between two rows of columns, in heights of letters. */
  private static final float BETWEEN_ROWS = 2.6f;

  private static final int LEAST_LINES = 3;

  /** How many words a line of prose holds on average, at least. */
  private static final double LEAST_WORDS = 3;

  /** Which part of its column's width a full line takes, and how many lines are full. */
  private static final double FULL = 0.7;

  private static final double FULL_LINES = 0.4;

  /** How often a column is looked at for columns in it. */
  private static final int MOST_DEEP = 3;

  /** Lines that are read one after the other and have one right edge. */
  record Region(List<PdfLine> lines) {
    float right() {
      float right = -Float.MAX_VALUE;
      for (PdfLine line : lines) {
        right = Math.max(right, line.right());
      }
      return right;
    }
  }

  private final Meter meter;

  PdfColumns(Meter meter) {
    this.meter = meter;
  }

  /** Returns the lines of a page in the order in which they are read. */
  List<Region> of(List<PdfLine> lines) {
    return of(lines, 0);
  }

  private List<Region> of(List<PdfLine> lines, int deep) {
    if (deep < MOST_DEEP && lines.size() >= LEAST_LINES) {
      float gutter = gutter(lines);
      if (Float.isFinite(gutter)) {
        List<Region> regions = split(lines, gutter, deep);
        if (!regions.isEmpty()) {
          return regions;
        }
      }
    }
    return List.of(new Region(lines));
  }

  /** Returns a line's pieces between which there is room. */
  private static List<PdfLine> pieces(PdfLine line) {
    List<PdfLine> pieces = new ArrayList<>();
    List<PdfLine.Run> runs = new ArrayList<>();
    for (PdfLine.Run run : line.runs()) {
      if (run.text().isBlank()) {
        continue;
      }
      if (!runs.isEmpty() && run.left() - runs.get(runs.size() - 1).right() > ROOM * line.size()) {
        pieces.add(new PdfLine(runs, line.base(), line.size()));
        runs = new ArrayList<>();
      }
      runs.add(run);
    }
    if (!runs.isEmpty()) {
      pieces.add(new PdfLine(runs, line.base(), line.size()));
    }
    return pieces;
  }

  /**
   * Returns the place that has most pieces of lines on its poorer side, of several the one that
   * fewest pieces cross and that lies furthest right; not a number where there is none.
   */
  private float gutter(List<PdfLine> lines) {
    float left = Float.MAX_VALUE;
    float right = -Float.MAX_VALUE;
    List<PdfLine> pieces = new ArrayList<>();
    for (PdfLine line : lines) {
      meter.step();
      pieces.addAll(pieces(line));
      left = Math.min(left, line.left());
      right = Math.max(right, line.right());
    }
    int places = (int) Math.min(MOST_PLACES, Math.ceil((right - left) / STEP));
    if (places < 3) {
      return Float.NaN;
    }
    int[] ended = new int[places + 1];
    int[] begun = new int[places + 1];
    for (PdfLine piece : pieces) {
      meter.step();
      ended[place(piece.right() - left, places) + 1]++;
      begun[place(piece.left() - left, places)]++;
    }
    float best = Float.NaN;
    int most = LEAST_LINES - 2;
    int fewest = Integer.MAX_VALUE;
    int before = 0;
    int started = 0;
    for (int i = 1; i < places; i++) {
      // Whole pieces end before this place, and others begin at it or after it.
      before += ended[i];
      started += begun[i - 1];
      int after = pieces.size() - started;
      int crossing = pieces.size() - before - after;
      int poorer = Math.min(before, after);
      if (poorer > most || (poorer == most && crossing <= fewest)) {
        best = left + i * STEP;
        most = poorer;
        fewest = crossing;
      }
    }
    return best;
  }

  private static int place(float from, int places) {
    return (int) Math.min(places - 1, Math.max(0, Math.floor(from / STEP)));
  }

  /** Lines between two that cross the room between columns. */
  private static final class Band {
    final List<PdfLine> whole = new ArrayList<>();
    final List<PdfLine> left = new ArrayList<>();
    final List<PdfLine> right = new ArrayList<>();
  }

  /** Returns the regions of a page whose columns part at a place; none where they do not. */
  private List<Region> split(List<PdfLine> lines, float gutter, int deep) {
    List<PdfLine> crossing = new ArrayList<>();
    List<PdfLine> others = new ArrayList<>();
    for (PdfLine line : lines) {
      meter.step();
      boolean crosses = false;
      for (PdfLine piece : pieces(line)) {
        crosses |= piece.left() < gutter - STEP && piece.right() > gutter + STEP;
      }
      (crosses ? crossing : others).add(line);
    }
    float[] bases = new float[crossing.size()];
    for (int i = 0; i < bases.length; i++) {
      bases[i] = crossing.get(i).base();
    }
    Arrays.sort(bases);
    List<Band> bands = new ArrayList<>();
    for (int i = 0; i <= bases.length; i++) {
      bands.add(new Band());
    }
    for (PdfLine line : others) {
      meter.step();
      int found = Arrays.binarySearch(bases, line.base());
      bands.get(found < 0 ? -found - 1 : found).whole.add(line);
    }
    boolean any = false;
    List<Region> regions = new ArrayList<>();
    List<PdfLine> rows = new ArrayList<>();
    List<List<PdfLine>> across = byBase(crossing, bases);
    for (int i = 0; i < bands.size(); i++) {
      for (Band band : blocks(bands.get(i), gutter)) {
        if (isProse(band.left) && isProse(band.right) && sideBySide(band)) {
          any = true;
          if (!rows.isEmpty()) {
            regions.add(new Region(List.copyOf(rows)));
            rows.clear();
          }
          regions.addAll(of(downwards(band.left), deep + 1));
          regions.addAll(of(downwards(band.right), deep + 1));
        } else {
          rows.addAll(band.whole);
        }
      }
      if (i < across.size()) {
        rows.addAll(across.get(i));
      }
    }
    if (!rows.isEmpty()) {
      regions.add(new Region(List.copyOf(rows)));
    }
    return any ? regions : List.of();
  }

  /** Cuts a band where room goes through all columns, as between two rows of them. */
  private List<Band> blocks(Band band, float gutter) {
    List<PdfLine> down = new ArrayList<>(band.whole);
    down.sort((one, other) -> Float.compare(one.base(), other.base()));
    List<Float> cuts = new ArrayList<>();
    for (int i = 1; i < down.size(); i++) {
      PdfLine line = down.get(i);
      if (line.base() - down.get(i - 1).base() > BETWEEN_ROWS * line.size()) {
        cuts.add(line.base());
      }
    }
    List<Band> blocks = new ArrayList<>();
    for (int i = 0; i <= cuts.size(); i++) {
      blocks.add(new Band());
    }
    for (PdfLine line : band.whole) {
      meter.step();
      int found = Collections.binarySearch(cuts, line.base());
      Band block = blocks.get(found < 0 ? -found - 1 : found + 1);
      block.whole.add(line);
      sides(line, gutter, block);
    }
    return blocks;
  }

  private static void sides(PdfLine line, float gutter, Band band) {
    List<PdfLine.Run> left = new ArrayList<>();
    List<PdfLine.Run> right = new ArrayList<>();
    for (PdfLine.Run run : line.runs()) {
      (run.right() <= gutter + STEP ? left : right).add(run);
    }
    if (left.stream().anyMatch(run -> !run.text().isBlank())) {
      band.left.add(new PdfLine(left, line.base(), line.size()));
    }
    if (right.stream().anyMatch(run -> !run.text().isBlank())) {
      band.right.add(new PdfLine(right, line.base(), line.size()));
    }
  }

  /** Returns the lines from the top of the page down, one list a place. */
  private static List<List<PdfLine>> byBase(List<PdfLine> lines, float[] sorted) {
    List<List<PdfLine>> out = new ArrayList<>();
    List<PdfLine> down = downwards(lines);
    for (int i = 0; i < sorted.length; i++) {
      out.add(List.of(down.get(i)));
    }
    return out;
  }

  /** Returns lines as they follow each other, or from the top down where that goes back up. */
  private static List<PdfLine> downwards(List<PdfLine> lines) {
    for (int i = 1; i < lines.size(); i++) {
      if (lines.get(i).base() < lines.get(i - 1).base() - lines.get(i).size() / 2) {
        List<PdfLine> sorted = new ArrayList<>(lines);
        sorted.sort((one, other) -> Float.compare(one.base(), other.base()));
        return sorted;
      }
    }
    return lines;
  }

  private static boolean isProse(List<PdfLine> lines) {
    if (lines.size() < LEAST_LINES - 1) {
      return false;
    }
    float left = Float.MAX_VALUE;
    float right = -Float.MAX_VALUE;
    long words = 0;
    for (PdfLine line : lines) {
      left = Math.min(left, line.left());
      right = Math.max(right, line.right());
      words += line.text().chars().filter(c -> c == ' ').count() + 1;
    }
    float full = left + (float) FULL * (right - left);
    long filled = lines.stream().filter(line -> line.right() >= full).count();
    return words >= LEAST_WORDS * lines.size() && filled >= FULL_LINES * lines.size();
  }

  private static boolean sideBySide(Band band) {
    float[] left = extent(band.left);
    float[] right = extent(band.right);
    return band.left.size() + band.right.size() >= 2 * LEAST_LINES
        && Math.min(left[1], right[1]) > Math.max(left[0], right[0]);
  }

  private static float[] extent(List<PdfLine> lines) {
    float[] extent = {Float.MAX_VALUE, -Float.MAX_VALUE};
    for (PdfLine line : lines) {
      extent[0] = Math.min(extent[0], line.base());
      extent[1] = Math.max(extent[1], line.base());
    }
    return extent;
  }
}
