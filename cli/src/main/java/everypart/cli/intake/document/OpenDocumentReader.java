package everypart.cli.intake.document;

import java.io.IOException;
import java.io.InputStream;
import java.util.List;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;

/** Reads .odt: OpenDocument text documents (OASIS OpenDocument 1.3, part 3). */
final class OpenDocumentReader implements FormatReader {
  private static final String MANIFEST = "META-INF/manifest.xml";
  private static final String CONTENT = "content.xml";
  private static final String STYLES = "styles.xml";

  @Override
  public void read(byte[] bytes, Blocks blocks, List<FileRemark> remarks, Meter meter)
      throws DocumentException, IOException, XMLStreamException {
    try (Packed parts = Packed.open(bytes, meter)) {
      if (isLocked(parts, meter)) {
        throw new DocumentException(Faults.LOCKED);
      }
      if (!parts.has(CONTENT)) {
        throw new DocumentException(
            Sayings.of("openDocumentReader.noWordProcessor"),
            Sayings.of("openDocumentReader.saveOdtWord"));
      }
      OpenDocumentStyles styles = new OpenDocumentStyles();
      if (parts.has(STYLES)) {
        try (InputStream in = parts.part(STYLES)) {
          XMLStreamReader xml = Xml.open(in, meter);
          while (xml.hasNext()) {
            if (xml.next() == XMLStreamConstants.START_ELEMENT) {
              styles.start(xml);
            }
          }
        }
      }
      try (InputStream in = parts.part(CONTENT)) {
        new OpenDocumentBody(styles, blocks, remarks).read(Xml.open(in, meter));
      }
    }
  }

  private static boolean isLocked(Packed parts, Meter meter)
      throws IOException, DocumentException, XMLStreamException {
    if (!parts.has(MANIFEST)) {
      return false;
    }
    try (InputStream in = parts.part(MANIFEST)) {
      XMLStreamReader xml = Xml.open(in, meter);
      while (xml.hasNext()) {
        if (xml.next() == XMLStreamConstants.START_ELEMENT
            && xml.getLocalName().equals("encryption-data")) {
          return true;
        }
      }
    }
    return false;
  }
}
