package everypart.cli.intake.document;

import java.io.IOException;
import java.util.List;
import javax.xml.stream.XMLStreamException;

/** Reads one file format. */
interface FormatReader {
  /**
   * Reads a file.
   *
   * @param bytes the file, not empty
   * @param blocks takes its text
   * @param remarks takes what a person should know of
   * @param meter counts what is read
   * @throws DocumentException when it cannot be read, with the reason
   * @throws IOException when it is damaged
   * @throws XMLStreamException when XML in it is damaged
   */
  void read(byte[] bytes, Blocks blocks, List<FileRemark> remarks, Meter meter)
      throws DocumentException, IOException, XMLStreamException;
}
