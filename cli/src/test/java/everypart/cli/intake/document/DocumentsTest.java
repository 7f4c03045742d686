package everypart.cli.intake.document;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.encryption.AccessPermission;
import org.apache.pdfbox.pdmodel.encryption.StandardProtectionPolicy;
import org.apache.pdfbox.pdmodel.font.PDType1Font;
import org.apache.pdfbox.pdmodel.font.Standard14Fonts.FontName;
import org.apache.pdfbox.pdmodel.graphics.image.LosslessFactory;
import org.apache.poi.poifs.crypt.EncryptionInfo;
import org.apache.poi.poifs.crypt.EncryptionMode;
import org.apache.poi.poifs.filesystem.POIFSFileSystem;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.apache.poi.xwpf.usermodel.XWPFDocument;
import org.junit.jupiter.api.Test;

/** Each format gives its text, and each bad file one sentence. */
class DocumentsTest {
  private static final String WORDS =
      "xmlns:w=\"http://schemas.openxmlformats.org/wordprocessingml/2006/main\"";
  private static final String RELATION =
      "http://schemas.openxmlformats.org/officeDocument/2006/relationships/";

  private static String read(String name, byte[] bytes) throws DocumentException {
    return new Documents().read(name, bytes).text();
  }

  private static String refusal(String name, byte[] bytes) {
    return String.valueOf(
        assertThrows(DocumentException.class, () -> new Documents().read(name, bytes))
            .getMessage());
  }

  private static byte[] utf8(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }

