package everypart.cli.command;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
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
import org.apache.poi.common.usermodel.PictureType;
import org.apache.poi.openxml4j.exceptions.InvalidFormatException;
import org.apache.poi.xwpf.usermodel.XWPFDocument;

/** A class set of 120 files in mixed formats, made from the responses of the demo data. */
final class MixedSet {
  static final int FILES = 120;

  private static final Path DEMO = Path.of("..", "demo-data");
  private static final List<String> FORMATS = List.of("docx", "odt", "pdf", "rtf", "txt", "html");

  private MixedSet() {}

  /** Returns the demo responses that are not empty, by id. */
  static Map<String, String> responses() throws IOException {
    Map<String, String> texts = DemoTexts.of(DEMO.resolve("class.csv"));
    texts.values().removeIf(String::isBlank);
    return texts;
  }

  /**
   * Writes the set into a folder with a folder for each of two classes.
   *
   * @return the text of each good file by its path; those that are not in it are bad
   */
  static Map<Path, String> write(Path folder) throws IOException {
    List<String> texts = new ArrayList<>(responses().values());
    Map<Path, String> good = new LinkedHashMap<>();
    for (int i = 0; i < FILES; i++) {
      String format = FORMATS.get(i % FORMATS.size());
      Path file = folder.resolve(i < FILES / 2 ? "east" : "west").resolve(name(i) + "." + format);
      Files.createDirectories(file.getParent());
      String text = texts.get(i % texts.size());
      switch (i) {
        case 2 -> Files.write(file, pdf(text, false, "key"));
        case 8 -> Files.write(file, pdf("", true, ""));
        case 10 -> Files.write(file, new byte[0]);
        case 12 -> {
          Files.write(file, large(text));
          good.put(file, text);
        }
        default -> {
          Files.write(file, bytes(format, text, i));
          good.put(file, text);
        }
      }
    }
    return good;
  }

  private static String name(int number) {
    return String.format(Locale.ROOT, "student-%03d", number);
  }

  private static byte[] bytes(String format, String text, int number) throws IOException {
    return switch (format) {
      case "docx" -> docx(text);
      case "odt" -> odt(text);
      case "pdf" -> pdf(text, false, "");
      case "rtf" -> rtf(text);
      case "html" ->
          ("<!DOCTYPE html><meta charset=utf-8><title>x</title><p>"
                  + escaped(text).replace("\n\n", "</p><p>").replace("\n", "<br>"))
              .getBytes(StandardCharsets.UTF_8);
      default ->
          switch (number % 3) {
            case 0 -> text.getBytes(StandardCharsets.UTF_8);
            case 1 -> ("\ufeff" + text).getBytes(StandardCharsets.UTF_16LE);
            default -> text.getBytes(Charset.forName("windows-1252"));
          };
    };
  }

  private static String escaped(String text) {
    return text.replace("&", "&amp;").replace("<", "&lt;");
  }

