package everypart.cli.intake.document;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;

/** Files that are broken, or made to do harm, each with a word of what is to be said of it. */
public final class HostileFiles {
  private static final String WORDS =
      "xmlns:w=\"http://schemas.openxmlformats.org/wordprocessingml/2006/main\"";

  private HostileFiles() {}

  /** Writes a file. */
  public interface Content {
    void to(OutputStream out) throws IOException;
  }

  /**
   * A file.
   *
   * @param told words of the sentence; empty where it is read
   */
  public record Hostile(String told, Content content) {
    /** Returns its bytes. */
    public byte[] bytes() throws IOException {
      ByteArrayOutputStream out = new ByteArrayOutputStream();
      content.to(out);
      return out.toByteArray();
    }
  }

  private static void put(OutputStream out, String text) throws IOException {
    out.write(text.getBytes(StandardCharsets.ISO_8859_1));
  }

  private static void repeat(OutputStream out, String text, long times) throws IOException {
    byte[] one = text.repeat(1 << 10).getBytes(StandardCharsets.ISO_8859_1);
    for (long left = times; left > 0; left -= 1 << 10) {
      out.write(one, 0, (int) Math.min(left, 1 << 10) * text.length());
    }
  }

  private static Content text(String text) {
    return out -> put(out, text);
  }

  /**
   * A zip file with one part that is written out of a beginning, something repeated, and an end.
   */
  private static Content zip(
      Map<String, String> others,
      String part,
      String before,
      String one,
      long times,
      String after) {
    return out -> {
      ZipOutputStream zip = new ZipOutputStream(out);
      for (Map.Entry<String, String> other : others.entrySet()) {
        zip.putNextEntry(new ZipEntry(other.getKey()));
        put(zip, other.getValue());
      }
      zip.putNextEntry(new ZipEntry(part));
      put(zip, before);
      repeat(zip, one, times);
      put(zip, after);
      zip.finish();
    };
  }

  private static Content word(String before, String one, long times, String after) {
    return zip(
        Map.of(),
        "word/document.xml",
        "<w:document " + WORDS + "><w:body>" + before,
        one,
        times,
        after + "</w:body></w:document>");
  }

  private static Content open(String before, String one, long times, String after) {
    return zip(
        Map.of(),
        "content.xml",
        "<o xmlns:text=\"t\" xmlns:o=\"o\">" + before,
        one,
        times,
        after + "</o>");
  }

  private static Content workbook(String before, String one, long times, String after) {
    return zip(
        Map.of(
            "[Content_Types].xml",
            "<Types"
                + " xmlns=\"http://schemas.openxmlformats.org/package/2006/content-types\"><Override"
                + " PartName=\"/xl/workbook.xml\" ContentType=\"application/vnd.openxmlformats-"
                + "officedocument.spreadsheetml.sheet.main+xml\"/></Types>",
            "_rels/.rels",
            "<Relationships"
                + " xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\"><Relationship"
                + " Id=\"r1\""
                + " Type=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument\""
                + " Target=\"xl/workbook.xml\"/></Relationships>",
            "xl/_rels/workbook.xml.rels",
            "<Relationships"
                + " xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\"><Relationship"
                + " Id=\"r1\""
                + " Type=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet\""
                + " Target=\"worksheets/sheet1.xml\"/></Relationships>",
            "xl/workbook.xml",
            "<workbook xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\""
                + " xmlns:r=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships\"><sheets><sheet"
                + " name=\"a\" sheetId=\"1\" r:id=\"r1\"/></sheets></workbook>"),
        "xl/worksheets/sheet1.xml",
        "<worksheet xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\"><sheetData>"
            + "<row r=\"1\"><c r=\"A1\" t=\"str\"><v>response_id</v></c><c r=\"B1\""
            + " t=\"str\"><v>text</v></c></row>"
            + before,
        one,
        times,
        after + "</sheetData></worksheet>");
  }

  /** A PDF out of objects; its table of places is left out, so it is searched for them. */
  public static String pdf(String... objects) {
    StringBuilder out = new StringBuilder("%PDF-1.4\n");
    for (int i = 0; i < objects.length; i++) {
      out.append(i + 1).append(" 0 obj\n").append(objects[i]).append("\nendobj\n");
    }
    return out + "trailer <</Root 1 0 R>>\n%%EOF\n";
  }

  /** Returns a stream of a PDF with its length. */
  public static String stream(String dictionary, String content) {
    return "<<"
        + dictionary
        + "/Length "
        + content.length()
        + ">> stream\n"
        + content
        + "\nendstream";
  }

  private static final String ONE_PAGE = "<</Type/Catalog/Pages 2 0 R>>";
  private static final String FONT = "<</Type/Font/Subtype/Type1/BaseFont/Helvetica>>";

  private static String page(String resources) {
    return "<</Type/Page/Parent 2 0 R/MediaBox[0 0 600 800]/Contents 4 0 R/Resources<<"
        + resources
        + ">>>>";
  }

  /** Forms that each draw the next one many times. */
  private static String formsThatDrawForms() {
    String[] objects = new String[14];
    objects[0] = ONE_PAGE;
    objects[1] = "<</Type/Pages/Kids[3 0 R]/Count 1>>";
    objects[2] = page("/XObject<</F 5 0 R>>");
    objects[3] = stream("", "/F Do");
    for (int i = 4; i < objects.length; i++) {
      int next = i + 1 < objects.length ? i + 2 : 5;
      objects[i] =
          stream(
              "/Type/XObject/Subtype/Form/BBox[0 0 9 9]/Resources<</XObject<</F "
                  + next
                  + " 0 R>>>>",
              "/F Do ".repeat(20));
    }
    return pdf(objects);
  }

