package everypart.cli.intake.document;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import org.jspecify.annotations.Nullable;

/**
 * Reads the body of a .docx file.
 *
 * <p>Tracked changes are read as accepted: what was put in counts, what was taken out does not, and
 * two paragraphs whose border was taken out are one. Hidden text, comments, headers, footers and
 * the grey words of an empty form field are left out, footnotes too.
 */
final class WordBody {
  /** The ends of the namespaces, which are the same in the strict and the transitional form. */
  private static final List<String> WORDS =
      List.of("/wordprocessingml/2006/main", "/wordprocessingml/main");

  private static final List<String> MATH = List.of("/math");
  private static final String CHANGED = "Change";

  private final WordStyles styles;
  private final WordNumbering numbering;
  private final Blocks blocks;
  private final List<FileRemark> remarks;
  private final Meter meter;

  private final Deque<Paragraph> open = new ArrayDeque<>();
  private @Nullable MarkedWords carried;
  private boolean bold;
  private boolean hidden;
  private boolean placeholder;
  private boolean rowDeleted;
  private int pictures;
  private int footnotes;

  /** A paragraph that is being read. */
  private static final class Paragraph {
    final MarkedWords words;
    final List<String> boxes = new ArrayList<>();
    String style = "";
    Optional<String> list = Optional.empty();
    Optional<Integer> depth = Optional.empty();
    boolean endDeleted;

    Paragraph(MarkedWords words) {
      this.words = words;
    }
  }

  WordBody(
      WordStyles styles,
      WordNumbering numbering,
      Blocks blocks,
      List<FileRemark> remarks,
      Meter meter) {
    this.styles = styles;
    this.numbering = numbering;
    this.blocks = blocks;
    this.remarks = remarks;
    this.meter = meter;
  }

  void read(XMLStreamReader xml) throws XMLStreamException, DocumentException {
    while (xml.hasNext()) {
      switch (xml.next()) {
        case XMLStreamConstants.START_ELEMENT -> start(xml);
        case XMLStreamConstants.END_ELEMENT -> {
          if (in(xml, WORDS)) {
            end(xml.getLocalName());
          }
        }
        default -> {}
      }
    }
    if (carried != null) {
      blocks.paragraph(carried.toString());
    }
    if (footnotes > 0) {
      remarks.add(Faults.footnotes(footnotes));
    }
    if (pictures > 0) {
      remarks.add(blocks.text().isEmpty() ? Faults.ONLY_PICTURES : Faults.pictures(pictures));
    }
  }

  private static boolean in(XMLStreamReader xml, List<String> spaces) {
    String space = xml.getNamespaceURI();
    return space != null && spaces.stream().anyMatch(space::endsWith);
  }

  private void start(XMLStreamReader xml) throws XMLStreamException, DocumentException {
    if (in(xml, MATH)) {
      startMath(xml);
      return;
    }
    if (!in(xml, WORDS)) {
      startOther(xml);
      return;
    }
    String name = xml.getLocalName();
    switch (name) {
      case "p" -> {
        MarkedWords words = open.isEmpty() && carried != null ? carried : blocks.wording();
        if (open.isEmpty()) {
          carried = null;
        }
        open.push(new Paragraph(words));
      }
      case "pPr" -> paragraphProperties(xml);
      case "r" -> {
        bold = false;
        hidden = false;
      }
      case "rPr" -> runProperties(xml);
      case "t" -> words(Xml.text(xml, meter));
      case "tab", "ptab" -> words("\t");
      case "br", "cr" -> words("\n");
      case "noBreakHyphen" -> words("-");
      case "sym" ->
          words(SymbolFonts.unicode(Xml.attribute(xml, "font"), Xml.attribute(xml, "char")));
      case "sdtPr" -> placeholder = holds(xml, "showingPlcHdr");
      case "sdtContent" -> {
        if (placeholder) {
          placeholder = false;
          Xml.skip(xml);
        }
      }
      case "tbl" -> blocks.startTable();
      case "tr" -> {
        rowDeleted = false;
        blocks.startRow();
      }
      case "trPr" -> rowDeleted = holds(xml, "del");
      case "tc" -> blocks.startCell();
      case "footnoteReference", "endnoteReference" -> footnotes++;
      case "del", "moveFrom", "sectPr", "tblPr", "tblGrid", "tcPr", "rt", "instrText" ->
          Xml.skip(xml);
      default -> {
        if (name.endsWith(CHANGED)) {
          Xml.skip(xml);
        }
      }
    }
  }

