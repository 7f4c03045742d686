package everypart.cli.intake.document;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * Finds running heads and feet: what stands at the same place of several pages, in the outermost
 * rows, and is the same but for the number of the page.
 *
 * <p>The label of a question at the head of each page is no running head, though its number rises
 * with the pages. Pages that are the same all through, as when one was printed twice, have none.
 */
final class PdfMargins {
  /** How many rows at the head of a page, or at its foot, may be left out. */
  private static final int MOST_ROWS = 3;

  /** How many points a running head may stand higher on one page than on another. */
  private static final float SAME_PLACE = 6;

  /** On which part of the pages it must stand. */
  private static final double LEAST_PART = 0.4;

  private static final Pattern NUMBER = Pattern.compile("\\d{1,9}+");

  /** What a row looks like that holds nothing but the number of a page; figures are #. */
  private static final Pattern PAGE_NUMBER =
      Pattern.compile(
          "^[-\u2013\u2014|\\s]*+(?:page|pg\\.?|p\\.)\\s*+#(?:\\s*+(?:of|/)\\s*+#)?\\W*+");

  /** What is a head or foot on a single page, too: also the ones that browsers print. */
  private static final Pattern ALONE =
      Pattern.compile(
          "^(?:[-\u2013\u2014|\\s]*+page\\s*+#\\s*+(?:of|/)\\s*+#\\W*+"
              + "|(?:https?|file):\\S++(?:\\s#/#)?"
              + "|#/#/#, #:#(?:\\s[ap]m)?(?:\\s.*+)?)$");

  private static final Pattern BARE_NUMBER =
      Pattern.compile("[-\u2013\u2014|]?+\\s?+#(?:\\s?+(?:of|/)\\s?+#)?\\s?+[-\u2013\u2014|]?+");

  /** What may be the label of an answer, which stands at the head of what it labels. */
  private static final Pattern LABEL =
      Pattern.compile(
          "[(\\[]?(?:#|[a-z]|[ivx]{1,4})(?:[)\\].:]|\\s?[(\\[][a-z])\\S*+(?:\\s\\S++)?+"
              + "|(?:question|part|task|problem|exercise|section|answer|response|q)\\b.*+"
              + "|q\\.?\\s?#.*+");

  /** Lines that stand beside each other. */
  private record Row(int page, float base, List<PdfLine> lines, String text) {
    static Row of(int page, List<PdfLine> lines) {
      List<PdfLine> sorted = new ArrayList<>(lines);
      sorted.sort(Comparator.comparingDouble(PdfLine::left));
      return new Row(
          page,
          lines.get(0).base(),
          sorted,
          sorted.stream().map(PdfLine::text).collect(Collectors.joining(" ")));
    }

    /** Returns its words without its numbers. */
    String key() {
      return NUMBER.matcher(text.toLowerCase(Locale.ROOT)).replaceAll("#");
    }

    List<Integer> numbers() {
      return NUMBER.matcher(text).results().map(found -> Integer.valueOf(found.group())).toList();
    }
  }

  /** The outermost rows of a page, from the outermost inwards. */
  private record Edge(List<Row> rows) {}

  private PdfMargins() {}

  /** Returns the pages without their running heads and feet; pages that hold nothing else stay. */
  static List<PdfPage> without(List<PdfPage> pages) {
    // Two lines that are equal may stand on two pages.
    Set<PdfLine> out = Collections.newSetFromMap(new IdentityHashMap<>());
    for (boolean head : new boolean[] {true, false}) {
      List<Edge> edges = new ArrayList<>();
      for (int i = 0; i < pages.size(); i++) {
        edges.add(edge(pages.get(i), i, head));
      }
      running(edges, head, leftEdge(pages)).forEach(row -> out.addAll(row.lines));
    }
    List<PdfPage> kept = new ArrayList<>();
    for (PdfPage page : pages) {
      List<PdfLine> lines = page.lines().stream().filter(line -> !out.contains(line)).toList();
      if (!lines.isEmpty()) {
        kept.add(new PdfPage(lines));
      }
    }
    return kept.isEmpty() ? pages : kept;
  }

  private static float leftEdge(List<PdfPage> pages) {
    float left = Float.MAX_VALUE;
    for (PdfPage page : pages) {
      for (PdfLine line : page.lines()) {
        left = Math.min(left, line.left());
      }
    }
    return left;
  }

