package everypart.cli.intake.document;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;

/**
 * Reads the content of an OpenDocument text.
 *
 * <p>What tracked changes took out stands apart in the file and is left out; what they put in
 * counts. Comments and footnotes are left out.
 */
final class OpenDocumentBody {
  private final OpenDocumentStyles styles;
  private final Blocks blocks;
  private final List<FileRemark> remarks;

  private final Deque<Paragraph> open = new ArrayDeque<>();
  private final Deque<ListLevel> lists = new ArrayDeque<>();
  private final Deque<Boolean> spans = new ArrayDeque<>();
  private final Map<String, Count> counts = new HashMap<>();
  private int boldSpans;
  private int pictures;
  private int footnotes;

  /** A paragraph that is being read. */
  private static final class Paragraph {
    final MarkedWords words;
    final List<String> boxes = new ArrayList<>();
    final int heading;

    Paragraph(MarkedWords words, int heading) {
      this.words = words;
      this.heading = heading;
    }
  }

  /** The numbers a list stands at. */
  private static final class Count {
    final int[] numbers = new int[OpenDocumentStyles.LEVELS + 1];
    final boolean[] begun = new boolean[OpenDocumentStyles.LEVELS + 1];
  }

  /** A list that is being read, at one level. */
  private static final class ListLevel {
    final String style;
    final Count count;
    final int depth;
    boolean itemBegins;
    int startsAt = -1;

    ListLevel(String style, Count count, int depth) {
      this.style = style;
      this.count = count;
      this.depth = depth;
    }
  }

  OpenDocumentBody(OpenDocumentStyles styles, Blocks blocks, List<FileRemark> remarks) {
    this.styles = styles;
    this.blocks = blocks;
    this.remarks = remarks;
  }

  void read(XMLStreamReader xml) throws XMLStreamException, DocumentException {
    while (xml.hasNext()) {
      switch (xml.next()) {
        case XMLStreamConstants.START_ELEMENT -> start(xml);
        case XMLStreamConstants.END_ELEMENT -> end(xml.getLocalName());
        case XMLStreamConstants.CHARACTERS, XMLStreamConstants.SPACE, XMLStreamConstants.CDATA ->
            characters(xml.getText());
        default -> {}
      }
    }
    if (footnotes > 0) {
      remarks.add(Faults.footnotes(footnotes));
    }
    if (pictures > 0) {
      remarks.add(blocks.text().isEmpty() ? Faults.ONLY_PICTURES : Faults.pictures(pictures));
    }
  }

  private void start(XMLStreamReader xml) throws XMLStreamException {
    switch (xml.getLocalName()) {
      case "automatic-styles", "body" -> {}
      case "list-style", "style" -> styles.start(xml);
      case "p" -> open.push(new Paragraph(blocks.wording(), 0));
      case "h" ->
          open.push(
              new Paragraph(blocks.wording(), Math.max(1, Xml.number(xml, "outline-level", 1))));
      case "span" -> {
        boolean bold = styles.bold(Xml.attribute(xml, "style-name"));
        spans.push(bold);
        boldSpans += bold ? 1 : 0;
      }
      case "s" -> words(" ".repeat(Math.min(Math.max(Xml.number(xml, "c", 1), 1), 1000)));
      case "tab" -> words("\t");
      case "line-break" -> words("\n");
      case "list" -> startList(xml);
      case "list-item" -> {
        ListLevel list = lists.peek();
        if (list != null) {
          list.itemBegins = true;
          list.startsAt = Xml.number(xml, "start-value", -1);
        }
      }
      case "list-header" -> {
        ListLevel list = lists.peek();
        if (list != null) {
          list.itemBegins = false;
        }
      }
      case "table" -> blocks.startTable();
      case "table-row" -> blocks.startRow();
      case "table-cell", "covered-table-cell" -> blocks.startCell();
      case "note" -> {
        footnotes++;
        Xml.skip(xml);
      }
      case "image" -> {
        pictures++;
        Xml.skip(xml);
      }
      case "tracked-changes",
          "annotation",
          "forms",
          "sequence-decls",
          "variable-decls",
          "user-field-decls",
          "ruby-text",
          "hidden-text",
          "number",
          "title",
          "desc" ->
          Xml.skip(xml);
      default -> {}
    }
  }

