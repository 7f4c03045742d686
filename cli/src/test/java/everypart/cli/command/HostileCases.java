package everypart.cli.command;

import everypart.cli.intake.document.HostileFiles;
import everypart.cli.table.TablesJar;
import everypart.cli.table.TypedTables;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.stream.Stream;
import java.util.zip.GZIPOutputStream;
import org.apache.commons.compress.archivers.zip.ZipArchiveEntry;
import org.apache.commons.compress.archivers.zip.ZipArchiveOutputStream;

/**
 * Files that are broken, odd, or made to do harm, of every format that the program reads and of
 * every place it reads them from. {@link HostileTrial} tries them.
 */
final class HostileCases {
  /** What a file is given to the program as. */
  enum Use {
    /** One of a class's files, in its folder. */
    RESPONSE,
    /** The responses of a study. */
    STUDY,
    /** One of a folder of prompts. */
    PROMPT,
    /** A teacher's corrections. */
    CORRECTIONS,
    /** A class list. */
    REGISTER,
    /** Names to take out of answers. */
    NAMES,
    /** People's codes. */
    CODES,
    /** Results of an earlier run. */
    RESULTS,
    /** A file of a folder of lexicon files. */
    LEXICON,
    /** The plan of a study. */
    PLAN
  }

  /** Puts a file, or whatever else it is, where it is told to. */
  interface Maker {
    void make(Path file) throws IOException;
  }

  /**
   * A file.
   *
   * @param family what is wrong with it, in a word; files of a family differ in little
   * @param name what it is called
   * @param small whether it takes so little that it is tried with each build
   */
  record Case(String family, Use use, String name, boolean small, Maker maker) {}

  private static final String NAMES_OF_WORD =
      "xmlns:w=\"http://schemas.openxmlformats.org/wordprocessingml/2006/main\"";
  private static final String ANSWER = "They hide because birds hunt them at low tide.";
  private static final String EVIL = "<script>alert('x')</script>";
  private static final int MEGABYTE = 1 << 20;

  private final List<Case> cases = new ArrayList<>();

  private HostileCases() {}

  /** Returns all files, in the order in which they are tried. */
  static List<Case> all() throws IOException {
    HostileCases all = new HostileCases();
    all.known();
    all.cut();
    all.swapped();
    all.places();
    all.encodings();
    all.words();
    all.word();
    all.openDocument();
    all.richText();
    all.pdf();
    all.webPage();
    all.tables();
    all.workbooks();
    all.zips();
    all.lines();
    all.parquet();
    all.prompts();
    all.corrections();
    all.otherTables();
    all.lexicons();
    return List.copyOf(all.cases);
  }

  private void add(String family, Use use, String name, boolean small, Maker maker) {
    cases.add(new Case(family, use, name, small, maker));
  }

  private void response(String family, String name, byte[] bytes) {
    add(family, Use.RESPONSE, name, bytes.length < MEGABYTE, file -> Files.write(file, bytes));
  }

  private void response(String family, String name, String text) {
    response(family, name, utf8(text));
  }

  private void of(Use use, String family, String name, String text) {
    add(family, use, name, text.length() < MEGABYTE, file -> Files.write(file, utf8(text)));
  }

  /** A file written out of a beginning, something repeated, and an end. */
  private static Maker long_(String before, String one, long times, String after) {
    return file -> {
      try (OutputStream out = Files.newOutputStream(file)) {
        out.write(utf8(before));
        byte[] many = utf8(one.repeat(1 << 10));
        for (long left = times; left > 0; left -= 1 << 10) {
          out.write(many, 0, (int) (many.length / (1 << 10) * Math.min(left, 1 << 10)));
        }
        out.write(utf8(after));
      }
    };
  }

  private static byte[] utf8(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }

  private static byte[] latin(String text) {
    return text.getBytes(StandardCharsets.ISO_8859_1);
  }

  // Families that go over all formats

  private static Map<String, byte[]> good() throws IOException {
    Map<String, byte[]> good = new LinkedHashMap<>();
    for (ReadableKinds.Kind kind : new ReadableKinds().all()) {
      good.put(kind.name(), kind.good());
    }
    return good;
  }

  private void known() {
    for (Map.Entry<String, HostileFiles.Hostile> file : HostileFiles.all().entrySet()) {
      add(
          "known",
          Use.RESPONSE,
          file.getKey(),
          false,
          path -> {
            try (OutputStream out = Files.newOutputStream(path)) {
              file.getValue().content().to(out);
            }
          });
    }
  }

  private static Use use(String name) {
    return switch (name) {
      case "a.jsonl" -> Use.STUDY;
      case "q.yaml", "q.md" -> Use.PROMPT;
      case "c.json" -> Use.CORRECTIONS;
      case "c.csv" -> Use.CODES;
      case "results.jsonl" -> Use.RESULTS;
      case "n.csv" -> Use.REGISTER;
      default -> Use.RESPONSE;
    };
  }

  private void cut() throws IOException {
    for (Map.Entry<String, byte[]> file : good().entrySet()) {
      byte[] bytes = file.getValue();
      for (int tenth = 0; tenth < 10; tenth++) {
        byte[] cut = Arrays.copyOf(bytes, bytes.length * tenth / 10);
        add(
            "cut",
            use(file.getKey()),
            "cut" + tenth + "-" + file.getKey(),
            tenth % 4 == 1,
            path -> Files.write(path, cut));
        if (tenth > 0) {
          byte[] end = Arrays.copyOfRange(bytes, bytes.length * tenth / 10, bytes.length);
          add(
              "cut",
              use(file.getKey()),
              "end" + tenth + "-" + file.getKey(),
              tenth == 5,
              path -> Files.write(path, end));
        }
      }
    }
  }

  private void swapped() throws IOException {
    Map<String, byte[]> good = good();
    List<String> endings =
        List.of(
            "txt", "md", "docx", "odt", "rtf", "pdf", "html", "csv", "tsv", "xlsx", "zip", "doc",
            "xls", "pages", "png", "");
    for (String name : List.of("a.docx", "a.odt", "a.rtf", "a.pdf", "a.html", "a.xlsx", "a.zip")) {
      byte[] bytes = good.getOrDefault(name, new byte[0]);
      for (String ending : endings) {
        String other = name.replace('.', '-') + (ending.isEmpty() ? "" : "." + ending);
        if (!name.endsWith("." + ending)) {
          response("swapped", other, bytes);
        }
      }
    }
    for (String ending : endings.subList(2, 11)) {
      response("swapped", "text-as." + ending, ANSWER);
    }
  }

  private void places() {
    for (String ending :
        List.of("txt", "docx", "odt", "rtf", "pdf", "html", "csv", "xlsx", "zip")) {
      response("empty", "empty." + ending, new byte[0]);
      response("empty", "blanks." + ending, " \n\t\n ".repeat(50));
      response("empty", "zeros." + ending, new byte[4096]);
      response("noise", "noise." + ending, noise(20_000));
      add(
          "links",
          Use.RESPONSE,
          "nowhere." + ending,
          true,
          path -> Files.createSymbolicLink(path, Path.of("/nowhere/at/all")));
      add("links", Use.RESPONSE, "folder." + ending, true, HostileCases::emptyFileInFolder);
    }
    add("links", Use.RESPONSE, "itself.txt", true, p -> Files.createSymbolicLink(p, p));
    add("links", Use.RESPONSE, "up", true, p -> Files.createSymbolicLink(p, Path.of("..")));
    add("links", Use.RESPONSE, "here", true, p -> Files.createSymbolicLink(p, Path.of(".")));
    add("links", Use.RESPONSE, "root", false, p -> Files.createSymbolicLink(p, Path.of("/dev")));
    for (String device : List.of("/dev/zero", "/dev/full", "/dev/tty")) {
      add(
          "devices",
          Use.RESPONSE,
          "device" + device.replace('/', '-') + ".csv",
          true,
          p -> Files.createSymbolicLink(p, Path.of(device)));
    }
    for (String ending : List.of("txt", "csv", "zip")) {
      add("devices", Use.RESPONSE, "pipe." + ending, true, HostileCases::pipe);
    }
    for (Use use : Use.values()) {
      if (use != Use.RESPONSE) {
        String ending = ending(use);
        add("devices", use, "pipe" + ending, true, HostileCases::pipe);
        add("empty", use, "empty" + ending, true, p -> Files.write(p, new byte[0]));
        add("noise", use, "noise" + ending, true, p -> Files.write(p, noise(20_000)));
        add("empty", use, "zeros" + ending, true, p -> Files.write(p, new byte[4096]));
        add("links", use, "folder" + ending, true, Files::createDirectory);
        add(
            "devices",
            use,
            "zero" + ending,
            true,
            p -> Files.createSymbolicLink(p, Path.of("/dev/zero")));
      }
    }
    add("deep folders", Use.RESPONSE, "deep", true, HostileCases::deepFolders);
    add("many", Use.RESPONSE, "many", false, HostileCases::manyFiles);
    for (String name :
        List.of(
            "\u202etxt.exe.txt",
            "a\u0001b\u001b[31m.txt",
            "line\nbreak.txt",
            "-rf.txt",
            "=1+1.txt",
            "CON.txt",
            "a'\"<img src=x onerror=alert(1)>.txt",
            "\u4f60".repeat(80) + ".txt",
            "\ud83d\ude00".repeat(60) + ".txt",
            " .txt",
            "%2e%2e%2f.txt",
            "${jndi}.txt",
            "a;b,c\td.txt")) {
      response("names", name, ANSWER);
    }
    add(
        "rights",
        Use.RESPONSE,
        "secret.txt",
        true,
        p -> {
          Files.write(p, utf8(ANSWER));
          p.toFile().setReadable(false);
        });
  }

  static String ending(Use use) {
    return switch (use) {
      case RESPONSE -> ".txt";
      case STUDY, REGISTER, CODES -> ".csv";
      case PROMPT, LEXICON, PLAN -> ".yaml";
      case CORRECTIONS -> ".json";
      case NAMES -> ".txt";
      case RESULTS -> ".jsonl";
    };
  }

  private static byte[] noise(int length) {
    byte[] bytes = new byte[length];
    new Random(length).nextBytes(bytes);
    return bytes;
  }

