package everypart.cli.intake.document;

import java.io.BufferedInputStream;
import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.nio.charset.Charset;
import java.nio.charset.IllegalCharsetNameException;
import java.nio.charset.StandardCharsets;
import java.nio.charset.UnsupportedCharsetException;
import java.util.Locale;
import java.util.function.Predicate;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import javax.xml.stream.util.StreamReaderDelegate;

/** Opens XML from files that are not trusted: no document types, no outside entities. */
final class Xml {
  private static final XMLInputFactory FACTORY = factory();

  /** An XML declaration ends before. */
  private static final int START = 200;

  private static final Pattern ENCODING =
      Pattern.compile("^<\\?xml [^>]*encoding\\s*=\\s*[\"']([A-Za-z0-9._-]+)[\"']");

  private Xml() {}

  private static XMLInputFactory factory() {
    XMLInputFactory factory = XMLInputFactory.newDefaultFactory();
    factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
    factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
    // Text then comes in pieces, so that a text of any length need not be held whole.
    factory.setProperty(XMLInputFactory.IS_COALESCING, false);
    factory.setXMLResolver(
        (publicId, systemId, base, namespace) -> {
          throw new XMLStreamException(Sayings.of("xml.entityOutsideFile"));
        });
    return factory;
  }

  static XMLStreamReader open(InputStream in, Meter meter) throws XMLStreamException {
    try {
      Reader signs = decoded(new BufferedInputStream(new Pieces(in, meter)));
      synchronized (FACTORY) {
        return new Metered(FACTORY.createXMLStreamReader(signs), meter);
      }
    } catch (IOException e) {
      throw new XMLStreamException(e);
    }
  }

  /** Decodes by the rules of XML 1.0, appendix F: left to itself, the parser prints bad bytes. */
  private static Reader decoded(BufferedInputStream in) throws IOException {
    in.mark(START);
    byte[] start = in.readNBytes(START);
    in.reset();
    int first = start.length < 2 ? 0 : ((start[0] & 0xFF) << Byte.SIZE) | (start[1] & 0xFF);
    if (first == 0xEFBB && start.length > 2 && (start[2] & 0xFF) == 0xBF) {
      in.skipNBytes(3);
    }
    Charset charset =
        switch (first) {
          case 0xFEFF, 0xFFFE -> StandardCharsets.UTF_16;
          case '<' -> StandardCharsets.UTF_16BE;
          case '<' << Byte.SIZE -> StandardCharsets.UTF_16LE;
          default -> declared(new String(start, StandardCharsets.ISO_8859_1));
        };
    return new InputStreamReader(in, charset.newDecoder());
  }

  private static Charset declared(String start) throws IOException {
    Matcher said = ENCODING.matcher(start);
    if (!said.find() || said.group(1).toUpperCase(Locale.ROOT).startsWith("UTF-16")) {
      return StandardCharsets.UTF_8;
    }
    try {
      return Charset.forName(said.group(1));
    } catch (IllegalCharsetNameException | UnsupportedCharsetException e) {
      throw new IOException(Sayings.of("xml.noSuchEncoding", said.group(1)), e);
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

  /** Is shown an element; it looks at its attributes and stays at its start. */
  @FunctionalInterface
  interface Visit {
    void element(String name) throws XMLStreamException;
  }

  /** Passes over the element that was just entered, with all that is in it. */
  static void skip(XMLStreamReader xml) throws XMLStreamException {
    within(xml, name -> {});
  }

  /** Shows all elements within the one that was just entered, and leaves it. */
  static void within(XMLStreamReader xml, Visit visit) throws XMLStreamException {
    within(xml, name -> false, visit);
  }

  /**
   * Shows the elements within the one that was just entered, and leaves it.
   *
   * @param skipped which elements are passed over with all that is in them
   */
  static void within(XMLStreamReader xml, Predicate<String> skipped, Visit visit)
      throws XMLStreamException {
    int depth = 1;
    while (depth > 0 && xml.hasNext()) {
      int event = xml.next();
      if (event == XMLStreamConstants.END_ELEMENT) {
        depth--;
      } else if (event == XMLStreamConstants.START_ELEMENT) {
        String name = xml.getLocalName();
        if (skipped.test(name)) {
          skip(xml);
        } else {
          depth++;
          visit.element(name);
        }
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