  private void startList(XMLStreamReader xml) {
    ListLevel outer = lists.peek();
    String named = Xml.attribute(xml, "style-name");
    String style = named.isEmpty() && outer != null ? outer.style : named;
    if (outer != null && !open.isEmpty()) {
      outer = null; // a list in a text box is one of its own
    }
    Count count;
    int depth = outer == null ? 1 : Math.min(outer.depth + 1, OpenDocumentStyles.LEVELS);
    if (outer != null) {
      count = outer.count;
    } else {
      String follows = Xml.attribute(xml, "continue-list");
      boolean goesOn = Xml.attribute(xml, "continue-numbering").equals("true");
      count =
          !follows.isEmpty()
              ? counts.getOrDefault("#" + follows, new Count())
              : goesOn ? counts.getOrDefault(style, new Count()) : new Count();
      counts.put(style, count);
      counts.put("#" + Xml.attribute(xml, "id"), count);
    }
    lists.push(new ListLevel(style, count, depth));
  }

  /** Returns the label of the paragraph that begins an item; "" for one that goes on in it. */
  private String label() {
    ListLevel list = lists.peek();
    if (list == null || !list.itemBegins) {
      return "";
    }
    list.itemBegins = false;
    Count count = list.count;
    for (int i = 1; i < list.depth; i++) {
      if (!count.begun[i]) {
        count.begun[i] = true;
        count.numbers[i] = styles.start(list.style, i);
      }
    }
    int at = list.depth;
    if (list.startsAt >= 0) {
      count.numbers[at] = list.startsAt;
    } else if (count.begun[at]) {
      count.numbers[at]++;
    } else {
      count.numbers[at] = styles.start(list.style, at);
    }
    count.begun[at] = true;
    for (int i = at + 1; i <= OpenDocumentStyles.LEVELS; i++) {
      count.begun[i] = false;
    }
    return styles.label(list.style, at, count.numbers);
  }

  /** Takes characters; any run of blanks in the file stands for one (part 3, 6.1.2). */
  private void characters(String characters) {
    Paragraph paragraph = open.peek();
    if (paragraph == null) {
      return;
    }
    StringBuilder words = new StringBuilder(characters.length());
    boolean space = paragraph.words.endsWithSpace();
    for (int i = 0; i < characters.length(); i++) {
      char sign = characters.charAt(i);
      boolean blank = sign == ' ' || sign == '\t' || sign == '\n' || sign == '\r';
      if (!blank) {
        words.append(sign);
      } else if (!space) {
        words.append(' ');
      }
      space = blank;
    }
    words(words.toString());
  }

  private void words(String words) {
    Paragraph paragraph = open.peek();
    if (paragraph != null) {
      paragraph.words.add(words, boldSpans > 0);
    }
  }

  private void end(String name) throws DocumentException {
    switch (name) {
      case "p", "h" -> endParagraph();
      case "span" -> boldSpans -= Boolean.TRUE.equals(spans.poll()) ? 1 : 0;
      case "list" -> lists.poll();
      case "table" -> blocks.endTable();
      case "table-row" -> blocks.endRow();
      case "table-cell", "covered-table-cell" -> blocks.endCell();
      default -> {}
    }
  }

  private void endParagraph() throws DocumentException {
    Paragraph paragraph = open.poll();
    if (paragraph == null) {
      return;
    }
    String words = paragraph.words.toString();
    if (!open.isEmpty()) {
      // A text box stands inside a paragraph; its words follow those of the paragraph.
      String label = label();
      open.element().boxes.add(label.isEmpty() ? words : label + " " + words);
      open.element().boxes.addAll(paragraph.boxes);
      return;
    }
    boolean inList = !lists.isEmpty();
    String label = label();
    if (paragraph.heading > 0) {
      blocks.heading(paragraph.heading, label.isEmpty() ? words : label + " " + words);
    } else if (inList) {
      blocks.item(label, words);
    } else {
      blocks.paragraph(words);
    }
    for (String box : paragraph.boxes) {
      blocks.paragraph(box);
    }
  }
}