  private static void pipe(Path file) throws IOException {
    try {
      new ProcessBuilder("mkfifo", file.toString()).start().waitFor();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private static void emptyFileInFolder(Path folder) throws IOException {
    Files.write(Files.createDirectory(folder).resolve("empty.txt"), new byte[0]);
  }

  private static void deepFolders(Path folder) throws IOException {
    Path at = folder;
    for (int i = 0; i < 300; i++) {
      at = at.resolve("d");
    }
    Files.createDirectories(at);
    Files.write(at.resolve("x.txt"), utf8(ANSWER));
  }

  private static void manyFiles(Path folder) throws IOException {
    Files.createDirectories(folder);
    for (int i = 0; i < 20_000; i++) {
      Files.write(folder.resolve("n" + i + ".rtf"), new byte[0]);
    }
  }

  private void encodings() {
    String text = "\u00dcber all: " + ANSWER + " \u2013 \u201cso\u201d \ud83d\udc1f";
    for (String name :
        List.of(
            "UTF-16LE",
            "UTF-16BE",
            "UTF-16",
            "UTF-32LE",
            "UTF-32BE",
            "windows-1252",
            "IBM437",
            "Shift_JIS",
            "GB18030",
            "KOI8-R",
            "ISO-2022-JP",
            "IBM1047",
            "x-UTF-16LE-BOM")) {
      byte[] bytes = text.getBytes(Charset.forName(name));
      response("encodings", name.toLowerCase(java.util.Locale.ROOT) + ".txt", bytes);
      byte[] table = ("response_id,text\nr1,\"" + text + "\"\n").getBytes(Charset.forName(name));
      response("encodings", name.toLowerCase(java.util.Locale.ROOT) + ".csv", table);
      add(
          "encodings",
          Use.STUDY,
          name.toLowerCase(java.util.Locale.ROOT) + "-s.csv",
          true,
          p -> Files.write(p, table));
      byte[] prompt = "(a) Explain why the pipkins hide. \u00fc\n".getBytes(Charset.forName(name));
      add(
          "encodings",
          Use.PROMPT,
          name.toLowerCase(java.util.Locale.ROOT) + ".md",
          true,
          p -> Files.write(p, prompt));
      byte[] html =
          ("<!DOCTYPE html><meta charset=\"" + name + "\"><p>" + text)
              .getBytes(Charset.forName(name));
      response("encodings", name.toLowerCase(java.util.Locale.ROOT) + ".html", html);
    }
    response("encodings", "two-marks.txt", "\ufeff\ufeff" + ANSWER);
    response("encodings", "mark-only.txt", "\ufeff");
    response("encodings", "mark-only-16.txt", latin("\u00ff\u00fe"));
    response("encodings", "odd-16.txt", latin("\u00ff\u00feT\0h\0e"));
    response("encodings", "half-pair-16.txt", latin("\u00ff\u00fe\0\u00d8T\0h\0"));
    response("encodings", "overlong.txt", latin("They hide \u00c0\u00af\u00e0\u0080\u00af so."));
    response("encodings", "surrogate-8.txt", latin("They hide \u00ed\u00a0\u0080 so."));
    response("encodings", "beyond.txt", latin("They hide \u00f4\u0090\u0080\u0080 so."));
    response("encodings", "cut-sign.txt", latin("They hide so \u00e2\u0082"));
    response("encodings", "liar.html", "<meta charset=utf-16><p>" + ANSWER);
    response("encodings", "unknown.html", "<meta charset=x-klingon><p>" + ANSWER);
    response("encodings", "seven.html", latin("<meta charset=utf-7><p>+ADw-script+AD4-alert(1)"));
  }

  /** Texts that are text, and odd. */
  private void words() {
    Map<String, String> texts = new LinkedHashMap<>();
    texts.put("nul", "They hide\0because birds hunt them.");
    texts.put("bidi", "They \u202ehide\u202c because \u2066birds\u2069 hunt \u200f them\u202e.");
    texts.put(
        "control", "They\u0007 hide \u001b[2J\u001b]0;x\u0007 because\u0008 \u009b31m birds.");
    texts.put("tags", "\udb40\udc41".repeat(2_000) + ANSWER);
    texts.put("selectors", ("a" + "\ufe0f".repeat(500) + " ").repeat(100) + ANSWER);
    texts.put("joiners", "\ud83d\udc69\u200d".repeat(5_000) + ANSWER);
    texts.put("zalgo", ("h" + "\u0300\u0301\u0302\u0303".repeat(200)).repeat(100));
    texts.put("halves", "They \ud800 hide \udc00 because");
    texts.put("private", "\ue000\uf8ff\udbff\udfff".repeat(1_000) + ANSWER);
    texts.put("spaces", "They" + "\u00a0\u2003\u200b\u3000\ufeff".repeat(5_000) + "hide.");
    texts.put("lines", "They hide." + "\n".repeat(200_000) + "So.");
    texts.put("returns", "They hide.\r" + "\r\n\r".repeat(60_000) + "So.");
    texts.put("separators", "They hide.\u2028\u2029\u0085\u000b\u000c".repeat(5_000));
    texts.put("stops", "They hide " + ".".repeat(200_000));
    texts.put("quotes", "\"'\u201c\u2018(".repeat(40_000) + ANSWER);
    texts.put("brackets", "(".repeat(100_000) + "a" + ")".repeat(100_000));
    texts.put("one-word", "a".repeat(400_000));
    texts.put("because", "because ".repeat(40_000));
    texts.put("labels", "(a) ".repeat(40_000));
    texts.put("labels-in-lines", "a) x\nb) y\n".repeat(20_000));
    texts.put("numbers", "1234567890.".repeat(20_000));
    texts.put("hyphens", "a-".repeat(100_000));
    texts.put("commas", "a, ".repeat(60_000));
    texts.put("script", ANSWER + EVIL + "</script><!--" + EVIL + "]]>\u2028" + EVIL);
    texts.put(
        "markdown", "# ".repeat(20_000) + "\n" + "* ".repeat(20_000) + "\n" + "> ".repeat(9_999));
    texts.put("tables", "| a | b |\n|---|---|\n".repeat(10_000));
    texts.put("fences", "```\n".repeat(20_000));
    texts.put("links", "[a](".repeat(20_000) + "![x](" + "http://x.invalid/".repeat(2_000));
    texts.put("emphasis", "*a**b***c_".repeat(20_000));
    texts.put("formulas", "=cmd|' /C calc'!A0\n@SUM(1)\n+1\n-1\n" + ANSWER);
    texts.put("template", "${7*7} {{7*7}} %s%n%x [[words]] {0} \\u0041 " + ANSWER);
    texts.put(
        "russian",
        "\u041e\u043d\u0438 \u043f\u0440\u044f\u0447\u0443\u0442\u0441\u044f. ".repeat(5_000));
    texts.put("thai", "\u0e2a\u0e27\u0e31\u0e2a\u0e14\u0e35".repeat(20_000));
    texts.put("chinese", "\u5b83\u4eec\u8eb2\u8d77\u6765".repeat(20_000));
    texts.put("arabic", "\u0645\u0631\u062d\u0628\u0627 ".repeat(20_000));
    texts.forEach(
        (name, text) -> {
          boolean lone = name.equals("halves");
          byte[] bytes = lone ? text.getBytes(StandardCharsets.UTF_16LE) : utf8(text);
          add(
              "words",
              Use.RESPONSE,
              "w-" + name + ".txt",
              text.length() < 5_000,
              p -> Files.write(p, bytes));
          add("words", Use.RESPONSE, "w-" + name + ".md", false, p -> Files.write(p, bytes));
          byte[] html =
              utf8("<!DOCTYPE html><p>" + text.replace("&", "&amp;").replace("<", "&lt;"));
          add("words", Use.RESPONSE, "w-" + name + ".html", false, p -> Files.write(p, html));
          byte[] table =
              utf8("response_id,text\nw1,\"" + text.replace("\"", "\"\"") + "\"\nw2,So.\n");
          add(
              "words",
              Use.RESPONSE,
              "w-" + name + ".csv",
              text.length() < 5_000,
              p -> Files.write(p, table));
          add("words", Use.STUDY, "w-" + name + "-s.csv", false, p -> Files.write(p, table));
          byte[] prompt = utf8("(a) Explain why " + text + "\n");
          add(
              "words",
              Use.PROMPT,
              "w-" + name + ".md",
              text.length() < 5_000,
              p -> Files.write(p, prompt));
        });
    for (int length : new int[] {1_000_000, 4_000_000, 19_000_000, 60_000_000, 99_000_000}) {
      add(
          "long",
          Use.RESPONSE,
          "long" + length + ".txt",
          false,
          long_("", "They hide so. ", length / 14, ""));
      add("long", Use.RESPONSE, "word" + length + ".txt", false, long_("", "a", length, ""));
      add(
          "long",
          Use.PROMPT,
          "long" + length + ".md",
          false,
          long_("(a) Explain why. ", "They hide so. ", length / 14, ""));
      add(
          "long",
          Use.NAMES,
          "long" + length + ".txt",
          false,
          long_("", "Oda Lin\n", length / 8, ""));
    }
  }

  // Packed documents

  private static byte[] zip(Object... namesAndParts) throws IOException {
    Map<String, byte[]> parts = new LinkedHashMap<>();
    for (int i = 0; i < namesAndParts.length; i += 2) {
      Object part = namesAndParts[i + 1];
      parts.put(
          (String) namesAndParts[i], part instanceof byte[] bytes ? bytes : utf8((String) part));
    }
    return ReadableKinds.zip(parts);
  }

  /** A zip file whose entries may bear any name, and one name twice. */
  private static byte[] anyZip(Object... namesAndParts) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (ZipArchiveOutputStream zip = new ZipArchiveOutputStream(out)) {
      for (int i = 0; i < namesAndParts.length; i += 2) {
        Object part = namesAndParts[i + 1];
        byte[] bytes = part instanceof byte[] all ? all : utf8((String) part);
        zip.putArchiveEntry(new ZipArchiveEntry((String) namesAndParts[i]));
        zip.write(bytes);
        zip.closeArchiveEntry();
      }
    }
    return out.toByteArray();
  }

  /** Sets bytes after each place where a mark stands. */
  private static byte[] patched(byte[] file, String mark, int after, String hexadecimal) {
    byte[] values = HexFormat.of().parseHex(hexadecimal);
    byte[] bytes = file.clone();
    String all = new String(bytes, StandardCharsets.ISO_8859_1);
    for (int at = all.indexOf(mark); at >= 0; at = all.indexOf(mark, at + 1)) {
      for (int i = 0; i < values.length && at + after + i < bytes.length; i++) {
        bytes[at + after + i] = values[i];
      }
    }
    return bytes;
  }

  private void document(String family, String name, String body) throws IOException {
    response(
        family,
        name,
        zip(
            "word/document.xml",
            "<w:document " + NAMES_OF_WORD + "><w:body>" + body + "</w:body></w:document>"));
  }

  private static String paragraph(String text) {
    return "<w:p><w:r><w:t>" + text + "</w:t></w:r></w:p>";
  }

  private void word() throws IOException {
    String good = paragraph(ANSWER);
    document("word", "nested-tables.docx", "<w:tbl><w:tr><w:tc>".repeat(250) + good);
    document(
        "word",
        "tables-in.docx",
        "<w:tbl><w:tr><w:tc>".repeat(90) + good + "</w:tc></w:tr></w:tbl>".repeat(90));
    document(
        "word",
        "text-boxes.docx",
        "<w:p><w:r><w:txbxContent>".repeat(90) + good + "</w:txbxContent></w:r></w:p>".repeat(90));
    document("word", "no-end.docx", good + "<w:p><w:r><w:t>They hide");
    document("word", "entities.docx", paragraph("&a;&#0;&#x110000;&nbsp;"));
    document("word", "script.docx", paragraph("&lt;script&gt;alert(1)&lt;/script&gt; " + ANSWER));
    document(
        "word",
        "field.docx",
        "<w:p><w:r><w:fldChar w:fldCharType=\"begin\"/></w:r><w:r><w:instrText>INCLUDETEXT \"/etc/hostname\"</w:instrText></w:r></w:p>"
            + good);
    document(
        "word",
        "fields-open.docx",
        "<w:r><w:fldChar w:fldCharType=\"begin\"/></w:r>".repeat(20_000) + good);
    document(
        "word", "deleted.docx", "<w:p><w:del><w:r><w:delText>all</w:delText></w:r></w:del></w:p>");
    document(
        "word", "hidden.docx", "<w:p><w:r><w:rPr><w:vanish/></w:rPr><w:t>hidden</w:t></w:r></w:p>");
    document(
        "word",
        "levels.docx",
        "<w:p><w:pPr><w:numPr><w:ilvl w:val=\"999999999999\"/><w:numId w:val=\"-5\"/></w:numPr></w:pPr><w:r><w:t>a</w:t></w:r></w:p>"
                .repeat(50)
            + good);
    document("word", "empty-paragraphs.docx", "<w:p/>".repeat(150_000) + good);
    document("word", "runs.docx", "<w:p>" + "<w:r><w:t>a</w:t></w:r>".repeat(30_000) + "</w:p>");
    document(
        "word",
        "tabs.docx",
        "<w:p><w:r>" + "<w:tab/><w:br/>".repeat(60_000) + "</w:r></w:p>" + good);
    document(
        "word",
        "cells.docx",
        "<w:tbl><w:tr>" + "<w:tc><w:p/></w:tc>".repeat(60_000) + "</w:tr></w:tbl>" + good);
    document(
        "word",
        "grid-span.docx",
        "<w:tbl><w:tr><w:tc><w:tcPr><w:gridSpan w:val=\"2147483647\"/></w:tcPr><w:p/></w:tc></w:tr></w:tbl>"
            + good);
    document(
        "word",
        "alternates.docx",
        "<mc:AlternateContent xmlns:mc=\"http://schemas.openxmlformats.org/markup-compatibility/2006\"><mc:Choice>"
                .repeat(80)
            + good);
    document(
        "word",
        "formula.docx",
        "<m:oMath xmlns:m=\"http://schemas.openxmlformats.org/officeDocument/2006/math\">"
            + "<m:f><m:num>".repeat(120)
            + "<m:r><m:t>x</m:t></m:r>"
            + "</m:num></m:f>".repeat(120)
            + "</m:oMath>"
            + good);
    String document =
        "<w:document " + NAMES_OF_WORD + "><w:body>" + good + "</w:body></w:document>";
    String styled = document.replace("<w:p>", "<w:p><w:pPr><w:pStyle w:val=\"A\"/></w:pPr>");
    response(
        "cyclic styles",
        "self-style.docx",
        zip(
            "word/document.xml",
            styled,
            "word/styles.xml",
            "<w:styles "
                + NAMES_OF_WORD
                + "><w:style w:type=\"paragraph\" w:styleId=\"A\"><w:basedOn w:val=\"A\"/></w:style></w:styles>"));
    response(
        "cyclic styles",
        "two-styles.docx",
        zip(
            "word/document.xml",
            styled,
            "word/styles.xml",
            "<w:styles "
                + NAMES_OF_WORD
                + "><w:style w:type=\"paragraph\" w:styleId=\"A\"><w:basedOn w:val=\"B\"/></w:style><w:style w:type=\"paragraph\" w:styleId=\"B\"><w:basedOn w:val=\"A\"/></w:style></w:styles>"));
    StringBuilder chain = new StringBuilder();
    for (int i = 0; i < 20_000; i++) {
      chain
          .append("<w:style w:type=\"paragraph\" w:styleId=\"")
          .append(i == 0 ? "A" : "s" + i)
          .append("\"><w:basedOn w:val=\"s")
          .append(i + 1)
          .append("\"/></w:style>");
    }
    response(
        "cyclic styles",
        "chain-of-styles.docx",
        zip(
            "word/document.xml",
            styled.replace("</w:body>", "</w:body>"),
            "word/styles.xml",
            "<w:styles " + NAMES_OF_WORD + ">" + chain + "</w:styles>"));
    response(
        "cyclic styles",
        "many-chained.docx",
        zip(
            "word/document.xml",
            "<w:document "
                + NAMES_OF_WORD
                + "><w:body>"
                + "<w:p><w:pPr><w:pStyle w:val=\"A\"/></w:pPr><w:r><w:t>a</w:t></w:r></w:p>"
                    .repeat(20_000)
                + "</w:body></w:document>",
            "word/styles.xml",
            "<w:styles " + NAMES_OF_WORD + ">" + chain + "</w:styles>"));
    String numbered =
        document.replace(
            "<w:p>",
            "<w:p><w:pPr><w:numPr><w:ilvl w:val=\"0\"/><w:numId w:val=\"1\"/></w:numPr></w:pPr>");
    response(
        "word",
        "numbers.docx",
        zip(
            "word/document.xml",
            numbered,
            "word/numbering.xml",
            "<w:numbering "
                + NAMES_OF_WORD
                + "><w:abstractNum w:abstractNumId=\"1\"><w:lvl w:ilvl=\"0\"><w:start w:val=\"2147483647\"/><w:numFmt w:val=\"lowerRoman\"/><w:lvlText w:val=\"%1%2%3%9%%\"/></w:lvl></w:abstractNum><w:num w:numId=\"1\"><w:abstractNumId w:val=\"1\"/></w:num></w:numbering>"));
    response(
        "word",
        "numbers-far.docx",
        zip(
            "word/document.xml",
            numbered,
            "word/numbering.xml",
            "<w:numbering "
                + NAMES_OF_WORD
                + "><w:abstractNum w:abstractNumId=\"1\"><w:lvl w:ilvl=\"0\"><w:start w:val=\"99999999999999999999\"/><w:numFmt w:val=\"lowerLetter\"/><w:lvlText w:val=\""
                + "%1".repeat(50_000)
                + "\"/></w:lvl></w:abstractNum><w:num w:numId=\"1\"><w:abstractNumId w:val=\"1\"/></w:num></w:numbering>"));
    response(
        "word",
        "numbers-cyclic.docx",
        zip(
            "word/document.xml",
            numbered,
            "word/numbering.xml",
            "<w:numbering "
                + NAMES_OF_WORD
                + "><w:abstractNum w:abstractNumId=\"1\"><w:numStyleLink w:val=\"L\"/><w:styleLink w:val=\"L\"/></w:abstractNum><w:num w:numId=\"1\"><w:abstractNumId w:val=\"1\"/></w:num></w:numbering>"));
    for (String doctype :
        List.of(
            "<!DOCTYPE x [<!ENTITY a SYSTEM \"file:///etc/hostname\">]>",
            "<!DOCTYPE x SYSTEM \"http://127.0.0.1:9/x.dtd\">",
            "<!DOCTYPE x [<!ENTITY % p SYSTEM \"http://127.0.0.1:9/x\"> %p;]>",
            "<!DOCTYPE x [<!ENTITY a \"a\"><!ENTITY b \"&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;\"><!ENTITY c \"&b;&b;&b;&b;&b;&b;&b;&b;&b;&b;\">]>")) {
      String part = doctype + document.replace(ANSWER, ANSWER + " &a;&c;");
      int number = cases.size();
      response("entities", "doctype" + number + ".docx", zip("word/document.xml", part));
      response(
          "entities",
          "doctype" + number + ".odt",
          zip(
              "content.xml",
              doctype + "<o xmlns:text=\"t\"><text:p>" + ANSWER + "&a;</text:p></o>"));
      response("entities", "doctype" + number + ".html", doctype + "<p>" + ANSWER + "&a;");
      response(
          "entities",
          "doctype" + number + ".xhtml",
          "<?xml version=\"1.0\"?>"
              + doctype
              + "<html><body><p>"
              + ANSWER
              + "&a;</p></body></html>");
      response(
          "entities",
          "doctype" + number + ".xlsx",
          zip("xl/workbook.xml", doctype + "<workbook/>"));
    }
    response("word", "no-document.docx", zip("word/styles.xml", "<a/>"));
    response(
        "word",
        "other-place.docx",
        zip(
            "_rels/.rels",
            "<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\"><Relationship Id=\"r\" Type=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument\" Target=\"../../../../etc/hostname\"/></Relationships>",
            "word/x.xml",
            document));
    response(
        "word",
        "external.docx",
        zip(
            "word/document.xml",
            document,
            "word/_rels/document.xml.rels",
            "<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\"><Relationship Id=\"r\" Type=\"t\" TargetMode=\"External\" Target=\"http://127.0.0.1:9/x\"/></Relationships>"));
    response(
        "word",
        "twice.docx",
        anyZip(
            "word/document.xml",
            document,
            "word/document.xml",
            document.replace(ANSWER, "Another.")));
    response("word", "up.docx", anyZip("../../evil.txt", "x", "word/document.xml", document));
    response(
        "word",
        "wide.docx",
        zip(
            "word/document.xml",
            ("\ufeff<?xml version=\"1.0\" encoding=\"UTF-16\"?>" + document)
                .getBytes(StandardCharsets.UTF_16LE)));
    response(
        "word",
        "lying.docx",
        zip("word/document.xml", "<?xml version=\"1.0\" encoding=\"UTF-16\"?>" + document));
    response(
        "word",
        "unknown-encoding.docx",
        zip("word/document.xml", "<?xml version=\"1.0\" encoding=\"klingon\"?>" + document));
    response(
        "word",
        "xml-1.1.docx",
        zip(
            "word/document.xml",
            "<?xml version=\"1.1\"?>" + document.replace(ANSWER, ANSWER + "&#1;")));
    response(
        "word",
        "locked-part.docx",
        patched(
            patched(zip("word/document.xml", document), "PK\u0003\u0004", 6, "01"),
            "PK\u0001\u0002",
            8,
            "01"));
    response(
        "word",
        "method.docx",
        patched(
            patched(zip("word/document.xml", document), "PK\u0003\u0004", 8, "63"),
            "PK\u0001\u0002",
            10,
            "63"));
    response(
        "word",
        "size.docx",
        patched(zip("word/document.xml", document), "PK\u0001\u0002", 20, "ffffff7fffffff7f"));
    response(
        "word",
        "offset.docx",
        patched(zip("word/document.xml", document), "PK\u0001\u0002", 42, "ffffff7f"));
    response(
        "word",
        "count.docx",
        patched(zip("word/document.xml", document), "PK\u0005\u0006", 8, "ffffffff"));
    add("bombs", Use.RESPONSE, "parts.docx", false, manyParts("word/document.xml", document));
    add(
        "bombs",
        Use.RESPONSE,
        "bomb.docx",
        false,
        packedBomb(
            "word/document.xml",
            "<w:document " + NAMES_OF_WORD + "><w:body><w:p><w:r><w:t>",
            "a ",
            400L << 20));
    add(
        "bombs",
        Use.RESPONSE,
        "bomb-styles.docx",
        false,
        packedBomb(
            "word/styles.xml",
            "<w:styles " + NAMES_OF_WORD + ">",
            "<w:style w:styleId=\"a\"/>",
            20L << 20));
    add(
        "bombs",
        Use.RESPONSE,
        "styles-many.docx",
        false,
        packedBomb(
            "word/styles.xml",
            "<w:styles " + NAMES_OF_WORD + ">",
            "<w:style w:styleId=\"a\"/>",
            2L << 20));
    add(
        "bombs",
        Use.RESPONSE,
        "attributes.docx",
        false,
        packedBomb(
            "word/document.xml", "<w:document " + NAMES_OF_WORD + "><w:p ", "a=\"\" ", 8L << 20));
    add("bombs", Use.RESPONSE, "namespaces.docx", false, namespaces());
  }

  private static Maker manyParts(String name, String document) {
    return file -> {
      try (ZipArchiveOutputStream zip = new ZipArchiveOutputStream(file.toFile())) {
        for (int i = 0; i < 60_000; i++) {
          zip.putArchiveEntry(new ZipArchiveEntry(i == 0 ? name : "word/p" + i));
          zip.write(i == 0 ? utf8(document) : new byte[0]);
          zip.closeArchiveEntry();
        }
      }
    };
  }

  private static Maker packedBomb(String name, String before, String one, long times) {
    return file -> {
      try (ZipArchiveOutputStream zip = new ZipArchiveOutputStream(file.toFile())) {
        if (!name.equals("word/document.xml") && name.startsWith("word")) {
          zip.putArchiveEntry(new ZipArchiveEntry("word/document.xml"));
          zip.write(
              utf8(
                  "<w:document "
                      + NAMES_OF_WORD
                      + "><w:body>"
                      + paragraph(ANSWER)
                      + "</w:body></w:document>"));
          zip.closeArchiveEntry();
        }
        zip.putArchiveEntry(new ZipArchiveEntry(name));
        zip.write(utf8(before));
        byte[] many = utf8(one.repeat(1 << 13));
        for (long left = times; left > 0; left -= 1 << 13) {
          zip.write(many);
        }
        zip.closeArchiveEntry();
      }
    };
  }

  private static Maker namespaces() {
    return file -> {
      StringBuilder names = new StringBuilder("<w:document " + NAMES_OF_WORD);
      for (int i = 0; i < 200_000; i++) {
        names.append(" xmlns:n").append(i).append("=\"u").append(i).append('"');
      }
      Files.write(
          file,
          zip(
              "word/document.xml",
              names + "><w:body>" + paragraph(ANSWER) + "</w:body></w:document>"));
    };
  }

  private void openDocument() throws IOException {
    String names = "urn:oasis:names:tc:opendocument:xmlns:";
    String start =
        "<o:document-content xmlns:o=\""
            + names
            + "office:1.0\" xmlns:text=\""
            + names
            + "text:1.0\" xmlns:table=\""
            + names
            + "table:1.0\" xmlns:style=\""
            + names
            + "style:1.0\" xmlns:draw=\""
            + names
            + "drawing:1.0\" xmlns:xlink=\"http://www.w3.org/1999/xlink\">";
    String end = "</o:document-content>";
    String good = "<text:p>" + ANSWER + "</text:p>";
    Map<String, String> bodies = new LinkedHashMap<>();
    bodies.put("lists", "<text:list><text:list-item>".repeat(140) + good);
    bodies.put(
        "repeated-cells",
        "<table:table><table:table-row table:number-rows-repeated=\"2147483647\"><table:table-cell table:number-columns-repeated=\"2147483647\">"
            + good
            + "</table:table-cell></table:table-row></table:table>");
    bodies.put(
        "spaces-far",
        "<text:p>a<text:s text:c=\"2147483647\"/>b<text:s text:c=\"-9\"/><text:s text:c=\"99999999999999\"/></text:p>"
            + good);
    bodies.put("frames", "<draw:frame><draw:text-box>".repeat(140) + good);
    bodies.put(
        "objects",
        "<draw:object xlink:href=\"http://127.0.0.1:9/x\"/><draw:object xlink:href=\"../../../etc/hostname\"/>"
            + good);
    bodies.put(
        "deleted",
        "<text:tracked-changes><text:changed-region text:id=\"c\"><text:deletion>"
            + good
            + "</text:deletion></text:changed-region></text:tracked-changes><text:change text:change-id=\"c\"/>");
    bodies.put("changes", "<text:change-start text:change-id=\"c\"/>".repeat(20_000) + good);
    bodies.put(
        "notes",
        "<text:p>"
            + "<text:note><text:note-body><text:p>n</text:p></text:note-body></text:note>"
                .repeat(20_000)
            + "</text:p>"
            + good);
    bodies.put(
        "tabs", "<text:p>" + "<text:tab/><text:line-break/>".repeat(50_000) + "</text:p>" + good);
    bodies.put(
        "numbers",
        "<text:list text:start-value=\"99999999999\">"
            + "<text:list-item text:start-value=\"-1\"><text:p>a</text:p></text:list-item>"
                .repeat(5_000)
            + "</text:list>"
            + good);
    bodies.put("no-end", good + "<text:p>They hide");
    bodies.put(
        "script", "<text:script xlink:href=\"http://127.0.0.1:9/x\">alert(1)</text:script>" + good);
    for (Map.Entry<String, String> body : bodies.entrySet()) {
      response(
          "open document",
          body.getKey() + ".odt",
          zip(
              "content.xml",
              start + "<o:body><o:text>" + body.getValue() + "</o:text></o:body>" + end));
    }
    String style =
        "<o:automatic-styles><style:style style:name=\"A\" style:parent-style-name=\"B\"/><style:style style:name=\"B\" style:parent-style-name=\"A\"/></o:automatic-styles>";
    response(
        "cyclic styles",
        "two-styles.odt",
        zip(
            "content.xml",
            start
                + style
                + "<o:body><o:text><text:p text:style-name=\"A\">"
                + ANSWER
                + "</text:p></o:text></o:body>"
                + end,
            "styles.xml",
            start + style + end));
    StringBuilder chain = new StringBuilder("<o:automatic-styles>");
    for (int i = 0; i < 20_000; i++) {
      chain
          .append("<style:style style:name=\"s")
          .append(i)
          .append("\" style:parent-style-name=\"s")
          .append(i + 1)
          .append("\"/>");
    }
    chain.append("</o:automatic-styles>");
    response(
        "cyclic styles",
        "chain-of-styles.odt",
        zip(
            "content.xml",
            start
                + chain
                + "<o:body><o:text>"
                + ("<text:p text:style-name=\"s0\">" + ANSWER + "</text:p>").repeat(2_000)
                + "</o:text></o:body>"
                + end));
    response(
        "open document",
        "no-content.odt",
        zip("mimetype", "application/vnd.oasis.opendocument.text"));
    response(
        "open document",
        "locked.odt",
        zip(
            "META-INF/manifest.xml",
            "<manifest:manifest xmlns:manifest=\""
                + names
                + "manifest:1.0\"><manifest:file-entry manifest:full-path=\"content.xml\"><manifest:encryption-data/></manifest:file-entry></manifest:manifest>",
            "content.xml",
            noise(3_000)));
    response(
        "open document",
        "spreadsheet.odt",
        zip(
            "mimetype",
            "application/vnd.oasis.opendocument.spreadsheet",
            "content.xml",
            start
                + "<o:body><o:spreadsheet><table:table><table:table-row><table:table-cell>"
                + good
                + "</table:table-cell></table:table-row></table:table></o:spreadsheet></o:body>"
                + end));
    add(
        "bombs",
        Use.RESPONSE,
        "bomb.odt",
        false,
        packedBomb("content.xml", start + "<o:body><o:text>", good, 4L << 20));
    add(
        "bombs",
        Use.RESPONSE,
        "bomb-styles.odt",
        false,
        packedBomb("styles.xml", start, "<style:style style:name=\"a\"/>", 4L << 20));
    add("bombs", Use.RESPONSE, "parts.odt", false, manyParts("content.xml", start + good + end));
  }

  private void richText() {
    String good = "{\\rtf1\\ansi " + ANSWER;
    Map<String, String> files = new LinkedHashMap<>();
    files.put("unclosed", "{\\rtf1 {{{{" + ANSWER);
    files.put("closed", "{\\rtf1 a}}}}}}" + ANSWER + "}");
    files.put("bin-negative", good + "\\bin-5 x}");
    files.put("bin-end", good + "\\bin100 x}");
    files.put("bins", good + "\\bin1 }".repeat(50_000) + "}");
    files.put("unicode", good + "\\u-32768?\\u65535?\\u99999999999?\\u?\\uc99999 \\u8226 x}");
    files.put("uc", "{\\rtf1\\uc2147483647 \\u8226 " + ANSWER + "}");
    files.put("hex", good + "\\'zz\\'f\\'}");
    files.put("hexes", good + "\\'e9".repeat(60_000) + "}");
    files.put("codepage", "{\\rtf1\\ansicpg99999\\mac\\pca " + ANSWER + "\\'80\\'81}");
    files.put(
        "charset",
        "{\\rtf1{\\fonttbl{\\f0\\fcharset9999 x;}{\\f0\\fcharset128 y;}}\\f0 \\'82\\'a0\\'82 "
            + ANSWER
            + "}");
    files.put("fonts", "{\\rtf1{\\fonttbl" + "{\\f1 x;}".repeat(60_000) + "}" + ANSWER + "}");
    files.put("word", "{\\rtf1\\" + "a".repeat(100_000) + " " + ANSWER + "}");
    files.put("number", "{\\rtf1\\fs" + "9".repeat(100_000) + " " + ANSWER + "}");
    files.put(
        "object",
        good
            + "{\\object\\objdata "
            + "00".repeat(50_000)
            + "}{\\field{\\*\\fldinst INCLUDETEXT http://127.0.0.1:9/x}{\\fldrslt r}}}");
    files.put("picture", good + "{\\pict\\pngblip " + "89504e47".repeat(50_000) + "}}");
    files.put("tables", good + "\\trowd\\cell\\row".repeat(30_000) + "}");
    files.put("nested-tables", good + "\\itap999999999\\nestcell\\nestrow".repeat(3_000) + "}");
    files.put("paragraphs", good + "\\par\\line\\page\\sect".repeat(30_000) + "}");
    files.put("hidden", "{\\rtf1\\v " + ANSWER + "}");
    files.put("groups", good + "{}".repeat(200_000) + "}");
    files.put("starred", good + "{\\*\\unknown ".repeat(250) + "x" + "}".repeat(250) + "}");
    files.put("lists", good + "{\\listtext ".repeat(250) + "x" + "}".repeat(250) + "}");
    files.put("zero", good + "\0\0\0}");
    files.put("only-head", "{\\rtf");
    files.put("version", "{\\rtf999999999999 " + ANSWER + "}");
    files.put("not-rtf", "{" + ANSWER + "}");
    files.put("upr", good + "{\\upr{a}{\\*\\ud{\\u8226 b}}}}");
    files.forEach((name, text) -> response("rich text", name + ".rtf", latin(text)));
    add("bombs", Use.RESPONSE, "long.rtf", false, long_(good, "They hide so. ", 6_000_000, "}"));
    add("bombs", Use.RESPONSE, "marks.rtf", false, long_(good, "\\b\\b0 ", 8_000_000, "}"));
    add("bombs", Use.RESPONSE, "slashes.rtf", false, long_(good, "\\", 40_000_000, "}"));
  }

  private static byte[] deflated(String content) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (OutputStream packed = new java.util.zip.DeflaterOutputStream(out)) {
      packed.write(latin(content));
    }
    return out.toByteArray();
  }