  static byte[] docx(String text) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (XWPFDocument document = new XWPFDocument()) {
      for (String paragraph : text.split("\n\n")) {
        var run = document.createParagraph().createRun();
        String[] lines = paragraph.split("\n");
        for (int i = 0; i < lines.length; i++) {
          if (i > 0) {
            run.addBreak();
          }
          run.setText(lines[i], i);
        }
      }
      document.write(out);
    }
    return out.toByteArray();
  }

  /** Returns a document of 5 MB: a few words and a large picture. */
  private static byte[] large(String text) throws IOException {
    byte[] dots = new byte[5 << 20];
    new Random(1).nextBytes(dots);
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (XWPFDocument document = new XWPFDocument()) {
      for (String paragraph : text.split("\n\n")) {
        document.createParagraph().createRun().setText(paragraph);
      }
      document.addPictureData(dots, PictureType.PNG);
      document.write(out);
    } catch (InvalidFormatException e) {
      throw new IOException(e);
    }
    return out.toByteArray();
  }

  static byte[] odt(String text) throws IOException {
    String names = "urn:oasis:names:tc:opendocument:xmlns:";
    StringBuilder body = new StringBuilder();
    for (String paragraph : text.split("\n\n")) {
      body.append("<text:p>")
          .append(escaped(paragraph).replace("\n", "<text:line-break/>"))
          .append("</text:p>");
    }
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (ZipOutputStream zip = new ZipOutputStream(out)) {
      byte[] type = "application/vnd.oasis.opendocument.text".getBytes(StandardCharsets.UTF_8);
      ZipEntry first = new ZipEntry("mimetype");
      first.setMethod(ZipEntry.STORED);
      first.setSize(type.length);
      java.util.zip.CRC32 sum = new java.util.zip.CRC32();
      sum.update(type);
      first.setCrc(sum.getValue());
      zip.putNextEntry(first);
      zip.write(type);
      entry(
          zip,
          "META-INF/manifest.xml",
          "<manifest:manifest xmlns:manifest=\""
              + names
              + "manifest:1.0\" manifest:version=\"1.2\"><manifest:file-entry"
              + " manifest:full-path=\"/\""
              + " manifest:media-type=\"application/vnd.oasis.opendocument.text\"/>"
              + "<manifest:file-entry manifest:full-path=\"content.xml\""
              + " manifest:media-type=\"text/xml\"/></manifest:manifest>");
      entry(
          zip,
          "content.xml",
          "<office:document-content xmlns:office=\""
              + names
              + "office:1.0\" xmlns:text=\""
              + names
              + "text:1.0\" office:version=\"1.2\"><office:body><office:text>"
              + body
              + "</office:text></office:body></office:document-content>");
    }
    return out.toByteArray();
  }

  private static void entry(ZipOutputStream zip, String name, String xml) throws IOException {
    zip.putNextEntry(new ZipEntry(name));
    zip.write(
        ("<?xml version=\"1.0\" encoding=\"UTF-8\"?>" + xml).getBytes(StandardCharsets.UTF_8));
  }

  static byte[] rtf(String text) {
    StringBuilder out =
        new StringBuilder("{\\rtf1\\ansi\\ansicpg1252\\uc1{\\fonttbl{\\f0 Serif;}}");
    for (char c : text.replace("\n\n", "\r").toCharArray()) {
      switch (c) {
        case '\r' -> out.append("\\par\n");
        case '\n' -> out.append("\\line\n");
        case '\\', '{', '}' -> out.append('\\').append(c);
        default -> {
          if (c < 128) {
            out.append(c);
          } else {
            out.append("\\u").append((int) c).append('?');
          }
        }
      }
    }
    return out.append("\\par}").toString().getBytes(StandardCharsets.US_ASCII);
  }

  static byte[] pdf(String text, boolean picture, String password) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (PDDocument pdf = new PDDocument()) {
      PDPage page = new PDPage();
      pdf.addPage(page);
      try (PDPageContentStream content = new PDPageContentStream(pdf, page)) {
        if (picture) {
          var dots =
              new java.awt.image.BufferedImage(9, 9, java.awt.image.BufferedImage.TYPE_INT_RGB);
          content.drawImage(LosslessFactory.createFromImage(pdf, dots), 50, 50, 400, 600);
        }
        content.beginText();
        content.setFont(new PDType1Font(FontName.HELVETICA), 10);
        content.newLineAtOffset(50, 740);
        for (String paragraph : text.split("\n")) {
          for (String line : wrapped(paragraph)) {
            content.showText(line);
            content.newLineAtOffset(0, -12);
          }
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

  private static List<String> wrapped(String paragraph) {
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder();
    for (String word : paragraph.split(" ")) {
      if (line.length() + word.length() > 95) {
        lines.add(line.toString());
        line.setLength(0);
      }
      line.append(line.isEmpty() ? "" : " ").append(word);
    }
    lines.add(line.toString());
    return lines;
  }

  /** Packs a folder into a zip file. */
  static void zip(Path folder, Path file) throws IOException {
    try (OutputStream out = Files.newOutputStream(file);
        ZipOutputStream zip = new ZipOutputStream(out);
        var files = Files.walk(folder)) {
      for (Path one : files.filter(Files::isRegularFile).sorted().toList()) {
        zip.putNextEntry(new ZipEntry(folder.relativize(one).toString().replace('\\', '/')));
        Files.copy(one, zip);
      }
    }
  }
}
