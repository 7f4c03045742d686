package everypart.cli.intake.document;

import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;

/** The styles of a .docx file, as far as they bear on its text (ECMA-376 part 1, 17.7). */
final class WordStyles {
  /** No style goes back over more styles than this; a ring of styles ends here. */
  private static final int LONGEST_CHAIN = 20;

  private static final Pattern HEADING = Pattern.compile("heading ([1-9])");

  /** A style; a value that is absent is the one of the style it is based on. */
  private static final class Style {
    String basedOn = "";
    Optional<String> list = Optional.empty();
    Optional<Integer> depth = Optional.empty();
    Optional<Integer> heading = Optional.empty();
    Optional<Boolean> bold = Optional.empty();
    Optional<Boolean> hidden = Optional.empty();
  }

  private final Map<String, Style> styles = new HashMap<>();
  private String usual = "";

  void read(XMLStreamReader xml) throws XMLStreamException {
    while (xml.hasNext()) {
      if (xml.next() == XMLStreamConstants.START_ELEMENT && xml.getLocalName().equals("style")) {
        style(xml);
      }
    }
  }

  private void style(XMLStreamReader xml) throws XMLStreamException {
    Style style = new Style();
    String id = Xml.attribute(xml, "styleId");
    styles.put(id, style);
    if (Xml.attribute(xml, "type").equals("paragraph") && on(Xml.attribute(xml, "default"), "")) {
      usual = id;
    }
    Xml.within(
        xml,
        name -> {
          String value = Xml.attribute(xml, "val");
          switch (name) {
            case "name" -> {
              Matcher heading = HEADING.matcher(value.toLowerCase(Locale.ROOT));
              if (heading.matches()) {
                style.heading = Optional.of(Integer.parseInt(heading.group(1)));
              }
            }
            case "basedOn" -> style.basedOn = value;
            case "numId" -> style.list = Optional.of(value);
            case "ilvl" -> style.depth = Optional.of(Xml.number(xml, "val", 0));
            case "outlineLvl" -> style.heading = Optional.of(Xml.number(xml, "val", 9) + 1);
            case "b" -> style.bold = Optional.of(on(value, "1"));
            case "vanish" -> style.hidden = Optional.of(on(value, "1"));
            default -> {}
          }
        });
  }

  /** Reads a switch of the format, with what it means when it is absent. */
  static boolean on(String value, String otherwise) {
    return switch (value.isEmpty() ? otherwise : value) {
      case "1", "true", "on" -> true;
      default -> false;
    };
  }

  private <T> Optional<T> find(String id, Function<Style, Optional<T>> value) {
    String at = id;
    for (int i = 0; i < LONGEST_CHAIN; i++) {
      Style style = styles.get(at);
      if (style == null) {
        return Optional.empty();
      }
      Optional<T> found = value.apply(style);
      if (found.isPresent()) {
        return found;
      }
      at = style.basedOn;
    }
    return Optional.empty();
  }

  /** Returns the style of a paragraph that names none. */
  String usual() {
    return usual;
  }

  /** Returns the list that paragraphs of this style are items of. */
  Optional<String> list(String id) {
    return find(id, style -> style.list);
  }

  Optional<Integer> depth(String id) {
    return find(id, style -> style.depth);
  }

  /** Returns the level of headings in this style, from 1; empty for what is no heading. */
  Optional<Integer> heading(String id) {
    return find(id, style -> style.heading).filter(level -> level >= 1 && level <= 9);
  }

  boolean bold(String id) {
    return find(id, style -> style.bold).orElse(false);
  }

  boolean hidden(String id) {
    return find(id, style -> style.hidden).orElse(false);
  }
}