  /** Takes what stands in a drawing; a text box in it holds paragraphs like those of the body. */
  private void startOther(XMLStreamReader xml) throws XMLStreamException {
    switch (xml.getLocalName()) {
      case "blip", "imagedata" -> pictures++;
      case "Fallback" -> Xml.skip(xml);
      default -> {}
    }
  }

  private void words(String words) {
    Paragraph paragraph = open.peek();
    if (paragraph != null && !hidden) {
      paragraph.words.add(words, bold);
    }
  }

  /** The signs that stand where a formula's layout says it without a sign. */
  private static final Map<String, String> BEFORE =
      Map.of("sup", "^", "sub", "_", "den", "/", "rad", "\u221a");

  private void startMath(XMLStreamReader xml) throws XMLStreamException {
    String name = xml.getLocalName();
    switch (name) {
      case "t" -> words(Xml.text(xml, meter));
      case "deg" -> Xml.skip(xml);
      case "r" -> {
        bold = false;
        hidden = false;
      }
      default -> {
        if (name.endsWith("Pr")) {
          Xml.skip(xml);
        } else {
          words(BEFORE.getOrDefault(name, ""));
        }
      }
    }
  }

  private void end(String name) throws DocumentException {
    switch (name) {
      case "p" -> endParagraph();
      case "tbl" -> blocks.endTable();
      case "tr" -> {
        if (rowDeleted) {
          blocks.dropRow();
        } else {
          blocks.endRow();
        }
        rowDeleted = false;
      }
      case "tc" -> blocks.endCell();
      default -> {}
    }
  }

  private void endParagraph() throws DocumentException {
    Paragraph paragraph = open.poll();
    if (paragraph == null) {
      return;
    }
    if (!open.isEmpty()) {
      // A text box stands inside a paragraph; its words follow those of the paragraph.
      open.element().boxes.add(paragraph.words.toString());
      open.element().boxes.addAll(paragraph.boxes);
      return;
    }
    if (paragraph.endDeleted) {
      carried = paragraph.words;
    } else {
      block(paragraph);
    }
    for (String box : paragraph.boxes) {
      blocks.paragraph(box);
    }
  }

  private void block(Paragraph paragraph) throws DocumentException {
    String style = paragraph.style.isEmpty() ? styles.usual() : paragraph.style;
    Optional<String> list = paragraph.list.or(() -> styles.list(style));
    String words = paragraph.words.toString();
    Optional<Integer> heading = styles.heading(style);
    Optional<String> label = Optional.empty();
    if (list.isPresent() && !list.get().equals("0")) {
      int depth =
          paragraph
              .depth
              .or(() -> styles.depth(style))
              .orElseGet(() -> numbering.depthOfStyle(list.get(), style));
      label = numbering.next(list.get(), depth);
    }
    if (heading.isPresent()) {
      blocks.heading(heading.get(), label.map(sign -> sign + " ").orElse("") + words);
    } else if (label.isPresent()) {
      blocks.item(label.get(), words);
    } else {
      blocks.paragraph(words);
    }
  }

  private void paragraphProperties(XMLStreamReader xml) throws XMLStreamException {
    Paragraph paragraph = open.peek();
    if (paragraph == null) {
      Xml.skip(xml);
      return;
    }
    Xml.within(
        xml,
        name -> name.endsWith(CHANGED),
        name -> {
          switch (name) {
            case "pStyle" -> paragraph.style = Xml.attribute(xml, "val");
            case "numId" -> paragraph.list = Optional.of(Xml.attribute(xml, "val"));
            case "ilvl" -> paragraph.depth = Optional.of(Xml.number(xml, "val", 0));
            case "del", "moveFrom" -> paragraph.endDeleted = true;
            default -> {}
          }
        });
  }

  private void runProperties(XMLStreamReader xml) throws XMLStreamException {
    Xml.within(
        xml,
        name -> name.endsWith(CHANGED),
        name -> {
          String value = Xml.attribute(xml, "val");
          switch (name) {
            case "rStyle" -> {
              bold = styles.bold(value);
              hidden = styles.hidden(value);
            }
            case "b" -> bold = WordStyles.on(value, "1");
            case "vanish" -> hidden = WordStyles.on(value, "1");
            default -> {}
          }
        });
  }

  /** Passes over an element and tells whether another is in it. */
  private static boolean holds(XMLStreamReader xml, String name) throws XMLStreamException {
    boolean[] found = {false};
    Xml.within(xml, inside -> found[0] |= inside.equals(name));
    return found[0];
  }
}
