package everypart.cli.intake.document;

import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import org.jspecify.annotations.Nullable;

/** The lists of a .docx file, and the count of their items (ECMA-376 part 1, 17.9). */
final class WordNumbering {
  private static final int LEVELS = 9;

  private static final Map<String, Numerals> FORMATS =
      Map.of(
          "decimal", Numerals.DECIMAL,
          "decimalZero", Numerals.DECIMAL_ZERO,
          "lowerLetter", Numerals.LOWER_LETTER,
          "upperLetter", Numerals.UPPER_LETTER,
          "lowerRoman", Numerals.LOWER_ROMAN,
          "upperRoman", Numerals.UPPER_ROMAN,
          "none", Numerals.NONE);

  /** How one level of a list is numbered. */
  private static final class Level {
    int start;
    boolean bullet;
    boolean alwaysDecimal;
    boolean goesOn;
    Numerals numerals = Numerals.DECIMAL;
    String text = "";
    String style = "";
  }

  /** A definition that lists share, with the numbers it stands at. */
  private static final class Definition {
    final Level[] levels = new Level[LEVELS];
    final int[] numbers = new int[LEVELS];
    final boolean[] begun = new boolean[LEVELS];
    String styleLink = "";
  }

  /** A list: a definition, with what the list does otherwise. */
  private static final class Chain {
    String definition = "";
    final Map<Integer, Level> levels = new HashMap<>();
    final Map<Integer, Integer> starts = new HashMap<>();
  }

  private final Map<String, Definition> definitions = new HashMap<>();
  private final Map<String, Definition> ofStyle = new HashMap<>();
  private final Map<String, Chain> lists = new HashMap<>();
  private final Set<String> startedAnew = new HashSet<>();

  void read(XMLStreamReader xml) throws XMLStreamException {
    while (xml.hasNext()) {
      if (xml.next() == XMLStreamConstants.START_ELEMENT) {
        switch (xml.getLocalName()) {
          case "abstractNum" -> definition(xml);
          case "num" -> list(xml);
          default -> {}
        }
      }
    }
  }

  private void definition(XMLStreamReader xml) throws XMLStreamException {
    Definition definition = new Definition();
    definitions.put(Xml.attribute(xml, "abstractNumId"), definition);
    while (xml.hasNext()) {
      int event = xml.next();
      if (event == XMLStreamConstants.END_ELEMENT && xml.getLocalName().equals("abstractNum")) {
        return;
      }
      if (event == XMLStreamConstants.START_ELEMENT) {
        switch (xml.getLocalName()) {
          case "lvl" -> {
            int at = Xml.number(xml, "ilvl", 0);
            Level level = level(xml);
            if (at >= 0 && at < LEVELS) {
              definition.levels[at] = level;
            }
          }
          case "numStyleLink" -> definition.styleLink = Xml.attribute(xml, "val");
          case "styleLink" -> ofStyle.putIfAbsent(Xml.attribute(xml, "val"), definition);
          default -> {}
        }
      }
    }
  }

  private static Level level(XMLStreamReader xml) throws XMLStreamException {
    Level level = new Level();
    Xml.within(
        xml,
        name -> {
          String value = Xml.attribute(xml, "val");
          switch (name) {
            case "start" -> level.start = Xml.number(xml, "val", 0);
            case "numFmt" -> {
              level.bullet = value.equals("bullet");
              level.numerals = FORMATS.getOrDefault(value, Numerals.DECIMAL);
            }
            case "lvlText" -> level.text = value;
            case "lvlRestart" -> level.goesOn = value.equals("0");
            case "isLgl" -> level.alwaysDecimal = WordStyles.on(value, "1");
            case "pStyle" -> level.style = value;
            default -> {}
          }
        });
    return level;
  }

  private void list(XMLStreamReader xml) throws XMLStreamException {
    Chain list = new Chain();
    lists.put(Xml.attribute(xml, "numId"), list);
    int overridden = 0;
    while (xml.hasNext()) {
      int event = xml.next();
      if (event == XMLStreamConstants.END_ELEMENT && xml.getLocalName().equals("num")) {
        return;
      }
      if (event == XMLStreamConstants.START_ELEMENT) {
        switch (xml.getLocalName()) {
          case "abstractNumId" -> list.definition = Xml.attribute(xml, "val");
          case "lvlOverride" -> overridden = Xml.number(xml, "ilvl", 0);
          case "startOverride" -> list.starts.put(overridden, Xml.number(xml, "val", 0));
          case "lvl" -> list.levels.put(overridden, level(xml));
          default -> {}
        }
      }
    }
  }

  /** Returns the level of a list that paragraphs of a style stand on. */
  int depthOfStyle(String list, String style) {
    Chain chain = lists.get(list);
    Definition definition = chain == null ? null : definition(chain);
    if (definition != null) {
      for (int i = 0; i < LEVELS; i++) {
        Level level = definition.levels[i];
        if (level != null && !style.isEmpty() && level.style.equals(style)) {
          return i;
        }
      }
    }
    return 0;
  }

  private @Nullable Definition definition(Chain list) {
    Definition own = definitions.get(list.definition);
    if (own == null || own.styleLink.isEmpty()) {
      return own;
    }
    return ofStyle.getOrDefault(own.styleLink, own);
  }

  /**
   * Counts one more item and returns what stands in front of it: its number, "-" for a bullet.
   *
   * @param depth its level, from 0
   * @return empty when there is no such list
   */
  Optional<String> next(String list, int depth) {
    Chain chain = lists.get(list);
    Definition definition = chain == null ? null : definition(chain);
    if (chain == null || definition == null || depth < 0 || depth >= LEVELS) {
      return Optional.empty();
    }
    if (startedAnew.add(list)) {
      chain.starts.forEach(
          (level, start) -> {
            if (level >= 0 && level < LEVELS) {
              definition.begun[level] = false;
            }
          });
    }
    for (int i = 0; i < depth; i++) {
      if (!definition.begun[i]) {
        begin(chain, definition, i);
      }
    }
    if (definition.begun[depth]) {
      definition.numbers[depth]++;
    } else {
      begin(chain, definition, depth);
    }
    for (int i = depth + 1; i < LEVELS; i++) {
      Level deeper = level(chain, definition, i);
      if (deeper == null || !deeper.goesOn) {
        definition.begun[i] = false;
      }
    }
    return Optional.of(label(chain, definition, depth));
  }

  private static void begin(Chain chain, Definition definition, int depth) {
    Level level = level(chain, definition, depth);
    definition.begun[depth] = true;
    definition.numbers[depth] = chain.starts.getOrDefault(depth, level == null ? 1 : level.start);
  }

  private static @Nullable Level level(Chain chain, Definition definition, int depth) {
    Level own = chain.levels.get(depth);
    return own == null ? definition.levels[depth] : own;
  }

  private static String label(Chain chain, Definition definition, int depth) {
    Level level = level(chain, definition, depth);
    if (level == null) {
      return "";
    }
    if (level.bullet) {
      return "-";
    }
    StringBuilder label = new StringBuilder();
    for (int i = 0; i < level.text.length(); i++) {
      char sign = level.text.charAt(i);
      int place = i + 1 < level.text.length() ? level.text.charAt(i + 1) - '1' : -1;
      if (sign == '%' && place >= 0 && place < LEVELS) {
        Level shown = level(chain, definition, place);
        Numerals numerals =
            level.alwaysDecimal || shown == null ? Numerals.DECIMAL : shown.numerals;
        label.append(numerals.of(definition.numbers[place]));
        i++;
      } else {
        label.append(sign);
      }
    }
    return label.toString();
  }
}
