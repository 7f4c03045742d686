package everypart.cli.intake.document;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.regex.Pattern;

/**
 * Lays out the paragraphs, list items and table rows of a document as text.
 *
 * <p>A row whose cells hold one paragraph each becomes one line, cells apart by a tab. A row with
 * more in a cell, as in a page laid out with a table, gives each paragraph of it on its own.
 */
final class Blocks {
  private static final Pattern SPACE = Pattern.compile("[\\u00A0\\u2007\\u202F]");
  private static final Pattern UNSEEN =
      Pattern.compile("[\\u00AD\\u200B\\uFEFF]|[\\p{Cntrl}&&[^\\t\\n]]");
  private static final Pattern LINE_END = Pattern.compile("\\r\\n?|[\\u000B\\u000C\\u0085\\u2028]");

  /** What a block is to its neighbours. */
  private enum Sort {
    PARAGRAPH,
    ITEM,
    ROW
  }

  private final boolean markdown;
  private final Meter meter;
  private final StringBuilder out = new StringBuilder();
  private final Deque<Table> tables = new ArrayDeque<>();
  private Sort last = Sort.PARAGRAPH;

  /** A table that is being read. */
  private static final class Table {
    List<List<String>> row = new ArrayList<>();
    boolean inCell;
  }

  /**
   * Starts an empty text.
   *
   * @param markdown whether headings and bold words carry their Markdown signs
   * @param meter counts its characters
   */
  Blocks(boolean markdown, Meter meter) {
    this.markdown = markdown;
    this.meter = meter;
  }

  /** Returns an empty paragraph. */
  MarkedWords wording() {
    return new MarkedWords(markdown, meter);
  }

  void paragraph(String text) {
    block(Sort.PARAGRAPH, clean(text));
  }

  /**
   * Adds a heading.
   *
   * @param level 1 for the highest
   */
  void heading(int level, String text) {
    String words = clean(text);
    boolean sign = markdown && !words.isEmpty();
    block(Sort.PARAGRAPH, sign ? "#".repeat(Math.min(Math.max(level, 1), 6)) + " " + words : words);
  }

  /**
   * Adds an item of a list.
   *
   * @param label its number with what stands round it, "-" for a bullet, or "" for none
   */
  void item(String label, String text) {
    String words = clean(text);
    String sign = clean(label);
    if (words.isEmpty() && (sign.isEmpty() || sign.equals("-"))) {
      return;
    }
    block(Sort.ITEM, sign.isEmpty() ? words : words.isEmpty() ? sign : sign + " " + words);
  }

  /** Adds text that is laid out already, as it stands. */
  void asGiven(String text) {
    add(text);
  }

  void startTable() {
    tables.push(new Table());
  }

  void startRow() {
    if (!tables.isEmpty()) {
      tables.element().row = new ArrayList<>();
    }
  }

  void startCell() {
    if (!tables.isEmpty()) {
      tables.element().row.add(new ArrayList<>());
      tables.element().inCell = true;
    }
  }

  void endCell() {
    if (!tables.isEmpty()) {
      tables.element().inCell = false;
    }
  }

  void endRow() {
    if (tables.isEmpty()) {
      return;
    }
    Table table = tables.pop();
    boolean one = table.row.stream().allMatch(cell -> cell.size() <= 1);
    if (one) {
      List<String> cells = new ArrayList<>();
      for (List<String> cell : table.row) {
        cells.add(cell.isEmpty() ? "" : cell.get(0).replace('\n', ' '));
      }
      while (!cells.isEmpty() && cells.get(cells.size() - 1).isEmpty()) {
        cells.remove(cells.size() - 1);
      }
      block(Sort.ROW, String.join("\t", cells));
    } else {
      for (List<String> cell : table.row) {
        for (String paragraph : cell) {
          block(Sort.PARAGRAPH, paragraph);
        }
      }
    }
    table.row = new ArrayList<>();
    tables.push(table);
  }

  /** Leaves out the row that is being read. */
  void dropRow() {
    if (!tables.isEmpty()) {
      tables.element().row = new ArrayList<>();
    }
  }

  void endTable() {
    if (!tables.isEmpty()) {
      tables.pop();
      if (tables.isEmpty()) {
        last = Sort.PARAGRAPH;
      }
    }
  }

  private void block(Sort sort, String words) {
    if (words.isBlank()) {
      return;
    }
    Table table = tables.peek();
    if (table != null && table.inCell && !table.row.isEmpty()) {
      table.row.get(table.row.size() - 1).add(words);
      return;
    }
    if (!out.isEmpty()) {
      add(sort != Sort.PARAGRAPH && sort == last ? "\n" : "\n\n");
    }
    add(words);
    last = sort;
  }

  private void add(String words) {
    meter.atMost(Limit.TEXT, out.length() + (long) words.length());
    out.append(words);
  }

  private static String clean(String text) {
    String words = LINE_END.matcher(text).replaceAll("\n");
    words = SPACE.matcher(words).replaceAll(" ");
    words = UNSEEN.matcher(words).replaceAll("");
    return withoutBlanksAtLineEnds(words).strip();
  }

  /** Looks at each sign once; a pattern would look at the blanks inside a line again and again. */
  private static String withoutBlanksAtLineEnds(String text) {
    StringBuilder out = new StringBuilder(text.length());
    int kept = 0;
    for (int i = 0; i < text.length(); i++) {
      char sign = text.charAt(i);
      if (sign == '\n') {
        out.setLength(kept);
      }
      out.append(sign);
      if (sign != ' ' && sign != '\t') {
        kept = out.length();
      }
    }
    out.setLength(kept);
    return out.toString();
  }

  /** Returns the text so far. */
  String text() {
    return out.toString();
  }
}