  private static byte[] zip(Map<String, String> parts) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (ZipOutputStream zip = new ZipOutputStream(out)) {
      for (Map.Entry<String, String> part : parts.entrySet()) {
        zip.putNextEntry(new ZipEntry(part.getKey()));
        zip.write(utf8(part.getValue()));
      }
    }
    return out.toByteArray();
  }

  private static byte[] word(String body, String levels) throws IOException {
    return zip(
        Map.of(
            "_rels/.rels",
            "<R><Relationship Type=\"" + RELATION + "officeDocument\" Target=\"word/d.xml\"/></R>",
            "word/_rels/d.xml.rels",
            "<R><Relationship Type=\"" + RELATION + "numbering\" Target=\"n.xml\"/></R>",
            "word/n.xml",
            "<w:numbering "
                + WORDS
                + "><w:abstractNum w:abstractNumId=\"7\">"
                + levels
                + "</w:abstractNum><w:num w:numId=\"1\"><w:abstractNumId w:val=\"7\"/></w:num>"
                + "</w:numbering>",
            "word/d.xml",
            "<w:document " + WORDS + "><w:body>" + body + "</w:body></w:document>"));
  }

  private static String run(String text) {
    return "<w:r><w:t xml:space=\"preserve\">" + text + "</w:t></w:r>";
  }

  private static byte[] pdf(String text, boolean picture, String password) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (PDDocument pdf = new PDDocument()) {
      PdfFonts.useOwn();
      PDPage page = new PDPage();
      pdf.addPage(page);
      try (PDPageContentStream content = new PDPageContentStream(pdf, page)) {
        if (picture) {
          content.drawImage(
              LosslessFactory.createFromImage(
                  pdf,
                  new java.awt.image.BufferedImage(
                      8, 8, java.awt.image.BufferedImage.TYPE_INT_RGB)),
              0,
              0);
        }
        content.beginText();
        content.setFont(new PDType1Font(FontName.HELVETICA), 12);
        content.newLineAtOffset(50, 700);
        for (String line : text.split("\n")) {
          content.showText(line);
          content.newLineAtOffset(0, -14);
        }
        content.endText();
      }
      if (!password.isEmpty()) {
        pdf.protect(new StandardProtectionPolicy(password, password, new AccessPermission()));
      }
      pdf.save(out);
    }
    return out.toByteArray();
  }

  @Test
  void plainTextIsReadInEachEncoding() throws DocumentException {
    String text = "The pipkin\u2019s caf\u00e9.\n";
    assertEquals(text, read("a.txt", utf8(text)));
    assertEquals(text, read("a.txt", utf8("\ufeff" + text)));
    assertEquals(text, read("a.txt", ("\ufeff" + text).getBytes(StandardCharsets.UTF_16LE)));
    assertEquals(text, read("a.txt", ("\ufeff" + text).getBytes(StandardCharsets.UTF_16BE)));
    assertEquals("plain words", read("a.txt", "plain words".getBytes(StandardCharsets.UTF_16LE)));
    assertEquals(text, read("a.txt", text.getBytes(Charset.forName("windows-1252"))));
  }

  @Test
  void listNumbersOfAWordDocumentAreText() throws Exception {
    String item = "<w:p><w:pPr><w:numPr><w:ilvl w:val=\"%d\"/><w:numId w:val=\"1\"/></w:numPr>";
    String levels =
        "<w:lvl w:ilvl=\"0\"><w:start w:val=\"1\"/><w:numFmt w:val=\"lowerLetter\"/>"
            + "<w:lvlText w:val=\"(%1)\"/></w:lvl><w:lvl w:ilvl=\"1\"><w:start w:val=\"1\"/>"
            + "<w:numFmt w:val=\"lowerRoman\"/><w:lvlText w:val=\"%2.\"/></w:lvl>";
    String first = item.replace("%d", "0") + "</w:pPr>";
    String second = item.replace("%d", "1") + "</w:pPr>";
    String body =
        first
            + run("one")
            + "</w:p>"
            + second
            + run("deep")
            + "</w:p>"
            + second
            + run("deeper")
            + "</w:p>"
            + first
            + run("two")
            + "</w:p>";
    assertEquals("(a) one\ni. deep\nii. deeper\n(b) two", read("a.docx", word(body, levels)));
  }

  @Test
  void trackedChangesOfAWordDocumentAreReadAsAccepted() throws Exception {
    String body =
        "<w:p>"
            + run("They ")
            + "<w:del><w:r><w:delText>die</w:delText></w:r></w:del><w:ins>"
            + run("grow")
            + "</w:ins></w:p><w:p><w:pPr><w:rPr><w:del/></w:rPr></w:pPr>"
            + run("one ")
            + "</w:p><w:p>"
            + run("line")
            + "</w:p>";
    assertEquals("They grow\n\none line", read("a.docx", word(body, "")));
  }

  @Test
  void boldWordsAndTablesOfAWordDocumentAreKept() throws Exception {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (XWPFDocument document = new XWPFDocument()) {
      var paragraph = document.createParagraph();
      paragraph.createRun().setText("They ");
      var bold = paragraph.createRun();
      bold.setBold(true);
      bold.setText("predict");
      var table = document.createTable(1, 2);
      table.getRow(0).getCell(0).setText("depth");
      table.getRow(0).getCell(1).setText("2 m");
      document.write(out);
    }
    assertEquals("They predict\n\ndepth\t2 m", read("a.docx", out.toByteArray()));
    assertTrue(
        Documents.withMarkdown(Limits.USUAL)
            .read("a.docx", out.toByteArray())
            .text()
            .startsWith("They **predict**"));
  }

  @Test
  void anOpenDocumentIsRead() throws Exception {
    String content =
        "<o xmlns:text=\"t\" xmlns:style=\"s\" xmlns:office=\"o\"><text:list-style"
            + " style:name=\"L\"><text:list-level-style-number text:level=\"1\""
            + " style:num-format=\"a\" style:num-suffix=\")\"/></text:list-style><office:text>"
            + "<text:tracked-changes><text:p>gone</text:p></text:tracked-changes>"
            + "<text:p>one  <text:s text:c=\"2\"/>two<office:annotation><text:p>note</text:p>"
            + "</office:annotation></text:p><text:list text:style-name=\"L\"><text:list-item>"
            + "<text:p>x</text:p></text:list-item><text:list-item><text:p>y</text:p>"
            + "</text:list-item></text:list></office:text></o>";
    assertEquals("one   two\n\na) x\nb) y", read("a.odt", zip(Map.of("content.xml", content))));
  }

  @Test
  void richTextIsRead() throws DocumentException {
    String text =
        "{\\rtf1\\ansi\\ansicpg1252{\\fonttbl{\\f0 Serif;}}{\\*\\unknownthing no}{\\header no}"
            + "They\\'92re {\\deleted no}caf\\u233?s.\\par{\\listtext (a)\\tab}first\\par\n"
            + "\\trowd\\pard\\intbl one\\cell two\\cell\\row\\pard last\\par}";
    assertEquals(
        "They\u2019re caf\u00e9s.\n\n(a) first\n\none\ttwo\n\nlast", read("a.rtf", utf8(text)));
  }

  @Test
  void aWebPageIsRead() throws DocumentException {
    String text =
        "<html><head><title>no</title></head><body><h1>Pool</h1><p>one<br>two<script>no</script>"
            + "<ol type=a start=2><li>x<li>y</ol></body></html>";
    assertEquals("Pool\n\none\ntwo\n\nb. x\nc. y", read("a.html", utf8(text)));
  }

  @Test
  void linesOfAPdfAreJoinedWhereTheyWereWrapped() throws Exception {
    String text =
        "The pipkins hide under the fronds since birds hunt them and they come\n"
            + "out at night.\n(b) It dies.";
    assertEquals(
        "The pipkins hide under the fronds since birds hunt them and they come out at night.\n\n"
            + "(b) It dies.",
        read("a.pdf", pdf(text, false, "")));
  }

  @Test
  void aScannedPageIsNamed() throws Exception {
    assertTrue(refusal("a.pdf", pdf("", true, "")).startsWith("scanned page: no text to read; "));
  }

  @Test
  void aPasswordIsNamed() throws Exception {
    assertTrue(refusal("a.pdf", pdf("x", false, "key")).contains("protected by a password"));
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (POIFSFileSystem locked = new POIFSFileSystem()) {
      var encryptor = new EncryptionInfo(EncryptionMode.agile).getEncryptor();
      encryptor.confirmPassword("key");
      try (var in = encryptor.getDataStream(locked)) {
        in.write(word("<w:p/>", ""));
      }
      locked.writeFilesystem(out);
    }
    assertTrue(refusal("a.docx", out.toByteArray()).contains("protected by a password"));
  }

  @Test
  void badFilesAreNamed() throws Exception {
    byte[] whole = word("<w:p>" + run("words") + "</w:p>", "");
    assertTrue(refusal("a.docx", new byte[0]).startsWith("the file is empty (0 bytes); "));
    assertTrue(
        refusal("a.docx", java.util.Arrays.copyOf(whole, whole.length / 2)).contains("damaged"));
    assertTrue(refusal("a.doc", utf8("x")).contains("save it as .docx"));
    assertTrue(refusal("a.jpg", utf8("x")).contains("picture"));
    assertTrue(refusal("a.pdf", utf8("no pdf")).contains("damaged"));
  }

  @Test
  void entitiesInXmlAreNotFollowed() throws Exception {
    byte[] hostile =
        zip(
            Map.of(
                "content.xml",
                "<!DOCTYPE o [<!ENTITY e SYSTEM \"file:///etc/hostname\">]><o xmlns:text=\"t\">"
                    + "<text:p>a&e;</text:p></o>"));
    assertTrue(refusal("a.odt", hostile).contains("damaged"));
  }

  @Test
  void aDocumentThatUnpacksToTooMuchIsNotRead() throws Exception {
    byte[] bomb = word("<w:p>" + run("a".repeat(3 << 20)) + "</w:p>", "");
    Documents bounded = new Documents(Limits.USUAL.with(Limit.UNPACKED, 1));
    DocumentException refused =
        assertThrows(DocumentException.class, () -> bounded.read("a.docx", bomb));
    assertTrue(String.valueOf(refused.getMessage()).contains("more than 1 MB once unpacked"));
  }

  @Test
  void fiveMegabytesAreRead() throws Exception {
    String body = ("<w:p>" + run("The pipkins hide under the fronds.") + "</w:p>").repeat(70_000);
    assertTrue(body.length() > 5 << 20);
    assertEquals(70_000 * 36 - 2, read("a.docx", word(body, "")).length());
  }

  @Test
  void aWorkbookGivesItsRows() throws Exception {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (XSSFWorkbook book = new XSSFWorkbook()) {
      var sheet = book.createSheet("class");
      var header = sheet.createRow(0);
      header.createCell(0).setCellValue("response_id");
      header.createCell(1).setCellValue("text");
      var row = sheet.createRow(2);
      row.createCell(0).setCellValue(7);
      row.createCell(1).setCellValue("It dies.");
      book.write(out);
    }
    try (Sheet sheet = Sheet.open("a.xlsx", out.toByteArray(), Limits.USUAL)) {
      assertEquals(new SheetRow(1, java.util.List.of("response_id", "text")), sheet.next());
      assertEquals(new SheetRow(3, java.util.List.of("7", "It dies.")), sheet.next());
      assertTrue(!sheet.hasNext() && sheet.fault().isEmpty());
    }
  }

  @Test
  void aSheetApartBySemicolonsIsKnownByItsHeader() throws Exception {
    try (Sheet sheet = Sheet.open("a.csv", utf8("id;text\nr1;\"a;b\"\n"), Limits.USUAL)) {
      sheet.next();
      assertEquals(new SheetRow(2, java.util.List.of("r1", "a;b")), sheet.next());
    }
  }

  @Test
  void namesThatLeadOutOfAZipFileAreRefusedAndTheRestIsRead(
      @org.junit.jupiter.api.io.TempDir java.nio.file.Path folder) throws Exception {
    java.nio.file.Path set = folder.resolve("set.zip");
    java.nio.file.Files.write(
        set,
        zip(
            Map.of(
                "../evil.txt",
                "x",
                "east/s1.txt",
                "deep",
                "__MACOSX/._s1.txt",
                "x",
                "~$s1.docx",
                "x")));
    try (FileTree tree = new FileTree(set, "set.zip", Limits.USUAL)) {
      FoundFile evil = tree.next();
      assertTrue(evil.lost().isPresent());
      FoundFile good = tree.next();
      assertEquals("set.zip/east/s1.txt", good.shown());
      assertEquals(java.util.List.of("east"), good.folders());
      assertEquals("deep", new String(good.bytes(), StandardCharsets.UTF_8));
      assertTrue(!tree.hasNext());
    }
  }
}