  private static String page(String content) {
    return HostileFiles.pdf(
        "<</Type/Catalog/Pages 2 0 R>>",
        "<</Type/Pages/Kids[3 0 R]/Count 1>>",
        "<</Type/Page/Parent 2 0 R/MediaBox[0 0 600 800]/Contents 4 0 R/Resources<</Font<</F 5 0 R>>>>>>",
        HostileFiles.stream("", content),
        "<</Type/Font/Subtype/Type1/BaseFont/Helvetica>>");
  }

  private void pdf() throws IOException {
    String words = "BT /F 9 Tf 50 700 Td (" + ANSWER + ") Tj ET";
    String whole = page(words);
    Map<String, String> files = new LinkedHashMap<>();
    files.put("good", whole);
    files.put(
        "xref",
        whole.replace("trailer", "xref\n0 3\n9999999999 00000 n\n0000000000 65535 f\ntrailer")
            + "startxref\n99999999\n%%EOF");
    files.put(
        "xref-loop",
        whole.replace("/Root 1 0 R", "/Root 1 0 R/Prev 5/Size 6") + "startxref\n5\n%%EOF");
    files.put(
        "prev-itself",
        "%PDF-1.4\nxref\n0 1\n0000000000 65535 f \ntrailer <</Root 1 0 R/Size 6/Prev 9>>\nstartxref\n9\n%%EOF\n"
            + whole);
    files.put("no-root", whole.replace("/Root 1 0 R", ""));
    files.put("no-trailer", whole.replace("trailer", "tra"));
    files.put(
        "root-itself", whole.replace("/Type/Catalog/Pages 2 0 R", "/Type/Catalog/Pages 1 0 R"));
    files.put("kids-itself", whole.replace("/Kids[3 0 R]", "/Kids[2 0 R]"));
    files.put(
        "kids-cycle",
        HostileFiles.pdf(
            "<</Type/Catalog/Pages 2 0 R>>",
            "<</Type/Pages/Kids[3 0 R 3 0 R 3 0 R]/Count 3>>",
            "<</Type/Pages/Parent 2 0 R/Kids[2 0 R 2 0 R]/Count 9>>"));
    files.put("kids-shared", sharedKids());
    files.put("kids-deep", deepKids());
    files.put("count", whole.replace("/Count 1", "/Count 2147483647"));
    files.put("count-negative", whole.replace("/Count 1", "/Count -1"));
    files.put("parent-itself", whole.replace("/Type/Page/Parent 2 0 R", "/Type/Page/Parent 3 0 R"));
    files.put("contents-itself", whole.replace("/Contents 4 0 R", "/Contents 3 0 R"));
    files.put(
        "contents-many",
        whole.replace("/Contents 4 0 R", "/Contents[" + "4 0 R ".repeat(20_000) + "]"));
    files.put(
        "resources-itself", whole.replace("/Resources<</Font<</F 5 0 R>>>>", "/Resources 3 0 R"));
    files.put(
        "font-itself",
        whole.replace(
            "<</Type/Font/Subtype/Type1/BaseFont/Helvetica>>",
            "<</Type/Font/Subtype/Type0/BaseFont/X/DescendantFonts[5 0 R]/ToUnicode 5 0 R>>"));
    files.put("font-kind", whole.replace("/Subtype/Type1", "/Subtype/Klingon"));
    files.put(
        "font-type3",
        whole.replace(
            "<</Type/Font/Subtype/Type1/BaseFont/Helvetica>>",
            "<</Type/Font/Subtype/Type3/FontBBox[0 0 1 1]/FontMatrix[0 0 0 0 0 0]/CharProcs<</T 4 0 R>>/Encoding<</Differences[84/T]>>/FirstChar 84/LastChar 84/Widths[1]/Resources<</Font<</F 5 0 R>>>>>>"));
    files.put("length-far", whole.replaceFirst("/Length \\d+", "/Length 2147483647"));
    files.put("length-negative", whole.replaceFirst("/Length \\d+", "/Length -1"));
    files.put("length-itself", whole.replaceFirst("/Length \\d+", "/Length 4 0 R"));
    files.put("box", whole.replace("[0 0 600 800]", "[1e99 -1e99 0 0]"));
    files.put("box-empty", whole.replace("[0 0 600 800]", "[]"));
    files.put("size", page(words.replace("9 Tf", "1e38 Tf")));
    files.put("size-zero", page(words.replace("9 Tf", "0 Tf")));
    files.put("size-nan", page(words.replace("50 700 Td", "1e999 -1e999 Td")));
    files.put("rotate", whole.replace("/Type/Page/", "/Rotate 37/Type/Page/"));
    files.put("matrix", page("1e30 0 0 1e30 0 0 cm ".repeat(50) + words));
    files.put("matrix-null", page("0 0 0 0 0 0 cm " + words));
    files.put("saves", page("q ".repeat(200_000) + words));
    files.put("restores", page("Q ".repeat(50_000) + words));
    files.put("string-open", page("BT /F 9 Tf (" + "(".repeat(20_000) + ANSWER));
    files.put("array-open", page("BT /F 9 Tf " + "[".repeat(100_000) + "(a)"));
    files.put("dict-open", page("BT /F 9 Tf " + "<<".repeat(100_000) + "(a)"));
    files.put(
        "arrays-object", HostileFiles.pdf("<</Type/Catalog/Pages 2 0 R>>", "[".repeat(200_000)));
    files.put(
        "dicts-object", HostileFiles.pdf("<</Type/Catalog/Pages 2 0 R>>", "<</A".repeat(200_000)));
    files.put("number", page("9".repeat(200_000) + " w " + words));
    files.put("name", page("/" + "a".repeat(200_000) + " gs " + words));
    files.put("operator", page("x".repeat(200_000) + " " + words));
    files.put("inline", page("BI /W 99999999 /H 99999999 /BPC 8 ID " + "x".repeat(1_000)));
    files.put("one-place", page("BT /F 9 Tf 50 700 Td " + "(a) Tj 0 0 Td ".repeat(20_000) + "ET"));
    files.put("scattered", page(scattered()));
    files.put("columns", page(manyColumns()));
    files.put("upright", page("BT /F 9 Tf 0 1 -1 0 50 700 Tm (" + ANSWER + ") Tj ET"));
    files.put(
        "letters",
        page(
            "BT /F 9 Tf 50 700 Td "
                + ANSWER
                    .chars()
                    .mapToObj(c -> "(" + (char) c + ") Tj 400 0 Td -395 0 Td ")
                    .reduce("", String::concat)
                + "ET"));
    files.put(
        "javascript",
        whole.replace(
            "/Type/Catalog", "/OpenAction<</S/JavaScript/JS(app.alert(1))>>/Type/Catalog"));
    files.put(
        "launch",
        whole.replace("/Type/Catalog", "/OpenAction<</S/Launch/F(/bin/sh)>>/Type/Catalog"));
    files.put(
        "form",
        whole.replace("/Type/Catalog", "/AcroForm<</XFA(<x/>)/Fields[1 0 R]>>/Type/Catalog"));
    files.put(
        "remote",
        whole.replace("4 0 obj\n<<", "4 0 obj\n<</F(http://127.0.0.1:9/x)/FFilter/FlateDecode"));
    files.put("filter", whole.replace("4 0 obj\n<<", "4 0 obj\n<</Filter/Klingon"));
    files.put(
        "filters",
        whole.replace("4 0 obj\n<<", "4 0 obj\n<</Filter[" + "/FlateDecode".repeat(5_000) + "]"));
    files.put("ascii", whole.replace("4 0 obj\n<<", "4 0 obj\n<</Filter/ASCII85Decode"));
    files.put(
        "lzw",
        whole.replace(
            "4 0 obj\n<<",
            "4 0 obj\n<</Filter/LZWDecode/DecodeParms<</EarlyChange 9/Predictor 15/Columns 2147483647>>"));
    files.put(
        "encrypted",
        whole.replace(
            "/Root 1 0 R",
            "/Root 1 0 R/Encrypt<</Filter/Standard/V 99/R 99/O(x)/U(x)/P -1/Length 99999>>/ID[(a)(b)]"));
    files.put("encrypt-itself", whole.replace("/Root 1 0 R", "/Root 1 0 R/Encrypt 1 0 R"));
    files.put("junk-before", "x".repeat(900) + whole);
    files.put("far-head", "x".repeat(5_000) + whole);
    files.put("no-version", whole.replace("%PDF-1.7", "%PDF-"));
    files.put("version", whole.replace("%PDF-1.7", "%PDF-" + "9".repeat(500)));
    files.put("only-head", "%PDF-1.7\n");
    files.put("comments", whole.replace("2 0 obj", "%\n".repeat(200_000) + "2 0 obj"));
    files.put("many-objects", "%PDF-1.4\n" + manyObjects() + whole);
    files.put("ends", whole + "%%EOF\nstartxref\n0\n".repeat(20_000));
    files.forEach((name, text) -> response("pdf", name + ".pdf", latin(text)));
    byte[] bomb = deflated(words + " ".repeat(150 << 20));
    add(
        "bombs",
        Use.RESPONSE,
        "stream.pdf",
        false,
        p -> Files.write(p, streamed(bomb, "/Filter/FlateDecode")));
    byte[] twice =
        deflated(new String(deflated(" ".repeat(200 << 20)), StandardCharsets.ISO_8859_1));
    add(
        "bombs",
        Use.RESPONSE,
        "twice.pdf",
        false,
        p -> Files.write(p, streamed(twice, "/Filter[/FlateDecode/FlateDecode]")));
    byte[] drawn = deflated("0 0 m 1 1 l ".repeat(6_000_000));
    add(
        "bombs",
        Use.RESPONSE,
        "paths.pdf",
        false,
        p -> Files.write(p, streamed(drawn, "/Filter/FlateDecode")));
    String objects = "6 0 7 9 8 18 <</A 8 0 R>> <</A 6 0 R>> <</A 7 0 R>>";
    response(
        "object streams",
        "objects.pdf",
        latin(
            whole.replace(
                "trailer",
                "9 0 obj\n"
                    + HostileFiles.stream("/Type/ObjStm/N 3/First 16", objects)
                    + "\nendobj\ntrailer")));
    response(
        "object streams",
        "objects-many.pdf",
        latin(
            whole.replace(
                "trailer",
                "9 0 obj\n"
                    + HostileFiles.stream("/Type/ObjStm/N 2147483647/First 16", objects)
                    + "\nendobj\ntrailer")));
    response(
        "object streams",
        "objects-first.pdf",
        latin(
            whole.replace(
                "trailer",
                "9 0 obj\n"
                    + HostileFiles.stream("/Type/ObjStm/N 3/First -1", objects)
                    + "\nendobj\ntrailer")));
    response(
        "object streams",
        "objects-itself.pdf",
        latin(
            whole.replace(
                "trailer",
                "9 0 obj\n"
                    + HostileFiles.stream("/Type/ObjStm/N 1/First 4/Extends 9 0 R", "9 0 <<>>")
                    + "\nendobj\ntrailer")));
    response(
        "object streams",
        "objects-root.pdf",
        latin(
            "%PDF-1.5\n9 0 obj\n"
                + HostileFiles.stream(
                    "/Type/ObjStm/N 1/First 4", "1 0 <</Type/Catalog/Pages 9 0 R>>")
                + "\nendobj\ntrailer <</Root 1 0 R>>"));
    response(
        "object streams",
        "xref-stream.pdf",
        latin(
            "%PDF-1.5\n9 0 obj\n"
                + HostileFiles.stream(
                    "/Type/XRef/Size 2147483647/W[99 99 99]/Index[0 2147483647]/Root 1 0 R",
                    "x".repeat(500))
                + "\nendobj\nstartxref\n9\n%%EOF"));
    response(
        "object streams",
        "xref-widths.pdf",
        latin(
            "%PDF-1.5\n9 0 obj\n"
                + HostileFiles.stream("/Type/XRef/Size 9/W[0 0 0]/Root 1 0 R/Prev 9", "")
                + "\nendobj\nstartxref\n9\n%%EOF"));
    for (String map :
        List.of(
            "1 begincodespacerange <00> <ff> endcodespacerange 1 beginbfrange <00> <ffffffff> <0041> endbfrange",
            "1 beginbfrange <20> <7e> [" + "<0041>".repeat(50_000) + "] endbfrange",
            "1 begincidrange <00000000> <ffffffff> 0 endcidrange",
            "/X usecmap ".repeat(5_000))) {
      String font = "<</Type/Font/Subtype/Type1/BaseFont/Helvetica/ToUnicode 6 0 R>>";
      response(
          "pdf",
          "map" + cases.size() + ".pdf",
          latin(
              whole
                  .replace("<</Type/Font/Subtype/Type1/BaseFont/Helvetica>>", font)
                  .replace(
                      "trailer",
                      "6 0 obj\n" + HostileFiles.stream("", map) + "\nendobj\ntrailer")));
    }
  }

