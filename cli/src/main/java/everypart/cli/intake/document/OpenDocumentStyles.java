package everypart.cli.intake.document;

import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;

/** The lists and bold words of an OpenDocument's styles. */
final class OpenDocumentStyles {
  /** Lists go no deeper than this. */
  static final int LEVELS = 10;

  private static final Map<String, Numerals> FORMATS =
      Map.of(
          "1", Numerals.DECIMAL,
          "01", Numerals.DECIMAL_ZERO,
          "a", Numerals.LOWER_LETTER,
          "A", Numerals.UPPER_LETTER,
          "i", Numerals.LOWER_ROMAN,
          "I", Numerals.UPPER_ROMAN,
          "", Numerals.NONE);

  /**
   * How a level of a list is numbered.
   *
   * @param shown how many levels' numbers an item carries
   */
  record Level(
      boolean bullet, Numerals numerals, String before, String after, int start, int shown) {}

  private final Map<String, Map<Integer, Level>> lists = new HashMap<>();
  private final Set<String> bold = new HashSet<>();

  /** Takes what the element that was just entered says; leaves an element that it reads. */
  void start(XMLStreamReader xml) throws XMLStreamException {
    switch (xml.getLocalName()) {
      case "list-style" -> list(xml);
      case "style" -> {
        if (Xml.attribute(xml, "family").equals("text")) {
          textStyle(xml);
        }
      }
      default -> {}
    }
  }

  private void list(XMLStreamReader xml) throws XMLStreamException {
    Map<Integer, Level> levels = new HashMap<>();
    lists.put(Xml.attribute(xml, "name"), levels);
    Xml.within(
        xml,
        name -> {
          if (name.startsWith("list-level-style-")) {
            levels.put(
                Xml.number(xml, "level", 1),
                new Level(
                    !name.endsWith("-number"),
                    FORMATS.getOrDefault(Xml.attribute(xml, "num-format"), Numerals.DECIMAL),
                    Xml.attribute(xml, "num-prefix"),
                    Xml.attribute(xml, "num-suffix"),
                    Xml.number(xml, "start-value", 1),
                    Xml.number(xml, "display-levels", 1)));
          }
        });
  }

  private void textStyle(XMLStreamReader xml) throws XMLStreamException {
    String style = Xml.attribute(xml, "name");
    Xml.within(
        xml,
        name -> {
          if (Xml.attribute(xml, "font-weight").equals("bold")) {
            bold.add(style);
          }
        });
  }

  boolean bold(String style) {
    return bold.contains(style);
  }

  int start(String list, int depth) {
    Level level = lists.getOrDefault(list, Map.of()).get(depth);
    return level == null ? 1 : level.start;
  }

  /**
   * Returns what stands in front of an item, "-" for a bullet.
   *
   * @param depth its level, from 1
   * @param numbers the numbers of all levels; that of level 1 stands at 1
   */
  String label(String list, int depth, int[] numbers) {
    Map<Integer, Level> levels = lists.getOrDefault(list, Map.of());
    Level level = levels.get(depth);
    if (level == null || level.bullet) {
      return "-";
    }
    if (level.numerals == Numerals.NONE) {
      return level.before + level.after;
    }
    StringBuilder label = new StringBuilder(level.before);
    for (int i = Math.max(1, depth - level.shown + 1); i <= depth; i++) {
      Level part = levels.get(i);
      if (part == null || part.bullet || part.numerals == Numerals.NONE) {
        continue;
      }
      label.append(part.numerals.of(numbers[i])).append(i < depth ? "." : "");
    }
    return label.append(level.after).toString();
  }
}