  private static String manyPages(int count) {
    String[] objects = new String[count + 4];
    objects[0] = ONE_PAGE;
    StringBuilder kids = new StringBuilder();
    for (int i = 0; i < count; i++) {
      kids.append(i + 5).append(" 0 R ");
      objects[i + 4] = page("/Font<</F 3 0 R>>");
    }
    objects[1] = "<</Type/Pages/Kids[" + kids + "]/Count " + count + ">>";
    objects[2] = FONT;
    objects[3] = stream("", "BT /F 9 Tf (x) Tj ET");
    return pdf(objects);
  }

  private static String manyOperators(String one, int times) {
    return pdf(
        ONE_PAGE,
        "<</Type/Pages/Kids[3 0 R]/Count 1>>",
        page("/Font<</F 5 0 R>>"),
        stream("", "BT /F 9 Tf " + one.repeat(times) + " ET"),
        FONT);
  }

  /** Returns the files by name, each of which is to be told of or read in good time. */
  public static Map<String, Hostile> all() {
    Map<String, Hostile> all = new LinkedHashMap<>();
    all.put("bin.rtf", new Hostile("damaged", text("{\\rtf1 a\\bin2147483647 b}")));
    all.put(
        "bin-far.rtf",
        new Hostile(
            "damaged", text("{\\rtf1 a\\bin4 \\bin99999999999999999999 b}{\\bin2000000000 }")));
    all.put("deep.rtf", new Hostile("levels", out -> repeat(out, "{\\rtf1 ", 400_000)));
    all.put(
        "exponent.xlsx",
        new Hostile(
            "digits",
            workbook(
                "<row r=\"2\"><c r=\"A2\"><v>1E999999999</v></c><c r=\"B2\"",
                " ",
                1,
                "t=\"str\"><v>It dies.</v></c></row>")));
    all.put(
        "far.xlsx",
        new Hostile(
            "columns",
            workbook("<row r=\"2\"><c r=\"ZZZZZZ2\"", " ", 1, "t=\"str\"><v>a</v></c></row>")));
    all.put(
        "rows.xlsx",
        new Hostile("rows", workbook("", "<row><c t=\"str\"><v>a</v></c></row>", 300_000, "")));
    all.put(
        "shared.xlsx",
        new Hostile(
            "characters of text",
            zip(
                Map.of("[Content_Types].xml", "<Types/>"),
                "xl/sharedStrings.xml",
                "<sst><si><t>",
                "a",
                24L << 20,
                "</t></si></sst>")));
    all.put(
        "text.docx",
        new Hostile(
            "characters of text",
            word("<w:p><w:r><w:t>", "word ", 4L << 20, "</w:t></w:r></w:p>")));
    all.put(
        "texts.docx",
        new Hostile(
            "characters of text",
            word(
                "<w:p>",
                "<w:r><w:t>a word and another word and one more</w:t></w:r>",
                600_000,
                "</w:p>")));
    all.put(
        "attribute.docx",
        new Hostile("without a break", word("<w:p w:a=\"", "a", 24L << 20, "\"/>")));
    all.put("unpacked.docx", new Hostile("once unpacked", word("", "<w:p></w:p>", 12L << 20, "")));
    all.put(
        "blanks.odt",
        new Hostile("", open("<text:p>a", "<text:s text:c=\"1000\"/>", 300, "b</text:p>")));
    all.put(
        "many-blanks.odt",
        new Hostile(
            "characters of text",
            open("<text:p>a", "<text:s text:c=\"1000\"/>", 1_000_000, "b</text:p>")));
    all.put("nested.odt", new Hostile("levels", open("", "<text:p>a", 1_000_000, "")));
    all.put("spans.odt", new Hostile("levels", open("<text:p>", "<text:span>a", 1_000_000, "")));
    all.put("forms.pdf", new Hostile("steps", text(formsThatDrawForms())));
    all.put("pages.pdf", new Hostile("pages", text(manyPages(50_000))));
    all.put(
        "characters.pdf",
        new Hostile(
            "characters on one page",
            text(manyOperators("(" + "a ".repeat(500) + ") Tj ", 2_000))));
    all.put("operators.pdf", new Hostile("steps", text(manyOperators("0 Ts ", 2_500_000))));
    all.put("deep.html", new Hostile("elements", out -> repeat(out, "<div><b>a", 1_000_000)));
    all.put(
        "brackets.csv",
        new Hostile(
            "", text("response_id," + "[".repeat(400_000) + ",text\nr77,1,It dies in it.\n")));
    all.put(
        "columns.csv",
        new Hostile(
            "columns", text("response_id,text\nr78,It dies.\nr79" + ",a".repeat(200_000) + "\n")));
    all.put(
        "field.csv",
        new Hostile(
            "characters of text",
            out -> {
              put(out, "response_id,text\nr80,\"");
              repeat(out, "It dies. \"\"It\"\"\n", 1_500_000);
              put(out, "\"\nr81,It dies in the cold.\n");
            }));
    all.put(
        "accents.txt",
        new Hostile(
            "",
            out -> out.write(("a" + "\u0301".repeat(400_000)).getBytes(StandardCharsets.UTF_8))));
    all.put(
        "long.txt", new Hostile("characters of text", out -> repeat(out, "It dies. ", 3_000_000)));
    return all;
  }

  /** Returns the bytes without their end. */
  static byte[] cut(byte[] bytes) {
    return Arrays.copyOf(bytes, bytes.length / 2);
  }
}
