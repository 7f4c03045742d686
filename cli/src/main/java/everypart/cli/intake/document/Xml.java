package everypart.cli.intake.document;

import java.io.InputStream;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;

/** Opens XML from files that are not trusted: no document types, no outside entities. */
final class Xml {
  private static final XMLInputFactory FACTORY = factory();

  private Xml() {}

  private static XMLInputFactory factory() {
    XMLInputFactory factory = XMLInputFactory.newDefaultFactory();
    factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
    factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
    factory.setProperty(XMLInputFactory.IS_COALESCING, true);
    factory.setXMLResolver(
        (publicId, systemId, base, namespace) -> {
          throw new XMLStreamException("an entity from outside the file is asked for");
        });
    return factory;
  }

  static XMLStreamReader open(InputStream in) throws XMLStreamException {
    synchronized (FACTORY) {
      return FACTORY.createXMLStreamReader(in);
    }
  }

  /** Passes over the element that was just entered, with all that is in it. */
  static void skip(XMLStreamReader xml) throws XMLStreamException {
    int depth = 1;
    while (depth > 0 && xml.hasNext()) {
      switch (xml.next()) {
        case XMLStreamConstants.START_ELEMENT -> depth++;
        case XMLStreamConstants.END_ELEMENT -> depth--;
        default -> {}
      }
    }
  }

  /** Returns the text in the element that was just entered, and leaves it. */
  static String text(XMLStreamReader xml) throws XMLStreamException {
    StringBuilder text = new StringBuilder();
    int depth = 1;
    while (depth > 0 && xml.hasNext()) {
      switch (xml.next()) {
        case XMLStreamConstants.START_ELEMENT -> depth++;
        case XMLStreamConstants.END_ELEMENT -> depth--;
        case XMLStreamConstants.CHARACTERS, XMLStreamConstants.CDATA, XMLStreamConstants.SPACE ->
            text.append(xml.getText());
        default -> {}
      }
    }
    return text.toString();
  }

  /** Returns an attribute by its name without its prefix, or "" where there is none. */
  static String attribute(XMLStreamReader xml, String name) {
    for (int i = 0; i < xml.getAttributeCount(); i++) {
      if (xml.getAttributeLocalName(i).equals(name)) {
        return xml.getAttributeValue(i);
      }
    }
    return "";
  }

  /** Returns an attribute as a whole number, or what to take where there is none. */
  static int number(XMLStreamReader xml, String name, int otherwise) {
    String value = attribute(xml, name);
    try {
      return value.isEmpty() ? otherwise : Integer.parseInt(value.strip());
    } catch (NumberFormatException e) {
      return otherwise;
    }
  }
}
