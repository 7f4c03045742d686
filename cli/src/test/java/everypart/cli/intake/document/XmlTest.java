package everypart.cli.intake.document;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.ByteArrayInputStream;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import javax.xml.stream.XMLStreamException;
import org.junit.jupiter.api.Test;

/** In which encoding XML is read. */
class XmlTest {
  private static String read(String declaration, String before, Charset charset) throws Exception {
    byte[] bytes = (before + declaration + "<a>caf\u00e9 \u2019n</a>").getBytes(charset);
    return read(bytes);
  }

  private static String read(byte[] bytes) throws Exception {
    Meter meter = new Meter(Limits.USUAL);
    var xml = Xml.open(new ByteArrayInputStream(bytes), meter);
    while (!xml.isStartElement()) {
      xml.next();
    }
    return Xml.text(xml, meter);
  }

  @Test
  void theMarkOrTheDeclarationSaysTheEncoding() throws Exception {
    String words = "caf\u00e9 \u2019n";
    String utf8 = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>";
    String utf16 = "<?xml version='1.0' encoding='UTF-16' standalone='yes'?>";
    assertEquals(words, read("", "", StandardCharsets.UTF_8));
    assertEquals(words, read(utf8, "", StandardCharsets.UTF_8));
    assertEquals(words, read(utf8, "\ufeff", StandardCharsets.UTF_8));
    assertEquals(words, read(utf16, "\ufeff", StandardCharsets.UTF_16BE));
    assertEquals(words, read(utf16, "\ufeff", StandardCharsets.UTF_16LE));
    assertEquals(words, read(utf16, "", StandardCharsets.UTF_16LE));
    assertEquals(words, read(utf16, "", StandardCharsets.UTF_16BE));
    assertEquals(
        words,
        read("<?xml version='1.0' encoding = 'windows-1252'?>", "", Charset.forName("cp1252")));
  }

  @Test
  void whatIsNotInItsEncodingIsRefused() {
    byte[] bad = "<a>caf\u00e9</a>".getBytes(StandardCharsets.ISO_8859_1);
    assertThrows(XMLStreamException.class, () -> read(bad));
    byte[] odd = "<?xml version='1.0' encoding='none'?><a/>".getBytes(StandardCharsets.UTF_8);
    assertThrows(XMLStreamException.class, () -> read(odd));
  }
}