  private static byte[] streamed(byte[] packed, String filter) {
    String[] around = page("@@@").split("<</Length 3>> stream\n@@@", -1);
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.writeBytes(latin(around[0]));
    out.writeBytes(latin("<<" + filter + "/Length " + packed.length + ">> stream\n"));
    out.writeBytes(packed);
    out.writeBytes(latin(around[1]));
    return out.toByteArray();
  }

  private static String sharedKids() {
    List<String> objects = new ArrayList<>();
    objects.add("<</Type/Catalog/Pages 2 0 R>>");
    for (int i = 2; i < 30; i++) {
      objects.add("<</Type/Pages/Kids[" + (i + 1) + " 0 R " + (i + 1) + " 0 R]/Count 2>>");
    }
    objects.add("<</Type/Page/MediaBox[0 0 9 9]>>");
    return HostileFiles.pdf(objects.toArray(String[]::new));
  }

  private static String deepKids() {
    List<String> objects = new ArrayList<>();
    objects.add("<</Type/Catalog/Pages 2 0 R>>");
    for (int i = 2; i < 20_000; i++) {
      objects.add("<</Type/Pages/Parent " + (i - 1) + " 0 R/Kids[" + (i + 1) + " 0 R]/Count 1>>");
    }
    objects.add("<</Type/Page/Parent 19999 0 R/MediaBox[0 0 9 9]>>");
    return HostileFiles.pdf(objects.toArray(String[]::new));
  }

