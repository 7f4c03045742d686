package everypart.cli.intake.document;

import java.io.IOException;
import java.io.InputStream;
import java.util.List;
import java.util.Optional;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;

/**
 * Reads .docx: Office Open XML word-processing documents (ECMA-376 part 1, chapter 17), in their
 * transitional and their strict form.
 *
 * <p>It reads the parts itself, piece by piece: the numbers of lists stand in no library's text, a
 * long document need not be held in memory as a tree, and the whole schema would more than double
 * the program.
 */
final class WordReader implements FormatReader {
  @Override
  public void read(byte[] bytes, Blocks blocks, List<FileRemark> remarks, Meter meter)
      throws DocumentException, IOException, XMLStreamException {
    try (Packed parts = Packed.open(bytes, meter)) {
      String body = related(parts, meter, "", "/officeDocument").orElse("word/document.xml");
      if (!parts.has(body)) {
        throw new DocumentException(
            Sayings.of("openDocumentReader.noWordProcessor"),
            Sayings.of("wordReader.saveDocxWord"));
      }
      WordStyles styles = new WordStyles();
      Optional<String> styleSheet = related(parts, meter, body, "/styles");
      if (styleSheet.isPresent()) {
        try (InputStream in = parts.part(styleSheet.get())) {
          styles.read(Xml.open(in, meter));
        }
      }
      WordNumbering numbering = new WordNumbering();
      Optional<String> lists = related(parts, meter, body, "/numbering");
      if (lists.isPresent()) {
        try (InputStream in = parts.part(lists.get())) {
          numbering.read(Xml.open(in, meter));
        }
      }
      try (InputStream in = parts.part(body)) {
        new WordBody(styles, numbering, blocks, remarks, meter).read(Xml.open(in, meter));
      }
    }
  }

  /**
   * Finds a part by what it is to another part.
   *
   * @param from the other part, or "" for the file as a whole
   * @param sort the end of the relation's type
   */
  private static Optional<String> related(Packed parts, Meter meter, String from, String sort)
      throws IOException, DocumentException, XMLStreamException {
    String folder = from.substring(0, from.lastIndexOf('/') + 1);
    String list = folder + "_rels/" + from.substring(folder.length()) + ".rels";
    if (!parts.has(list)) {
      return Optional.empty();
    }
    try (InputStream in = parts.part(list)) {
      XMLStreamReader xml = Xml.open(in, meter);
      while (xml.hasNext()) {
        if (xml.next() == XMLStreamConstants.START_ELEMENT
            && xml.getLocalName().equals("Relationship")
            && Xml.attribute(xml, "Type").endsWith(sort)) {
          String target = Xml.attribute(xml, "Target");
          String name = target.startsWith("/") ? target.substring(1) : folder + target;
          return Optional.of(name).filter(parts::has);
        }
      }
    }
    return Optional.empty();
  }
}
