package everypart.cli.intake.document;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;

/** The file formats that are read. A reader and its library are loaded on first need. */
@SuppressWarnings("ImmutableEnumChecker") // List.of cannot change, and a constructor has no state
enum Format {
  TEXT("plain text", PlainTextReader::new, ".txt", ".text", ".md", ".markdown"),
  WORD("a .docx document", WordReader::new, ".docx", ".docm", ".dotx"),
  OPEN_DOCUMENT("an .odt document", OpenDocumentReader::new, ".odt", ".ott"),
  RICH_TEXT("rich text (.rtf)", RichTextReader::new, ".rtf"),
  PDF("a PDF", PdfReader::new, ".pdf"),
  WEB_PAGE("a web page (.html)", WebPageReader::new, ".html", ".htm", ".xhtml");

  /** What stands at the start of the files that office programs locked or saved before 2007. */
  static final String COMPOUND = "\u00d0\u00cf\u0011\u00e0\u00a1\u00b1\u001a\u00e1";

  private static final String ZIP = "PK\u0003\u0004";
  private static final int LOOK = 1024;

  /** Kinds of file that are often handed in and cannot be read, with what to do instead. */
  private static final Map<String, FileRemark> UNREAD =
      Map.ofEntries(
          Map.entry(
              ".doc",
              new FileRemark(Sayings.of("format.olderDocFormat"), Sayings.of("format.saveDocx"))),
          Map.entry(
              ".wps",
              new FileRemark(Sayings.of("format.wpsFormatRead"), Sayings.of("format.saveDocx"))),
          Map.entry(
              ".pages",
              new FileRemark(
                  Sayings.of("format.pagesFormatRead"), Sayings.of("format.exportDocx"))),
          Map.entry(
              ".xls",
              new FileRemark(Sayings.of("format.olderXlsFormat"), Sayings.of("format.saveXlsx"))),
          Map.entry(
              ".ods",
              new FileRemark(Sayings.of("format.odsFormatRead"), Sayings.of("format.saveXlsxCsv"))),
          Map.entry(
              ".numbers",
              new FileRemark(
                  Sayings.of("format.numbersFormatRead"), Sayings.of("format.exportXlsx"))),
          Map.entry(
              ".gdoc",
              new FileRemark(
                  Sayings.of("format.onlyLinkDocument"), Sayings.of("format.downloadDocx"))),
          Map.entry(
              ".pptx",
              new FileRemark(Sayings.of("format.slidesRead"), Sayings.of("format.saveTheirText"))),
          Map.entry(".jpg", picture()),
          Map.entry(".jpeg", picture()),
          Map.entry(".png", picture()),
          Map.entry(".gif", picture()),
          Map.entry(".heic", picture()),
          Map.entry(".tif", picture()),
          Map.entry(".tiff", picture()));

  private final String words;
  private final Supplier<FormatReader> reader;
  private final List<String> endings;

  Format(String words, Supplier<FormatReader> reader, String... endings) {
    this.words = words;
    this.reader = reader;
    this.endings = List.of(endings);
  }

  private static FileRemark picture() {
    return new FileRemark(Sayings.of("format.pictureNoText"), Sayings.of("faults.askWriterType"));
  }

  FormatReader reader() {
    return reader.get();
  }

  List<String> endings() {
    return endings;
  }

  /** Returns what a file of this format is called in a sentence. */
  String words() {
    return words;
  }

  static Optional<Format> ofName(String name) {
    String ending = ending(name);
    for (Format format : values()) {
      if (format.endings.contains(ending)) {
        return Optional.of(format);
      }
    }
    return Optional.empty();
  }

  /** Tells by its first bytes what a file is; empty when they do not tell. */
  static Optional<Format> ofContent(byte[] bytes, Format named) {
    String start = Bytes.latin(bytes, LOOK);
    if (start.stripLeading().startsWith("{\\rtf")) {
      return Optional.of(RICH_TEXT);
    }
    if (start.contains("%PDF-")) {
      return named == TEXT && !start.startsWith("%PDF-") ? Optional.empty() : Optional.of(PDF);
    }
    if (start.startsWith(ZIP)) {
      if (start.contains("mimetypeapplication/vnd.oasis.opendocument.text")) {
        return Optional.of(OPEN_DOCUMENT);
      }
      return start.contains("word/") || start.contains("[Content_Types].xml")
          ? Optional.of(WORD)
          : Optional.empty();
    }
    String small = start.stripLeading().toLowerCase(Locale.ROOT);
    return small.startsWith("<!doctype html") || small.startsWith("<html")
        ? Optional.of(WEB_PAGE)
        : Optional.empty();
  }

  static boolean isZip(byte[] bytes) {
    return Bytes.latin(bytes, ZIP.length()).equals(ZIP);
  }

  /** Returns why files of this name are not read. */
  static FileRemark unread(String name) {
    String ending = ending(name);
    FileRemark known = UNREAD.get(ending);
    return known != null
        ? known
        : new FileRemark(
            Sayings.of(
                "format.filesKindRead", ending.isEmpty() ? Sayings.of("format.noEnding") : ending),
            Sayings.of("format.saveDocxOdt"));
  }

  /** Returns a name's ending with its dot, in small letters, or "". */
  static String ending(String name) {
    String last = name.substring(name.lastIndexOf('/') + 1);
    int dot = last.lastIndexOf('.');
    return dot < 0 ? "" : last.substring(dot).toLowerCase(Locale.ROOT);
  }
}