  private static String scattered() {
    Random random = new Random(3);
    StringBuilder out = new StringBuilder("BT /F 9 Tf ");
    for (int i = 0; i < 20_000; i++) {
      out.append("1 0 0 1 ")
          .append(random.nextInt(600))
          .append(' ')
          .append(random.nextInt(800))
          .append(" Tm (ab c) Tj ");
    }
    return out + "ET";
  }

  private static String manyColumns() {
    StringBuilder out = new StringBuilder("BT /F 2 Tf ");
    for (int row = 0; row < 300; row++) {
      for (int column = 0; column < 60; column++) {
        out.append("1 0 0 1 ")
            .append(column * 10)
            .append(' ')
            .append(row * 2)
            .append(" Tm (so) Tj ");
      }
    }
    return out + "ET";
  }

  private static String manyObjects() {
    StringBuilder out = new StringBuilder();
    for (int i = 10; i < 40_000; i++) {
      out.append(i).append(" 0 obj<</A ").append(i + 1).append(" 0 R>>endobj\n");
    }
    return out.toString();
  }

  private void webPage() {
    Map<String, String> pages = new LinkedHashMap<>();
    pages.put("script", "<p>" + ANSWER + "<img src=x onerror=alert(1)>" + EVIL);
    pages.put(
        "refresh", "<meta http-equiv=refresh content='0;url=http://127.0.0.1:9/'><p>" + ANSWER);
    pages.put(
        "frame",
        "<iframe src=/etc/hostname></iframe><object data=/etc/hostname></object><p>" + ANSWER);
    pages.put("comment", "<p>" + ANSWER + "<!-- " + "-".repeat(100_000));
    pages.put("title", "<title>" + ANSWER);
    pages.put("textarea", "<textarea>" + ANSWER);
    pages.put("plaintext", "<plaintext>" + ANSWER);
    pages.put("cdata", "<![CDATA[" + ANSWER);
    pages.put(
        "entities", "<p>" + "&amp;&nbsp;&zwj;&#x202e;&#0;&#99999999999;".repeat(5_000) + ANSWER);
    pages.put("attributes", "<p " + "a=b ".repeat(50_000) + ">" + ANSWER);
    pages.put("attribute", "<p a=\"" + "x".repeat(900_000) + "\">" + ANSWER);
    pages.put("tag-open", "<".repeat(200_000) + ANSWER);
    pages.put("tag-names", "<a" + "b".repeat(200_000) + ">" + ANSWER);
    pages.put("tables", "<table><tr><td>".repeat(20_000) + ANSWER);
    pages.put("lists", "<ul><li>".repeat(20_000) + ANSWER);
    pages.put("formatting", "<b><i><u><font>".repeat(5_000) + "<p>" + ANSWER);
    pages.put("adoption", "<a><b>".repeat(5_000) + "<p></a>".repeat(5_000) + ANSWER);
    pages.put("forms", "<form>".repeat(20_000) + "<select>".repeat(20_000) + ANSWER);
    pages.put("templates", "<template>".repeat(20_000) + ANSWER);
    pages.put("svg", "<svg><foreignObject><math><mtext>".repeat(10_000) + ANSWER);
    pages.put("hidden", "<p hidden>" + ANSWER + "<p style='display:none'>" + ANSWER);
    pages.put("style", "<style>" + "p{".repeat(100_000) + "</style><p>" + ANSWER);
    pages.put(
        "styled", ("<p style=\"display:" + " ".repeat(300) + "none;;;\">a").repeat(3_000) + ANSWER);
    pages.put("breaks", "<br>".repeat(200_000) + ANSWER);
    pages.put("pre", "<pre>" + " \n".repeat(200_000) + ANSWER);
    pages.put(
        "ordered",
        "<ol start=99999999999999 type=i reversed>"
            + "<li value=-2147483648>a".repeat(3_000)
            + ANSWER);
    pages.put("ruby", "<ruby><rt>".repeat(10_000) + ANSWER);
    pages.put("nothing", "<html><head></head><body></body></html>");
    pages.put("spans", "<td rowspan=99999999 colspan=99999999>" + ANSWER);
    pages.forEach(
        (name, text) ->
            response(
                "web page",
                name + ".html",
                text.startsWith("<html") ? text : "<!DOCTYPE html>" + text));
    add(
        "bombs",
        Use.RESPONSE,
        "long.html",
        false,
        long_("<!DOCTYPE html><p>", "They hide so. ", 6_000_000, ""));
    add(
        "bombs",
        Use.RESPONSE,
        "elements.html",
        false,
        long_("<!DOCTYPE html><p>", "<b></b>", 9_000_000, ""));
    add(
        "bombs",
        Use.RESPONSE,
        "attributes.html",
        false,
        long_("<!DOCTYPE html><p ", "a1=2 ", 9_000_000, ">x"));
    add("bombs", Use.RESPONSE, "distinct.html", false, HostileCases::distinctAttributes);
  }

  private static void distinctAttributes(Path file) throws IOException {
    StringBuilder out = new StringBuilder("<!DOCTYPE html><p");
    for (int i = 0; i < 300_000; i++) {
      out.append(" a").append(i);
    }
    Files.writeString(file, out + ">" + ANSWER);
  }

  private void tables() {
    String head = "response_id,text\n";
    Map<String, String> tables = new LinkedHashMap<>();
    tables.put("quote-open", head + "r1,\"They hide\nr2,They hide.\n".repeat(200));
    tables.put("quote-in", head + "r1,They \"hide\" so\nr2,\"a\"b\"c\"\nr3,They hide.\n");
    tables.put("quotes", head + "r1," + "\"".repeat(100_001) + "\n");
    tables.put("ragged", head + "r1\nr2,a,b,c\n,,\nr3,They hide.\n");
    tables.put("header-only", head);
    tables.put("header-twice", "text,text,response_id,response_id\na,b,c,d\n");
    tables.put("header-empty", ",,,\na,b,c,They hide so.\n");
    tables.put("header-blank", "\n\n\n" + head + "r1,They hide.\n");
    tables.put("header-evil", "response_id,text," + EVIL + ",=1+1,\u202ex\nr1,They hide.,a,b,c\n");
    tables.put("semicolons", head.replace(',', ';') + "r1;They hide.\n");
    tables.put("pipes", "response_id|text\nr1|They hide.\n");
    tables.put("tabs", head.replace(',', '\t') + "r1\tThey hide.\n");
    tables.put("returns", head.replace('\n', '\r') + "r1,They hide.\rr2,They hide.\r");
    tables.put("no-newline", head + "r1,They hide.");
    tables.put("zero", head + "r1,They\0hide.\nr2,They hide.\n");
    tables.put("same-ids", head + "r1,They hide.\n".repeat(3_000));
    tables.put("no-ids", head + ",They hide.\n".repeat(300));
    tables.put(
        "evil-ids",
        head
            + "../../evil,They hide.\n/etc/passwd,They hide.\n"
            + EVIL
            + ",They hide.\n=1+1,They hide.\n\u202eabc,They hide.\nCON,They hide.\n__proto__,They hide.\nconstructor,They hide.\n");
    tables.put("long-id", head + "x".repeat(200_000) + ",They hide.\n");
    tables.put(
        "far-dates",
        "response_id,date,text\nr1,+999999999-12-31,They hide.\nr2,-5000-02-30,They hide.\nr3,9999-99-99T99:99:99Z,They hide.\n");
    tables.put(
        "numbers",
        "response_id,score,text\nr1,1e999999999,They hide.\nr2,-0,They hide.\nr3,NaN,They hide.\n"
            + "r4,"
            + "9".repeat(50_000)
            + ",They hide.\n");
    tables.put(
        "formulas",
        head + "\"=HYPERLINK(\"\"http://x.invalid\"\")\",\"=cmd|'/C calc'!A0\"\n@r,+1+1\n");
    tables.put(
        "prompts",
        "response_id,prompt_id,text\nr1,nowhere,They hide.\nr2,../q,They hide.\nr3,"
            + EVIL
            + ",They hide.\n");
    tables.put("proto", "response_id,__proto__,constructor,text\nr1,a,b,They hide.\n");
    tables.put(
        "many-groups",
        "response_id,text" + groups() + "\nr1,They hide." + ",v".repeat(2_000) + "\n");
    tables.put("commas", ",".repeat(900_000));
    tables.put("newlines", "\n".repeat(900_000));
    tables.put("spaces", " ".repeat(900_000));
    tables.put("long-header", "x".repeat(900_000) + ",text\na,They hide.\n");
    tables.put("sep", "sep=;\n" + head.replace(',', ';') + "r1;They hide.\n");
    tables.put("comment", "# made by\n" + head + "r1,They hide.\n");
    tables.forEach(
        (name, text) -> {
          response("tables", name + ".csv", text);
          of(Use.STUDY, "tables", name + "-s.csv", text);
          of(Use.REGISTER, "tables", name + "-r.csv", text);
        });
    response("tables", "a.tsv", "response_id\ttext\nr1\t\"They hide\nr2\tThey hide.\n");
    for (Use use : List.of(Use.RESPONSE, Use.STUDY, Use.REGISTER)) {
      String mark = use == Use.RESPONSE ? "" : use == Use.STUDY ? "-s" : "-r";
      add(
          "bombs",
          use,
          "rows" + mark + ".csv",
          false,
          long_(head, "r,a\n", use == Use.STUDY ? 300_000 : 3_000_000, ""));
      add(
          "bombs",
          use,
          "cell" + mark + ".csv",
          false,
          long_(head + "r1,\"", "They hide so. ", 6_500_000, "\"\nr2,They hide.\n"));
      add(
          "bombs",
          use,
          "columns" + mark + ".csv",
          false,
          long_("response_id,text", ",a", 30_000_000, "\n"));
      add("bombs", use, "lines" + mark + ".csv", false, long_(head, "\n", 90_000_000, ""));
      add(
          "bombs",
          use,
          "unclosed" + mark + ".csv",
          false,
          long_(head + "r1,\"", "a\n", 45_000_000, ""));
      add(
          "bombs",
          use,
          "groups" + mark + ".csv",
          false,
          long_("response_id,text,g\nr1,a,", "They hide so. ", 1_300_000, "\nr2,They hide.,x\n"));
    }
    add(
        "bombs",
        Use.STUDY,
        "bomb.csv.gz",
        false,
        packed(head + "r1,", "They hide so. ", 300_000_000L));
    add("bombs", Use.STUDY, "rows.csv.gz", false, packed(head, "r1,a\n", 200_000L));
    add(
        "cut",
        Use.STUDY,
        "cut.csv.gz",
        true,
        p -> Files.write(p, Arrays.copyOf(gzip(utf8(head + "r1,They hide.\n".repeat(50))), 60)));
    add("noise", Use.STUDY, "noise.csv.gz", true, p -> Files.write(p, noise(5_000)));
    add("bombs", Use.STUDY, "gz-in-gz.csv.gz", true, p -> Files.write(p, gzip(gzip(utf8(head)))));
  }

