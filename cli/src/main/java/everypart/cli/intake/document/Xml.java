package everypart.cli.intake.document;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import javax.xml.stream.util.StreamReaderDelegate;

/** Opens XML from files that are not trusted: no document types, no outside entities. */
final class Xml {
  private static final XMLInputFactory FACTORY = factory();

  private Xml() {}

  private static XMLInputFactory factory() {
    XMLInputFactory factory = XMLInputFactory.newDefaultFactory();
    factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
    factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
    // Text then comes in pieces, so that a text of any length need not be held whole.
    factory.setProperty(XMLInputFactory.IS_COALESCING, false);
    factory.setXMLResolver(
        (publicId, systemId, base, namespace) -> {
          throw new XMLStreamException("an entity from outside the file is asked for");
        });
    return factory;
  }

  static XMLStreamReader open(InputStream in, Meter meter) throws XMLStreamException {
    synchronized (FACTORY) {
      return new Metered(FACTORY.createXMLStreamReader(new Pieces(in, meter)), meter);
    }
  }

  /** Counts how deep elements stand in each other. */
  private static final class Metered extends StreamReaderDelegate {
    private final Meter meter;
    private int depth;

    Metered(XMLStreamReader xml, Meter meter) {
      super(xml);
      this.meter = meter;
    }

    @Override
    public int next() throws XMLStreamException {
      int event = super.next();
      meter.step();
      if (event == XMLStreamConstants.START_ELEMENT) {
        meter.atMost(Limit.NESTING, ++depth);
      } else if (event == XMLStreamConstants.END_ELEMENT) {
        depth--;
      }
      return event;
    }
  }

  /**
   * Counts the bytes from one tag to the next. The parser holds an attribute whole, however long it
   * is, so it must not come to that.
   */
  private static final class Pieces extends FilterInputStream {
    private final Meter meter;
    private long piece;

    Pieces(InputStream in, Meter meter) {
      super(in);
      this.meter = meter;
    }

    @Override
    public int read() throws IOException {
      byte[] one = new byte[1];
      return read(one, 0, 1) < 0 ? -1 : one[0] & 0xFF;
    }

    @Override
    public int read(byte[] bytes, int from, int length) throws IOException {
      int read = super.read(bytes, from, length);
      for (int i = from; i < from + read; i++) {
        piece = bytes[i] == '<' ? 0 : piece + 1;
      }
      meter.atMost(Limit.PIECE, piece);
      meter.look();
      return read;
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
  static String text(XMLStreamReader xml, Meter meter) throws XMLStreamException {
    StringBuilder text = new StringBuilder();
    int depth = 1;
    while (depth > 0 && xml.hasNext()) {
      switch (xml.next()) {
        case XMLStreamConstants.START_ELEMENT -> depth++;
        case XMLStreamConstants.END_ELEMENT -> depth--;
        case XMLStreamConstants.CHARACTERS, XMLStreamConstants.CDATA, XMLStreamConstants.SPACE -> {
          text.append(xml.getTextCharacters(), xml.getTextStart(), xml.getTextLength());
          meter.atMost(Limit.TEXT, text.length());
        }
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
