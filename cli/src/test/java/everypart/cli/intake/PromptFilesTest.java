package everypart.cli.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.analyzer.prompt.Demand;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.prompt.PromptReader;
import everypart.cli.intake.document.Limits;
import everypart.lexicon.Lexicon;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.font.PDType1Font;
import org.apache.pdfbox.pdmodel.font.Standard14Fonts;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Prompts that come as documents, with bold words as hints and list numbers as labels. */
final class PromptFilesTest {
  private static final String EXPECTED = "a: identify; b: explain describe";

  @TempDir
  @SuppressWarnings("NullAway.Init")
  Path folder;

  private final List<InputProblem> problems = new ArrayList<>();

  private String outline(String name, byte[] bytes) throws IOException, InputException {
    Path file = Files.write(folder.resolve(name), bytes);
    Sources sources = new Sources(InputStream.nullInputStream(), Limits.USUAL, problems::add);
    PromptFiles files =
        new PromptFiles(sources, new PromptReader(Lexicon.bundled()), problems::add);
    Prompt prompt = files.read(file.toString()).first();
    assertEquals(name.substring(0, name.indexOf('.')), prompt.id());
    return prompt.parts().stream()
        .map(
            part ->
                part.label()
                    + ": "
                    + part.demands().stream()
                        .map(Demand::kind)
                        .map(kind -> kind.word())
                        .collect(Collectors.joining(" ")))
        .collect(Collectors.joining("; "));
  }

  private static byte[] zip(Map<String, String> parts) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (ZipOutputStream zip = new ZipOutputStream(out)) {
      for (Map.Entry<String, String> part : parts.entrySet()) {
        zip.putNextEntry(new ZipEntry(part.getKey()));
        zip.write(part.getValue().getBytes(StandardCharsets.UTF_8));
        zip.closeEntry();
      }
    }
    return out.toByteArray();
  }

  @Test
  void readsAWebPage() throws IOException, InputException {
    String page =
        "<ol type=a><li>Name the lamp.</li><li>The keeper slept. In your notebook you will"
            + " <b>explain</b> why, and <b>describe</b> his lamp.</li></ol>";
    assertEquals(EXPECTED, outline("lamp.html", page.getBytes(StandardCharsets.UTF_8)));
  }

  @Test
  void readsAWordFileWithItsListNumbers() throws IOException, InputException {
    String space = "http://schemas.openxmlformats.org/wordprocessingml/2006/main";
    String item = "<w:p><w:pPr><w:numPr><w:ilvl w:val='0'/><w:numId w:val='1'/></w:numPr></w:pPr>";
    String body =
        item
            + "<w:r><w:t>Name the lamp.</w:t></w:r></w:p>"
            + item
            + "<w:r><w:t xml:space='preserve'>The keeper slept. In your notebook you will"
            + " </w:t></w:r><w:r><w:rPr><w:b/></w:rPr><w:t>explain</w:t></w:r><w:r><w:t"
            + " xml:space='preserve'> why, and </w:t></w:r><w:r><w:rPr><w:b/></w:rPr>"
            + "<w:t>describe</w:t></w:r><w:r><w:t xml:space='preserve'> his"
            + " lamp.</w:t></w:r></w:p>";
    String relation = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/";
    byte[] file =
        zip(
            Map.of(
                "[Content_Types].xml",
                "<Types xmlns='http://schemas.openxmlformats.org/package/2006/content-types'/>",
                "_rels/.rels",
                "<Relationships"
                    + " xmlns='http://schemas.openxmlformats.org/package/2006/relationships'>"
                    + "<Relationship Id='r1' Type='"
                    + relation
                    + "officeDocument' Target='word/document.xml'/></Relationships>",
                "word/document.xml",
                "<w:document xmlns:w='" + space + "'><w:body>" + body + "</w:body></w:document>",
                "word/numbering.xml",
                "<w:numbering xmlns:w='"
                    + space
                    + "'><w:abstractNum w:abstractNumId='0'><w:lvl w:ilvl='0'><w:start"
                    + " w:val='1'/><w:numFmt w:val='lowerLetter'/><w:lvlText"
                    + " w:val='(%1)'/></w:lvl></w:abstractNum><w:num w:numId='1'>"
                    + "<w:abstractNumId w:val='0'/></w:num></w:numbering>",
                "word/_rels/document.xml.rels",
                "<Relationships"
                    + " xmlns='http://schemas.openxmlformats.org/package/2006/relationships'>"
                    + "<Relationship Id='r1' Type='"
                    + relation
                    + "numbering' Target='numbering.xml'/></Relationships>"));
    assertEquals(EXPECTED, outline("lamp.docx", file));
  }

  @Test
  void readsAnOpenDocument() throws IOException, InputException {
    String content =
        "<office:document-content"
            + " xmlns:office='urn:oasis:names:tc:opendocument:xmlns:office:1.0'"
            + " xmlns:style='urn:oasis:names:tc:opendocument:xmlns:style:1.0'"
            + " xmlns:fo='urn:oasis:names:tc:opendocument:xmlns:xsl-fo-compatible:1.0'"
            + " xmlns:text='urn:oasis:names:tc:opendocument:xmlns:text:1.0'>"
            + "<office:automatic-styles><style:style style:name='T1' style:family='text'>"
            + "<style:text-properties fo:font-weight='bold'/></style:style>"
            + "</office:automatic-styles><office:body><office:text>"
            + "<text:p>(a) Name the lamp.</text:p>"
            + "<text:p>(b) The keeper slept. In your notebook you will <text:span"
            + " text:style-name='T1'>explain</text:span> why, and <text:span"
            + " text:style-name='T1'>describe</text:span> his lamp.</text:p>"
            + "</office:text></office:body></office:document-content>";
    byte[] file =
        zip(Map.of("mimetype", "application/vnd.oasis.opendocument.text", "content.xml", content));
    assertEquals(EXPECTED, outline("lamp.odt", file));
  }

  @Test
  void readsAPdf() throws IOException, InputException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (PDDocument document = new PDDocument()) {
      PDPage page = new PDPage();
      document.addPage(page);
      try (PDPageContentStream words = new PDPageContentStream(document, page)) {
        words.beginText();
        words.setFont(new PDType1Font(Standard14Fonts.FontName.HELVETICA), 12);
        words.newLineAtOffset(72, 700);
        words.showText("(a) Name the lamp.");
        words.newLineAtOffset(0, -30);
        words.showText("(b) Explain why the keeper slept, and describe his lamp.");
        words.endText();
      }
      document.save(out);
    }
    assertEquals(EXPECTED, outline("lamp.pdf", out.toByteArray()));
  }

  @Test
  void saysWhyADocumentCannotBeRead() throws IOException {
    Path file = Files.write(folder.resolve("lamp.docx"), new byte[] {1, 2, 3});
    Sources sources = new Sources(InputStream.nullInputStream(), Limits.USUAL, problems::add);
    PromptFiles files =
        new PromptFiles(sources, new PromptReader(Lexicon.bundled()), problems::add);
    InputException none =
        org.junit.jupiter.api.Assertions.assertThrows(
            InputException.class, () -> files.read(file.toString()));
    assertTrue(none.problem().what().contains("no prompt could be read"));
    assertTrue(problems.get(0).sentence().contains("lamp.docx: "), problems.toString());
  }
}