  private static Edge edge(PdfPage page, int number, boolean head) {
    Comparator<PdfLine> down = Comparator.comparingDouble(PdfLine::base);
    List<PdfLine> lines = new ArrayList<>(page.lines());
    lines.sort(head ? down : down.reversed());
    List<Row> rows = new ArrayList<>();
    List<PdfLine> row = new ArrayList<>();
    for (PdfLine line : lines) {
      if (!row.isEmpty() && Math.abs(line.base() - row.get(0).base()) > line.size() / 2) {
        rows.add(Row.of(number, row));
        row = new ArrayList<>();
        if (rows.size() > MOST_ROWS) {
          return new Edge(rows);
        }
      }
      row.add(line);
    }
    if (!row.isEmpty()) {
      rows.add(Row.of(number, row));
    }
    return new Edge(rows);
  }

  /** Returns the rows that are running heads, or feet. */
  private static List<Row> running(List<Edge> edges, boolean head, float leftEdge) {
    Map<String, List<Row>> alike = new HashMap<>();
    for (Edge edge : edges) {
      edge.rows.forEach(row -> alike.computeIfAbsent(row.key(), key -> new ArrayList<>()).add(row));
    }
    Set<Row> repeated = new HashSet<>();
    double least = Math.max(2, Math.ceil(edges.size() * LEAST_PART));
    for (Map.Entry<String, List<Row>> entry : alike.entrySet()) {
      for (List<Row> rows : atOnePlace(entry.getValue())) {
        if (rows.size() >= least && isRunning(entry.getKey(), rows, head, leftEdge)) {
          repeated.addAll(rows);
        }
      }
    }
    List<Row> running = new ArrayList<>();
    for (Edge edge : edges) {
      List<Row> outer = new ArrayList<>();
      for (Row row : edge.rows) {
        boolean alone = outer.isEmpty() && ALONE.matcher(row.key()).matches();
        if (!repeated.contains(row) && !alone) {
          break;
        }
        outer.add(row);
      }
      // Where still more rows are the same, the pages are.
      if (outer.size() <= MOST_ROWS) {
        running.addAll(outer);
      }
    }
    return running;
  }

  /** Returns the rows in groups of those that stand at about the same place. */
  private static List<List<Row>> atOnePlace(List<Row> rows) {
    List<Row> sorted = new ArrayList<>(rows);
    sorted.sort(Comparator.comparingDouble(Row::base));
    List<List<Row>> groups = new ArrayList<>();
    for (Row row : sorted) {
      List<Row> last = groups.isEmpty() ? List.of() : groups.get(groups.size() - 1);
      if (last.isEmpty() || row.base - last.get(0).base > SAME_PLACE) {
        last = new ArrayList<>();
        groups.add(last);
      }
      last.add(row);
    }
    return groups;
  }

  private static boolean isRunning(String key, List<Row> rows, boolean head, float leftEdge) {
    boolean bare = BARE_NUMBER.matcher(key).matches();
    if (bare || PAGE_NUMBER.matcher(key).matches()) {
      // A number at the left of the first row may be that of a question.
      Row first = rows.get(0);
      boolean atLeft = first.lines.get(0).left() < leftEdge + first.lines.get(0).size() * 2;
      return (!bare || !head || !atLeft) && rises(rows);
    }
    // In the middle of words a number is one of a sentence.
    boolean outer = key.startsWith("#") || key.endsWith("#");
    return !LABEL.matcher(key).matches() && (sameNumbers(rows) || (outer && rises(rows)));
  }

  private static boolean sameNumbers(List<Row> rows) {
    return rows.stream().map(Row::numbers).distinct().count() == 1;
  }

  /** Tells whether one of the numbers counts the pages, and the others stay. */
  private static boolean rises(List<Row> rows) {
    List<Integer> first = rows.get(0).numbers();
    boolean rises = false;
    for (int i = 0; i < first.size(); i++) {
      int at = i;
      int start = first.get(i) - rows.get(0).page;
      boolean counts = rows.stream().allMatch(row -> row.numbers().get(at) - row.page == start);
      boolean stays = rows.stream().allMatch(row -> row.numbers().get(at).equals(first.get(at)));
      if (!counts && !stays) {
        return false;
      }
      rises |= counts;
    }
    return rises;
  }
}