  private static String groups() {
    StringBuilder out = new StringBuilder();
    for (int i = 0; i < 2_000; i++) {
      out.append(",g").append(i);
    }
    return out.toString();
  }

  private static byte[] gzip(byte[] bytes) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (OutputStream packed = new GZIPOutputStream(out)) {
      packed.write(bytes);
    }
    return out.toByteArray();
  }

  private static Maker packed(String before, String one, long times) {
    return file -> {
      try (OutputStream out = new GZIPOutputStream(Files.newOutputStream(file))) {
        out.write(utf8(before));
        byte[] many = utf8(one.repeat(1 << 13));
        for (long left = times; left > 0; left -= 1 << 13) {
          out.write(many);
        }
      }
    };
  }

  private static byte[] workbook(String sheet, String more, String... parts) throws IOException {
    List<Object> all = new ArrayList<>();
    all.addAll(
        List.of(
            "[Content_Types].xml",
            "<Types xmlns=\"http://schemas.openxmlformats.org/package/2006/content-types\"><Override PartName=\"/xl/workbook.xml\" ContentType=\"application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml\"/></Types>",
            "_rels/.rels",
            "<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\"><Relationship Id=\"r1\" Type=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument\" Target=\"xl/workbook.xml\"/></Relationships>",
            "xl/_rels/workbook.xml.rels",
            "<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\"><Relationship Id=\"r1\" Type=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet\" Target=\"worksheets/sheet1.xml\"/>"
                + more
                + "</Relationships>",
            "xl/workbook.xml",
            "<workbook xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\" xmlns:r=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships\"><sheets><sheet name=\"a\" sheetId=\"1\" r:id=\"r1\"/></sheets></workbook>"));
    all.addAll(List.of(parts));
    all.addAll(
        List.of(
            "xl/worksheets/sheet1.xml",
            "<worksheet xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\"><sheetData><row r=\"1\"><c r=\"A1\" t=\"str\"><v>response_id</v></c><c r=\"B1\" t=\"str\"><v>text</v></c></row>"
                + sheet
                + "</sheetData></worksheet>"));
    return zip(all.toArray());
  }

  private void workbooks() throws IOException {
    String row =
        "<row r=\"2\"><c r=\"A2\" t=\"str\"><v>x1</v></c><c r=\"B2\" t=\"str\"><v>"
            + ANSWER
            + "</v></c></row>";
    Map<String, String> sheets = new LinkedHashMap<>();
    sheets.put("good", row);
    sheets.put(
        "formula",
        "<row r=\"2\"><c r=\"A2\" t=\"str\"><v>x1</v></c><c r=\"B2\"><f>HYPERLINK(\"http://x.invalid\")</f></c></row>"
            + row.replace("2", "3"));
    sheets.put(
        "formula-shared",
        "<row r=\"2\"><c r=\"A2\" t=\"str\"><f t=\"shared\" ref=\"A2:XFD1048576\" si=\"0\">A1</f><v>x</v></c><c r=\"B2\" t=\"str\"><f t=\"shared\" si=\"99999\"/><v>They hide.</v></c></row>");
    sheets.put(
        "formula-array",
        "<row r=\"2\"><c r=\"A2\" t=\"str\"><f t=\"array\" ref=\"ZZZZ99999999\">x</f><v>x</v></c><c r=\"B2\" t=\"str\"><v>They hide.</v></c></row>");
    sheets.put(
        "shared-far",
        "<row r=\"2\"><c r=\"A2\" t=\"s\"><v>99999</v></c><c r=\"B2\" t=\"s\"><v>-1</v></c></row>"
            + row.replace("2", "3"));
    sheets.put(
        "shared-word",
        "<row r=\"2\"><c r=\"A2\" t=\"s\"><v>abc</v></c></row>" + row.replace("2", "3"));
    sheets.put(
        "type",
        "<row r=\"2\"><c r=\"A2\" t=\"klingon\"><v>1</v></c></row>" + row.replace("2", "3"));
    sheets.put(
        "error",
        "<row r=\"2\"><c r=\"A2\" t=\"e\"><v>#REF!</v></c><c r=\"B2\" t=\"b\"><v>7</v></c></row>"
            + row.replace("2", "3"));
    sheets.put(
        "number-word",
        "<row r=\"2\"><c r=\"A2\"><v>abc</v></c><c r=\"B2\" t=\"str\"><v>They hide.</v></c></row>");
    sheets.put(
        "number-nan",
        "<row r=\"2\"><c r=\"A2\"><v>NaN</v></c><c r=\"B2\"><v>Infinity</v></c></row>"
            + row.replace("2", "3"));
    sheets.put(
        "number-small",
        "<row r=\"2\"><c r=\"A2\"><v>1E-999999999</v></c><c r=\"B2\" t=\"str\"><v>They hide.</v></c></row>");
    sheets.put(
        "number-exponent",
        "<row r=\"2\"><c r=\"A2\"><v>1E99999999999999</v></c><c r=\"B2\" t=\"str\"><v>They hide.</v></c></row>");
    sheets.put(
        "date",
        "<row r=\"2\"><c r=\"A2\" t=\"d\"><v>+999999999-99-99</v></c><c r=\"B2\" t=\"str\"><v>They hide.</v></c></row>");
    sheets.put(
        "date-far",
        "<row r=\"2\"><c r=\"A2\" s=\"1\"><v>99999999999</v></c><c r=\"B2\" s=\"1\"><v>-5</v></c></row>"
            + row.replace("2", "3"));
    sheets.put(
        "style-far",
        "<row r=\"2\"><c r=\"A2\" s=\"99999999\"><v>1</v></c><c r=\"B2\" t=\"str\"><v>They hide.</v></c></row>");
    sheets.put("row-far", row.replace("r=\"2\"", "r=\"2147483647\""));
    sheets.put("row-negative", row.replace("r=\"2\"", "r=\"-2\""));
    sheets.put("row-word", row.replace("r=\"2\"", "r=\"x\""));
    sheets.put("cell-word", row.replace("A2", "").replace("B2", "22"));
    sheets.put("cell-same", row.replace("B2", "A2"));
    sheets.put("cell-back", row.replace("A2", "C2"));
    sheets.put("cell-low", row.replace("A2", "a2").replace("B2", "$B$2"));
    sheets.put(
        "inline",
        "<row r=\"2\"><c r=\"A2\" t=\"inlineStr\"><is><t>x</t></is></c><c r=\"B2\" t=\"inlineStr\"><is>"
            + "<r><t>They </t></r>".repeat(5_000)
            + "</is></c></row>");
    sheets.put(
        "escapes",
        "<row r=\"2\"><c r=\"A2\" t=\"str\"><v>x_x0000_x001B_</v></c><c r=\"B2\" t=\"str\"><v>They_x0000_ _xD800_ _xFFFF_ hide_x000D_.</v></c></row>");
    sheets.put("nested", "<row r=\"2\">".repeat(250) + row);
    sheets.put(
        "empty-rows",
        "<row/>".repeat(60_000)
            + row.replace("r=\"2\"", "r=\"60002\"")
                .replace("A2", "A60002")
                .replace("B2", "B60002"));
    sheets.put("empty-cells", "<row r=\"2\">" + "<c/>".repeat(20_000) + "</row>");
    sheets.put("no-end", row + "<row r=\"3\"><c r=\"A3\" t=\"str\"><v>x");
    sheets.put("evil", row.replace("x1", "&lt;script&gt;alert('x')&lt;/script&gt;"));
    for (Map.Entry<String, String> sheet : sheets.entrySet()) {
      response("workbooks", "x-" + sheet.getKey() + ".xlsx", workbook(sheet.getValue(), ""));
    }
    String styles =
        "<styleSheet xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\"><numFmts><numFmt numFmtId=\"164\" formatCode=\"yyyy"
            + "[".repeat(50_000)
            + "\"/></numFmts><cellXfs><xf numFmtId=\"0\"/><xf numFmtId=\"164\"/></cellXfs></styleSheet>";
    String styled =
        "<Relationship Id=\"r2\" Type=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships/styles\" Target=\"styles.xml\"/>";
    response(
        "workbooks",
        "format.xlsx",
        workbook(
            "<row r=\"2\"><c r=\"A2\" s=\"1\"><v>99999999999</v></c><c r=\"B2\" t=\"str\"><v>They hide.</v></c></row>",
            styled,
            "xl/styles.xml",
            styles));
    response(
        "workbooks",
        "external.xlsx",
        workbook(
            row,
            "<Relationship Id=\"r3\" Type=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships/externalLink\" TargetMode=\"External\" Target=\"http://127.0.0.1:9/x.xlsx\"/>"));
    response("workbooks", "outside.xlsx", workbook(row, "").clone());
    response(
        "workbooks",
        "no-sheet.xlsx",
        zip("xl/workbook.xml", "<workbook/>", "[Content_Types].xml", "<Types/>"));
    response("workbooks", "macro.xlsx", workbook(row, "", "xl/vbaProject.bin", "x"));
    response(
        "workbooks",
        "twice.xlsx",
        anyZip("xl/workbook.xml", "<workbook/>", "xl/workbook.xml", "<workbook/>"));
    response(
        "workbooks",
        "shared-missing.xlsx",
        workbook(
            "<row r=\"2\"><c r=\"A2\" t=\"s\"><v>0</v></c><c r=\"B2\" t=\"s\"><v>1</v></c></row>",
            "<Relationship Id=\"r4\" Type=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships/sharedStrings\" Target=\"nowhere.xml\"/>"));
    response(
        "workbooks",
        "locked.xlsx",
        latin("\u00d0\u00cf\u0011\u00e0\u00a1\u00b1\u001a\u00e1" + "EncryptedPackage".repeat(20)));
    add(
        "bombs",
        Use.RESPONSE,
        "bomb.xlsx",
        false,
        packedBomb(
            "xl/worksheets/sheet1.xml",
            "<worksheet><sheetData>",
            "<row><c><v>1</v></c></row>",
            8L << 20));
    add(
        "bombs",
        Use.RESPONSE,
        "bomb-other.xlsx",
        false,
        packedBomb("xl/media/picture.png", "x", "0".repeat(64), 8L << 20));
    add(
        "bombs",
        Use.RESPONSE,
        "strings.xlsx",
        false,
        packedBomb("xl/sharedStrings.xml", "<sst>", "<si><t>a</t></si>", 5L << 20));
    add("bombs", Use.RESPONSE, "parts.xlsx", false, manyParts("xl/workbook.xml", "<workbook/>"));
  }

  private void zips() throws IOException {
    byte[] answer = utf8(ANSWER);
    byte[] inner = anyZip("b1.txt", answer);
    response("zips", "in-zip.zip", anyZip("inner.zip", inner, "b2.txt", answer));
    response("zips", "deep.zip", deepZip());
    response(
        "zips", "twice.zip", anyZip("b3.txt", answer, "b3.txt", utf8("Others."), "b3.txt", answer));
    response("zips", "case.zip", anyZip("B4.txt", answer, "b4.TXT", answer, "b4.txt", answer));
    response(
        "zips",
        "up.zip",
        anyZip(
            "../evil.txt",
            answer,
            "a/../../evil.txt",
            answer,
            "..\\evil.txt",
            answer,
            "b5.txt",
            answer));
    response(
        "zips",
        "absolute.zip",
        anyZip(
            "/evil.txt",
            answer,
            "C:\\evil.txt",
            answer,
            "\\\\host\\evil.txt",
            answer,
            "b6.txt",
            answer));
    response(
        "zips",
        "odd-names.zip",
        anyZip(
            "",
            answer,
            "/",
            answer,
            ".",
            answer,
            "..",
            answer,
            "a//b.txt",
            answer,
            "b7.txt/",
            answer,
            "\u202ex.txt",
            answer,
            "a\nb.txt",
            answer,
            "a\u001b[31m.txt",
            answer,
            EVIL + ".txt",
            answer));
    response(
        "zips",
        "long-names.zip",
        anyZip("x".repeat(60_000) + ".txt", answer, "d/".repeat(20_000) + "y.txt", answer));
    response("zips", "folders.zip", anyZip("a/", "", "b/", "", "c/d/e/", ""));
    response("zips", "nothing.zip", anyZip());
    response(
        "zips",
        "beside.zip",
        anyZip(
            "__MACOSX/._b.txt",
            answer,
            "~$b.docx",
            answer,
            "Thumbs.db",
            answer,
            ".hidden.txt",
            answer));
    response(
        "zips",
        "locked.zip",
        patched(
            patched(anyZip("b8.txt", answer), "PK\u0003\u0004", 6, "01"),
            "PK\u0001\u0002",
            8,
            "01"));
    response(
        "zips",
        "strong.zip",
        patched(
            patched(anyZip("b9.txt", answer), "PK\u0003\u0004", 6, "4100"),
            "PK\u0001\u0002",
            8,
            "4100"));
    response(
        "zips",
        "method.zip",
        patched(
            patched(anyZip("b10.txt", answer), "PK\u0003\u0004", 8, "63"),
            "PK\u0001\u0002",
            10,
            "63"));
    response(
        "zips", "sum.zip", patched(anyZip("b11.txt", answer), "PK\u0001\u0002", 16, "01020304"));
    response(
        "zips",
        "size.zip",
        patched(anyZip("b12.txt", answer), "PK\u0001\u0002", 20, "ffffff7fffffff7f"));
    response(
        "zips",
        "small-size.zip",
        patched(anyZip("b13.txt", answer), "PK\u0001\u0002", 24, "01000000"));
    response(
        "zips", "offset.zip", patched(anyZip("b14.txt", answer), "PK\u0001\u0002", 42, "ffffff7f"));
    response(
        "zips",
        "overlap.zip",
        patched(
            anyZip("b15.txt", answer, "b16.txt", answer, "b17.txt", answer),
            "PK\u0001\u0002",
            42,
            "00000000"));
    response(
        "zips", "count.zip", patched(anyZip("b18.txt", answer), "PK\u0005\u0006", 8, "ffffffff"));
    response(
        "zips",
        "directory.zip",
        patched(anyZip("b19.txt", answer), "PK\u0005\u0006", 12, "ffffff7fffffff7f"));
    response(
        "zips", "before.zip", concat(utf8("#!/bin/sh\n".repeat(500)), anyZip("b20.txt", answer)));
    response("zips", "after.zip", concat(anyZip("b21.txt", answer), new byte[100_000]));
    response("zips", "two.zip", concat(anyZip("b22.txt", answer), anyZip("b23.txt", answer)));
    response(
        "zips", "split.zip", patched(anyZip("b24.txt", answer), "PK\u0005\u0006", 4, "09090909"));
    response(
        "zips", "time.zip", patched(anyZip("b25.txt", answer), "PK\u0001\u0002", 12, "ffffffff"));
    response("zips", "links.zip", linkZip());
    response(
        "zips",
        "mixed.zip",
        anyZip(
            "m1.docx",
            noise(500),
            "m2.pdf",
            latin("%PDF-1.4"),
            "m3.xlsx",
            noise(300),
            "m4.txt",
            answer,
            "m5.exe",
            noise(100),
            "m6.csv",
            utf8("response_id,text\nq1,They hide.\n")));
    add(
        "bombs",
        Use.RESPONSE,
        "bomb.zip",
        false,
        packedBomb("b.txt", "", "They hide so. ", 40L << 20));
    add("bombs", Use.RESPONSE, "bombs.zip", false, file -> manyTexts(file, 30, 160));
    add("bombs", Use.RESPONSE, "near-bombs.zip", false, file -> manyTexts(file, 60, 17));
    add("bombs", Use.RESPONSE, "entries.zip", false, manyParts("b.txt", ANSWER));
    add("bombs", Use.RESPONSE, "entries-19000.zip", false, HostileCases::nearlyManyEntries);
  }

  private static byte[] concat(byte[] one, byte[] other) {
    byte[] both = Arrays.copyOf(one, one.length + other.length);
    System.arraycopy(other, 0, both, one.length, other.length);
    return both;
  }

  private static byte[] deepZip() throws IOException {
    byte[] at = anyZip("x.txt", ANSWER);
    for (int i = 0; i < 40; i++) {
      at = anyZip("z" + i + ".zip", at);
    }
    return at;
  }

  private static byte[] linkZip() throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (ZipArchiveOutputStream zip = new ZipArchiveOutputStream(out)) {
      ZipArchiveEntry link = new ZipArchiveEntry("link.txt");
      link.setUnixMode(0120777);
      zip.putArchiveEntry(link);
      zip.write(utf8("/etc/hostname"));
      zip.closeArchiveEntry();
    }
    return out.toByteArray();
  }

  private static void manyTexts(Path file, int count, int pieces) throws IOException {
    try (ZipArchiveOutputStream zip = new ZipArchiveOutputStream(file.toFile())) {
      byte[] many = utf8("They hide so. ".repeat(1 << 13));
      for (int i = 0; i < count; i++) {
        zip.putArchiveEntry(new ZipArchiveEntry("b" + i + ".txt"));
        for (int j = 0; j < pieces; j++) {
          zip.write(many);
        }
        zip.closeArchiveEntry();
      }
    }
  }

  private static void nearlyManyEntries(Path file) throws IOException {
    try (ZipArchiveOutputStream zip = new ZipArchiveOutputStream(file.toFile())) {
      for (int i = 0; i < 19_000; i++) {
        zip.putArchiveEntry(new ZipArchiveEntry("b" + i + ".rtf"));
        zip.closeArchiveEntry();
      }
    }
  }

  private void lines() {
    String good = "{\"response_id\":\"l1\",\"text\":\"They hide.\"}\n";
    Map<String, String> files = new LinkedHashMap<>();
    files.put("array", "[" + good + "]");
    files.put("deep", "[".repeat(100_000) + "\n" + good);
    files.put("deep-object", "{\"a\":".repeat(100_000) + "\n" + good);
    files.put(
        "types",
        "{\"response_id\":7,\"text\":\"a\"}\n{\"response_id\":null,\"text\":\"a\"}\n{\"response_id\":\"a\",\"text\":7}\n{\"response_id\":{},\"text\":[]}\n"
            + good);
    files.put(
        "twice",
        "{\"response_id\":\"a\",\"response_id\":\"b\",\"text\":\"x\",\"text\":\"y\"}\n" + good);
    files.put("half", "{\"response_id\":\"a\",\"text\":\"They hide\n" + good);
    files.put(
        "surrogates",
        "{\"response_id\":\"\\ud800\",\"text\":\"They \\udc00 hide \\u0000 so\"}\n" + good);
    files.put(
        "number",
        "{\"response_id\":\"a\",\"n\":1e999999999,\"m\":"
            + "9".repeat(50_000)
            + ",\"text\":\"They hide.\"}\n"
            + good);
    files.put(
        "name",
        "{\""
            + "x".repeat(60_000)
            + "\":1,\"response_id\":\"a\",\"text\":\"They hide.\"}\n"
            + good);
    files.put(
        "proto",
        "{\"__proto__\":{\"a\":1},\"response_id\":\"a\",\"text\":\"They hide.\"}\n" + good);
    files.put("fields", "{\"response_id\":\"a\",\"text\":\"x\"" + fields() + "}\n" + good);
    files.put("blank", "\n \n\t\n" + good);
    files.put("two-in-line", good.strip() + good);
    files.put("bom", "\ufeff" + good);
    files.put("comments", "// a\n/* b */\n" + good);
    files.put("words", "null\ntrue\n7\n\"a\"\nNaN\n" + good);
    files.forEach(
        (name, text) -> {
          of(Use.STUDY, "lines", name + ".jsonl", text);
          of(Use.RESULTS, "lines", name + "-r.jsonl", text);
        });
    add(
        "bombs",
        Use.STUDY,
        "long.jsonl",
        false,
        long_("{\"response_id\":\"a\",\"text\":\"", "They hide so. ", 6_500_000, "\"}\n" + good));
    add("bombs", Use.STUDY, "deep.jsonl", false, long_("", "[", 90_000_000, "\n" + good));
    add(
        "bombs",
        Use.STUDY,
        "fields.jsonl",
        false,
        long_("{", "\"a\":1,", 15_000_000, "\"b\":2}\n" + good));
    add("bombs", Use.STUDY, "bad.jsonl", false, long_("", "x\n", 2_000_000, good));
    add(
        "bombs",
        Use.RESULTS,
        "long-r.jsonl",
        false,
        long_("{\"responseId\":\"", "a", 90_000_000, "\"}\n"));
    add("bombs", Use.RESULTS, "bad-r.jsonl", false, long_("", "{}\n", 2_000_000, ""));
  }

  private static String fields() {
    StringBuilder out = new StringBuilder();
    for (int i = 0; i < 20_000; i++) {
      out.append(",\"f").append(i).append("\":").append(i);
    }
    return out.toString();
  }

  private void parquet() throws IOException {
    add("noise", Use.STUDY, "noise.parquet", true, p -> Files.write(p, noise(3_000)));
    add("parquet", Use.STUDY, "marks.parquet", true, p -> Files.write(p, latin("PAR1PAR1")));
    add(
        "parquet",
        Use.STUDY,
        "length.parquet",
        true,
        p -> Files.write(p, latin("PAR1" + "x".repeat(50) + "\u00ff\u00ff\u00ff\u007fPAR1")));
    add(
        "parquet",
        Use.STUDY,
        "negative.parquet",
        true,
        p -> Files.write(p, latin("PAR1" + "x".repeat(50) + "\u00ff\u00ff\u00ff\u00ffPAR1")));
    add(
        "parquet",
        Use.STUDY,
        "locked.parquet",
        true,
        p -> Files.write(p, latin("PARE" + "x".repeat(50) + "0\0\0\0PARE")));
    Optional<TypedTables> tables = TablesJar.open();
    if (tables.isEmpty()) {
      return;
    }
    byte[] good = table(tables.get(), ANSWER, 5);
    add("parquet", Use.STUDY, "good.parquet", true, p -> Files.write(p, good));
    for (int tenth = 1; tenth < 10; tenth++) {
      byte[] cut = Arrays.copyOf(good, good.length * tenth / 10);
      byte[] ended = concat(cut, Arrays.copyOfRange(good, good.length - 8, good.length));
      add("cut", Use.STUDY, "cut" + tenth + ".parquet", tenth == 5, p -> Files.write(p, cut));
      add("cut", Use.STUDY, "ended" + tenth + ".parquet", tenth == 5, p -> Files.write(p, ended));
    }
    Random random = new Random(7);
    for (int i = 0; i < 60; i++) {
      byte[] changed = good.clone();
      for (int j = 0; j <= i % 4; j++) {
        changed[4 + random.nextInt(changed.length - 8)] = (byte) random.nextInt(256);
      }
      add("parquet", Use.STUDY, "changed" + i + ".parquet", i < 10, p -> Files.write(p, changed));
    }
    // Numbers of the footer are of a few bytes each; the largest that stand in their place.
    for (int at = good.length - 9; at > Math.max(5, good.length - 260); at -= 4) {
      byte[] changed = good.clone();
      Arrays.fill(changed, at, at + 1, (byte) 0xff);
      add("parquet", Use.STUDY, "footer" + at + ".parquet", false, p -> Files.write(p, changed));
    }
    add(
        "bombs",
        Use.STUDY,
        "long.parquet",
        false,
        p -> Files.write(p, table(tables.get(), "They hide so. ".repeat(3_000_000), 2)));
    add(
        "bombs",
        Use.STUDY,
        "rows.parquet",
        false,
        p -> Files.write(p, table(tables.get(), "a", 200_000)));
  }

  private static byte[] table(TypedTables tables, String text, int rows) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (TypedTables.Sink sink =
        tables.write(
            out,
            List.of(
                new TypedTables.Column("response_id", TypedTables.CellType.TEXT),
                new TypedTables.Column("text", TypedTables.CellType.TEXT)))) {
      for (int i = 0; i < rows; i++) {
        sink.add(List.of("p" + i, text));
      }
    }
    return out.toByteArray();
  }

  // What is no response

  private void prompts() throws IOException {
    Map<String, String> yaml = new LinkedHashMap<>();
    String parts = "parts:\n  - label: a\n    text: Explain why the pipkins hide.\n";
    yaml.put(
        "aliases",
        "a: &a [x,x,x,x,x,x,x,x,x]\nb: &b [*a,*a,*a,*a,*a,*a,*a,*a]\nc: &c [*b,*b,*b,*b,*b,*b,*b,*b]\nd: &d [*c,*c,*c,*c,*c,*c,*c,*c]\ne: &e [*d,*d,*d,*d,*d,*d,*d,*d]\nf: [*e,*e,*e,*e,*e,*e,*e]\n"
            + parts);
    yaml.put("alias-itself", "a: &a [*a]\n" + parts);
    yaml.put("merge", "a: &a {x: 1}\nb: {<<: *a, <<: *a}\n" + parts);
    yaml.put(
        "tags",
        "a: !!java.net.URL [\"http://127.0.0.1:9/x\"]\nb: !!javax.script.ScriptEngineManager []\n"
            + parts);
    yaml.put("deep", "[".repeat(20_000) + "\n");
    yaml.put("deep-lines", deepYaml());
    yaml.put("keys", "? [a, b]\n: c\n? {x: y}\n: z\n" + parts);
    yaml.put("key-long", "x".repeat(60_000) + ": 1\n" + parts);
    yaml.put("twice", parts + parts);
    yaml.put("documents", parts + "---\n" + parts + "...\n%YAML 9.9\n---\n");
    yaml.put("tabs", "parts:\n\t- label: a\n");
    yaml.put(
        "types",
        "parts:\n  - label: 7\n    text: [a, b]\n  - label: {a: b}\n    text: null\n  - 5\n  - null\n");
    yaml.put("labels", "parts:\n" + "  - label: a\n    text: Explain why.\n".repeat(500));
    yaml.put("many-parts", manyParts());
    yaml.put(
        "count",
        "parts:\n  - label: a\n    text: Describe.\n    demands:\n      - kind: describe\n        count: 99999999999999999999\n");
    yaml.put(
        "count-float",
        "parts:\n  - label: a\n    text: Describe.\n    demands:\n      - kind: describe\n        count: 1e999\n");
    yaml.put(
        "count-negative",
        "parts:\n  - label: a\n    text: Describe.\n    demands:\n      - kind: describe\n        count: -1\n");
    yaml.put(
        "kind",
        "parts:\n  - label: a\n    text: Describe.\n    demands:\n      - kind: " + EVIL + "\n");
    yaml.put(
        "points",
        "parts:\n  - label: a\n    text: Describe.\n    demands:\n      - kind: describe\n        points:\n"
            + "          - [a, b]\n".repeat(5_000));
    yaml.put(
        "point",
        "parts:\n  - label: a\n    text: Describe.\n    demands:\n      - kind: describe\n        points:\n          - ["
            + "deep water, ".repeat(5_000)
            + "x]\n");
    yaml.put("id", "id: ../../evil\n" + parts);
    yaml.put("id-evil", "id: \"" + EVIL + "\\e[31m\\u202e\"\ntitle: \"" + EVIL + "\"\n" + parts);
    yaml.put("id-long", "id: " + "x".repeat(60_000) + "\n" + parts);
    yaml.put("id-dots", "id: ..\n" + parts);
    yaml.put(
        "stimulus",
        "stimulus: |\n" + "  A pool lies by the sea. It is deep.\n".repeat(10_000) + parts);
    yaml.put("escapes", "title: \"\\0\\e\\ud800\\x7f\"\n" + parts);
    yaml.put("zero", "title: a\0b\n" + parts);
    yaml.put("anchors", "&a ".repeat(20_000) + "x\n");
    yaml.put("comments", "#\n".repeat(200_000) + parts);
    yaml.put("quotes", "title: \"" + "\\\"".repeat(100_000) + "\n" + parts);
    yaml.put("dashes", "- ".repeat(20_000) + "\n");
    yaml.put("questions", "? ".repeat(20_000) + "\n");
    yaml.put("braces", "{".repeat(20_000) + "\n");
    yaml.put("json", "{\"parts\":[{\"label\":\"a\",\"text\":\"Explain why.\"}]}");
    yaml.put("empty-list", "parts: []\n");
    yaml.put("scalar", "just words\n");
    yaml.put("bom", "\ufeff" + parts);
    yaml.forEach((name, text) -> of(Use.PROMPT, "prompts", name + ".yaml", text));
    Map<String, String> plain = new LinkedHashMap<>();
    plain.put("parts", "(a) Explain why.\n".repeat(3_000));
    plain.put("deep-labels", "(a) (i) (A) (1) (a) (i) Explain why.\n".repeat(500));
    plain.put("headings", "#".repeat(50_000) + " Explain why.\n");
    plain.put("quotes", ">".repeat(50_000) + " Explain why.\n");
    plain.put("stars", "*".repeat(100_000) + "\n(a) Explain why.\n");
    plain.put("bullets", "a* ".repeat(20_000));
    plain.put("questions", "Why? ".repeat(20_000));
    plain.put("verbs", "Describe and explain and compare and justify ".repeat(3_000) + ".");
    plain.put(
        "one-sentence",
        "Explain why " + "the pool that is by the sea and ".repeat(4_000) + "it hides.");
    plain.put("numbers", "1.1.1.1.1.1.".repeat(10_000) + " Explain why.");
    plain.put("roman", "(" + "ivxlcdm".repeat(3_000) + ") Explain why.");
    plain.put("tables", "| a | b |\n".repeat(20_000));
    plain.put("count", "Describe 99999999999999999999999 ways in which it hides. Give -1 reasons.");
    plain.put("html", EVIL + "<p>(a) Explain why</p>");
    plain.put("nothing", "12 34 ... ---");
    plain.forEach((name, text) -> of(Use.PROMPT, "prompts", name + ".md", text));
    for (Map.Entry<String, byte[]> file : good().entrySet()) {
      if (List.of("a.docx", "a.odt", "a.rtf", "a.pdf", "a.html", "a.xlsx", "a.zip")
          .contains(file.getKey())) {
        byte[] bytes = file.getValue();
        add("prompts", Use.PROMPT, "as-prompt-" + file.getKey(), true, p -> Files.write(p, bytes));
        add(
            "prompts",
            Use.PROMPT,
            "wrong-" + file.getKey() + ".yaml",
            true,
            p -> Files.write(p, bytes));
      }
    }
    add(
        "bombs",
        Use.PROMPT,
        "long.yaml",
        false,
        long_(parts + "stimulus: |\n", "  They hide so.\n", 6_000_000, ""));
    add(
        "bombs",
        Use.PROMPT,
        "list.yaml",
        false,
        long_("parts:\n", "- {label: a, text: Why}\n", 4_000_000, ""));
    add("bombs", Use.PROMPT, "scalars.yaml", false, long_("a: [", "x,", 45_000_000, "]\n"));
    add("bombs", Use.PROMPT, "open.yaml", false, long_("", "[", 90_000_000, ""));
    add(
        "bombs",
        Use.PROMPT,
        "parts.md",
        false,
        long_("", "(a) Explain why they hide.\n", 3_000_000, ""));
  }

  private static String deepYaml() {
    StringBuilder out = new StringBuilder();
    for (int i = 0; i < 1_500; i++) {
      out.append(" ".repeat(i)).append("a:\n");
    }
    return out.toString();
  }

  private static String manyParts() {
    StringBuilder out = new StringBuilder("parts:\n");
    for (int i = 0; i < 3_000; i++) {
      out.append("  - label: p").append(i).append("\n    text: Explain why it hides.\n");
    }
    return out.toString();
  }

  private void corrections() {
    String head = "{\"format\":\"everypart-corrections\",\"version\":1,\"responses\":[";
    Map<String, String> files = new LinkedHashMap<>();
    String one =
        "{\"promptId\":\"q\",\"responseId\":\"m0\",\"demands\":[{\"part\":\"a\",\"demand\":1,\"verdict\":\"missing\",\"overruled\":true}]}";
    files.put("good", head + one + "]}");
    files.put("deep", head + "[".repeat(50_000));
    files.put("deep-object", "{\"a\":".repeat(50_000));
    files.put("number", head + one.replace("\"demand\":1", "\"demand\":1e999999999") + "]}");
    files.put(
        "digits", head + one.replace("\"demand\":1", "\"demand\":" + "9".repeat(20_000)) + "]}");
    files.put("far", head + one.replace("\"demand\":1", "\"demand\":99999999999") + "]}");
    files.put("types", head + "7,null,[],{\"demands\":7},{\"demands\":{\"a\":1}},\"x\"]}");
    files.put("verdict", head + one.replace("missing", "klingon") + "]}");
    files.put("verdict-type", head + one.replace("\"missing\"", "{}") + "]}");
    files.put(
        "evil",
        head
            + one.replace(
                "\"overruled\":true",
                "\"overruled\":true,\"comment\":\"" + EVIL.replace("'", "") + "\"")
            + "]}");
    files.put(
        "comment-long",
        head
            + one.replace("\"overruled\":true", "\"comment\":\"" + "x".repeat(900_000) + "\"")
            + "]}");
    files.put(
        "surrogate",
        head
            + one.replace("\"overruled\":true", "\"comment\":\"\\ud800\\u0000\\u001b[31m\"")
            + "]}");
    files.put("others", head + one.replace("m0", "nobody") + "]}");
    files.put("prompt", head + one.replace("\"q\"", "\"" + EVIL.replace("'", "") + "\"") + "]}");
    files.put(
        "wording",
        head.replace(
                "\"responses\"", "\"prompts\":[{\"id\":\"q\",\"wording\":\"x\"}],\"responses\"")
            + one
            + "]}");
    files.put("many", head + (one + ",").repeat(4_000) + one + "]}");
    files.put("two", head + one + "]}" + head + one + "]}");
    files.put("version", head.replace("\"version\":1", "\"version\":99999") + one + "]}");
    files.put("array", "[]");
    files.put("word", "null");
    files.put("comments", "// x\n" + head + one + "]}");
    files.put("wide", "\ufeff" + head + one + "]}");
    files.put("page", "<!DOCTYPE html><script>" + head + one + "]}</script>");
    files.forEach((name, text) -> of(Use.CORRECTIONS, "corrections", name + ".json", text));
    add("bombs", Use.CORRECTIONS, "long.json", false, long_(head, one + ",", 700_000, one + "]}"));
    add("bombs", Use.CORRECTIONS, "nodes.json", false, long_(head, "{},", 30_000_000, "{}]}"));
    add("bombs", Use.CORRECTIONS, "text.json", false, long_(head + "\"", "a", 95_000_000, "\"]}"));
  }

  private void otherTables() {
    String head = "response_id,prompt_id,part,demand,coder,code\n";
    Map<String, String> codes = new LinkedHashMap<>();
    codes.put("demand", head + "m0,q,a,99999999999999,c1,1\nm1,q,a,-1,c1,1\nm2,q,a,1.5,c1,1\n");
    codes.put("code", head + "m0,q,a,1,c1,maybe\nm1,q,a,1,c1,1e999\nm2,q,a,1,c1,NaN\n");
    codes.put("twice", head + "m0,q,a,1,c1,1\nm0,q,a,1,c1,0\n".repeat(50));
    codes.put("coders", head + coders());
    codes.put("unknown", head + "nobody,nowhere,z,7,c1,1\n");
    codes.put(
        "evil", head + "m0,q,a,1," + EVIL + ",1\nm1,q,a,1,=1+1,1\nm2,q,a,1,\u001b[31m\u202e,1\n");
    codes.put(
        "weight",
        head.strip()
            + ",weight\nm0,q,a,1,c1,1,Infinity\nm1,q,a,1,c1,1,-1\nm2,q,a,1,c1,0,1e308\nm3,q,a,1,c1,0,1e308\n");
    codes.put("lacks", "response_id,coder\nm0,c1\n");
    codes.forEach((name, text) -> of(Use.CODES, "codes", name + ".csv", text));
    add("bombs", Use.CODES, "rows-c.csv", false, long_(head, "m0,q,a,1,c1,1\n", 3_000_000, ""));
    add(
        "bombs",
        Use.CODES,
        "cell-c.csv",
        false,
        long_(head + "m0,q,a,1,\"", "x", 90_000_000, "\",1\n"));
    Map<String, String> names = new LinkedHashMap<>();
    names.put("patterns", ".*\n(a+)+$\n[\n\\\n\\E\\Q\n*\n^\n");
    names.put("blank", "\n\n \n\t\n");
    names.put("letters", "a\ne\ni\no\nu\n");
    names.put("evil", EVIL + "\n\u202e\n\u001b[31m\n");
    names.put("many", "Oda Lin\n".repeat(50_000));
    names.put("line", "Oda ".repeat(100_000));
    names.put("zero", "Oda\0Lin\n");
    names.forEach((name, text) -> of(Use.NAMES, "names", name + ".txt", text));
    Map<String, String> plans = new LinkedHashMap<>();
    plans.put("aliases", "a: &a [x,x]\nb: [*a,*a]\n");
    plans.put("deep", "[".repeat(20_000));
    plans.put("types", "comparisons: 7\nseed: [1]\nlevel: {}\n");
    plans.put("numbers", "seed: 99999999999999999999\nlevel: 1e999\n");
    plans.put("unknown", "klingon: yes\n" + EVIL + ": 1\n");
    plans.put("tags", "a: !!java.net.URL [\"http://127.0.0.1:9/\"]\n");
    plans.forEach((name, text) -> of(Use.PLAN, "plans", name + ".yaml", text));
    add("bombs", Use.PLAN, "long.yaml", false, long_("a: [", "x,", 45_000_000, "]\n"));
  }

  private static String coders() {
    StringBuilder out = new StringBuilder();
    for (int i = 0; i < 3_000; i++) {
      out.append("m0,q,a,1,c").append(i).append(',').append(i % 2).append('\n');
    }
    return out.toString();
  }

  private void lexicons() {
    Map<String, String> files = new LinkedHashMap<>();
    files.put("aliases", "- &a [x,x]\n- [*a,*a,*a]\n");
    files.put("deep", "[".repeat(20_000));
    files.put("types", "- 7\n- null\n- [a]\n- concept: [a]\n- concept: {a: b}\n  variants: 7\n");
    files.put("keys", "- klingon: yes\n- concept: a\n  concept: b\n");
    files.put("twice", "- concept: supply\n  variants: []\n".repeat(200));
    files.put("long", "- concept: " + "x".repeat(50_000) + "\n  variants: []\n");
    files.put("words", "- concept: " + "deep water ".repeat(3_000) + "\n  variants: []\n");
    files.put("variants", "- concept: a\n  variants: [" + "deep pool, ".repeat(20_000) + "x]\n");
    files.put(
        "relates-itself",
        "- concept: a\n  variants: []\n  relates: [a, b]\n- concept: b\n  variants: []\n  relates: [a]\n");
    files.put("patterns", "- concept: \"(a+)+$\"\n  variants: [\".*\", \"[\", \"\\\\\"]\n");
    files.put("control", "- concept: \"a\\e[31m\\u202e\\0\"\n  variants: []\n");
    files.put("raw-control", "- concept: a\u0001\u001b\n");
    files.put("blank", "- concept: \"\"\n  variants: [\"\", \" \"]\n");
    files.put("signs", "- concept: \"!!!\"\n  variants: [\"...\", \"\\U0001F600\"]\n");
    files.put("tags", "- !!java.net.URL [\"http://127.0.0.1:9/\"]\n");
    files.put("map", "concept: a\n");
    files.put("json", "[{\"concept\":\"a\",\"variants\":[]}]");
    files.put("documents", "- concept: a\n---\n- concept: b\n");
    files.put("many", manyConcepts());
    files.forEach(
        (name, text) -> {
          of(Use.LEXICON, "lexicons", "concepts-" + name + ".yaml", text);
          of(
              Use.LEXICON,
              "lexicons",
              "task-verbs-" + name + ".yaml",
              text.replace("concept:", "verb:"));
          of(Use.LEXICON, "lexicons", "cues-" + name + ".yaml", text.replace("concept:", "cue:"));
        });
    add(
        "bombs",
        Use.LEXICON,
        "concepts-bomb.yaml",
        false,
        long_("", "- {concept: a, variants: []}\n", 3_000_000, ""));
    add(
        "bombs",
        Use.LEXICON,
        "concepts-scalar.yaml",
        false,
        long_("- concept: ", "x", 95_000_000, "\n"));
  }

  private static String manyConcepts() {
    StringBuilder out = new StringBuilder();
    for (int i = 0; i < 20_000; i++) {
      out.append("- concept: thing")
          .append(i)
          .append("\n  variants: [thingy")
          .append(i)
          .append("]\n");
    }
    return out.toString();
  }

  /** Tells how many there are of each family, for the record. */
  static String counted(List<Case> cases) {
    Map<String, Long> counts = new LinkedHashMap<>();
    cases.forEach(one -> counts.merge(one.family(), 1L, Long::sum));
    return Stream.concat(
            Stream.of(cases.size() + " files:"),
            counts.entrySet().stream().map(entry -> entry.getValue() + " " + entry.getKey()))
        .reduce((one, other) -> one.endsWith(":") ? one + " " + other : one + ", " + other)
        .orElse("");
  }
}
