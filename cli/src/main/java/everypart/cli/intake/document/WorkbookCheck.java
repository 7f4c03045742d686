package everypart.cli.intake.document;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;

/**
 * Looks through the parts of a workbook before the library opens it, which makes room for a cell
 * wherever it says it stands and for a number however long it is when written out.
 */
final class WorkbookCheck {
  private final Meter meter;

  WorkbookCheck(Meter meter) {
    this.meter = meter;
  }

  /** Looks through a workbook; throws what {@link Meter} throws where it passes a bound. */
  void check(byte[] bytes) throws DocumentException, IOException, XMLStreamException {
    try (Packed parts = Packed.open(bytes, meter)) {
      for (String name : parts.names()) {
        try (InputStream in = new BufferedInputStream(parts.part(name), 1 << 16)) {
          if (isXml(in)) {
            part(name, in);
          } else {
            in.transferTo(OutputStream.nullOutputStream());
          }
        }
      }
    }
  }

  /** Any part may be a sheet, whatever it is called. */
  private static boolean isXml(InputStream in) throws IOException {
    in.mark(4);
    int first = in.read();
    in.reset();
    return first == '<' || first == 0xEF || first == 0xFE || first == 0xFF;
  }

  private void part(String name, InputStream in) throws XMLStreamException {
    long rows = 0;
    long cells = 0;
    boolean number = false;
    XMLStreamReader xml = Xml.open(in, meter);
    try {
      while (xml.hasNext()) {
        if (xml.next() != XMLStreamConstants.START_ELEMENT) {
          continue;
        }
        switch (xml.getLocalName()) {
          case "row" -> meter.atMost(Limit.ROWS, Math.max(++rows, Xml.number(xml, "r", 0)));
          case "c" -> {
            meter.atMost(Limit.CELLS, ++cells);
            meter.atMost(Limit.COLUMNS, column(Xml.attribute(xml, "r")));
            String type = Xml.attribute(xml, "t");
            number = type.isEmpty() || type.equals("n");
          }
          case "v" -> {
            String value = Xml.text(xml, meter);
            if (number) {
              meter.atMost(Limit.DIGITS, digits(value));
            }
          }
          case "t" -> Xml.text(xml, meter);
          default -> {}
        }
      }
    } catch (XMLStreamException e) {
      if (name.endsWith(".xml") || name.endsWith(".rels")) {
        throw e;
      }
    }
  }

  /** Returns the number of the column of a cell such as AB12; 0 where it does not say. */
  private static long column(String cell) {
    long column = 0;
    for (int i = 0; i < cell.length() && i < 8; i++) {
      char sign = Character.toUpperCase(cell.charAt(i));
      if (sign < 'A' || sign > 'Z') {
        break;
      }
      column = column * 26 + sign - 'A' + 1;
    }
    return column;
  }

  /** Returns how many digits a number may have when it is written out. */
  private static long digits(String number) {
    int at = Math.max(number.lastIndexOf('e'), number.lastIndexOf('E'));
    if (at < 0) {
      return number.length();
    }
    long exponent = 0;
    for (int i = at + 1; i < number.length(); i++) {
      int digit = Character.digit(number.charAt(i), 10);
      exponent = digit < 0 ? exponent : Math.min(exponent * 10 + digit, Integer.MAX_VALUE);
    }
    return at + exponent;
  }
}
