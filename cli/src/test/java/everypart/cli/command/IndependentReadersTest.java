package everypart.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import everypart.cli.intake.document.Documents;
import java.io.IOException;
import java.io.OutputStream;
import java.math.BigInteger;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import org.apache.poi.xwpf.usermodel.XWPFAbstractNum;
import org.apache.poi.xwpf.usermodel.XWPFDocument;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openxmlformats.schemas.wordprocessingml.x2006.main.CTAbstractNum;
import org.openxmlformats.schemas.wordprocessingml.x2006.main.STNumberFormat;

/**
 * What the readers read, word by word against independent ones: LibreOffice for documents and
 * poppler's pdftotext for PDF. Left out where these are not installed; {@code .ci/run} installs
 * them.
 */
class IndependentReadersTest {
  private static final Path OFFICE = Path.of("/usr/bin/soffice");
  private static final String TEXT = "txt:Text (encoded):UTF8";
  private static final Path PDF = Path.of("/usr/bin/pdftotext");

  @TempDir
  @SuppressWarnings("NullAway.Init")
  Path folder;

  /** Starting LibreOffice takes long, so this is left to CI and to those who ask for it. */
  private static void assumeTools() {
    assumeTrue(
        System.getenv("CI") != null || Boolean.getBoolean("everypart.readers"),
        "the readers are compared with independent ones with CI set or -Deverypart.readers=true");
    assumeTrue(
        Files.isExecutable(OFFICE) && Files.isExecutable(PDF),
        "soffice and pdftotext are not installed: the readers are not compared");
  }

  private void run(String... command) throws IOException, InterruptedException {
    Process process =
        new ProcessBuilder(command)
            .redirectErrorStream(true)
            .redirectOutput(folder.resolve("log.txt").toFile())
            .start();
    assertTrue(process.waitFor(180, TimeUnit.SECONDS), "it did not end: " + command[0]);
    assertEquals(0, process.exitValue(), Files.readString(folder.resolve("log.txt")));
  }

  private void convert(String to, Path out, List<Path> files)
      throws IOException, InterruptedException {
    List<String> command =
        new ArrayList<>(
            List.of(
                OFFICE.toString(),
                "-env:UserInstallation=" + folder.resolve("profile").toUri(),
                "--headless",
                "--convert-to",
                to,
                "--outdir",
                out.toString()));
    files.forEach(file -> command.add(file.toString()));
    run(command.toArray(new String[0]));
  }

  /** Returns the words alone: signs that stand for a bullet are written in many ways. */
  private static List<String> words(String text) {
    return List.of(text.replaceAll("[\\uFEFF\\u2022\\u00B7\\uF0B7]", " ").strip().split("\\s+"));
  }

  private static String ours(Path file) throws Exception {
    return new Documents().read(file).text();
  }

  @Test
  void everyFileOfTheMixedSetGivesTheSameWords() throws Exception {
    assumeTools();
    Map<String, List<Path>> byFormat = new TreeMap<>();
    for (Path file : MixedSet.write(folder.resolve("set")).keySet()) {
      String name = file.getFileName().toString();
      byFormat
          .computeIfAbsent(name.substring(name.indexOf('.') + 1), key -> new ArrayList<>())
          .add(file);
    }
    int compared = 0;
    Path texts = folder.resolve("texts");
    List<Path> documents =
        List.of("docx", "odt", "rtf", "html").stream()
            .flatMap(format -> byFormat.getOrDefault(format, List.of()).stream())
            .toList();
    convert(TEXT, texts, documents);
    for (Path file : documents) {
      String name = file.getFileName().toString().replaceFirst("\\.\\w+$", ".txt");
      assertEquals(
          words(Files.readString(texts.resolve(name))), words(ours(file)), file.toString());
      compared++;
    }
    for (Path file : byFormat.getOrDefault("pdf", List.of())) {
      Path out = folder.resolve("pdf.txt");
      run(PDF.toString(), "-enc", "UTF-8", file.toString(), out.toString());
      assertEquals(words(Files.readString(out)), words(ours(file)), file.toString());
      compared++;
    }
    assertEquals(98, compared);
  }

  @Test
  void aDocumentWithListsAndATableGivesTheSameWordsInEveryFormat() throws Exception {
    assumeTools();
    Path docx = folder.resolve("rich.docx");
    try (XWPFDocument document = new XWPFDocument();
        OutputStream out = Files.newOutputStream(docx)) {
      document.createParagraph().createRun().setText("The tide pool, seen twice");
      CTAbstractNum levels = CTAbstractNum.Factory.newInstance();
      levels.setAbstractNumId(BigInteger.ZERO);
      var level = levels.addNewLvl();
      level.setIlvl(BigInteger.ZERO);
      level.addNewStart().setVal(BigInteger.ONE);
      level.addNewNumFmt().setVal(STNumberFormat.LOWER_LETTER);
      level.addNewLvlText().setVal("(%1)");
      var numbering = document.createNumbering();
      BigInteger number = numbering.addNum(numbering.addAbstractNum(new XWPFAbstractNum(levels)));
      for (String item : List.of("The pool is deep.", "They hide, since birds \u201chunt\u201d.")) {
        var paragraph = document.createParagraph();
        paragraph.setNumID(number);
        paragraph.createRun().setText(item);
      }
      var table = document.createTable(2, 2);
      table.getRow(0).getCell(0).setText("depth");
      table.getRow(0).getCell(1).setText("2.5");
      table.getRow(1).getCell(0).setText("caf\u00e9s");
      table.getRow(1).getCell(1).setText("none");
      document.write(out);
    }
    for (String format : List.of("odt", "rtf", "html", "pdf")) {
      convert(format, folder, List.of(docx));
    }
    Path out = folder.resolve("text");
    List<Path> named = new ArrayList<>();
    for (String format : List.of("docx", "odt", "rtf")) {
      named.add(
          Files.copy(
              folder.resolve("rich." + format), folder.resolve("rich-" + format + "." + format)));
    }
    convert(TEXT, out, named);
    for (Path file : named) {
      String name = file.getFileName().toString().replaceFirst("\\.\\w+$", ".txt");
      assertEquals(words(Files.readString(out.resolve(name))), words(ours(file)), name);
    }
    List<String> whole = words(ours(docx));
    assertTrue(whole.containsAll(List.of("(a)", "(b)", "caf\u00e9s")), whole.toString());
    run(
        PDF.toString(),
        "-enc",
        "UTF-8",
        folder.resolve("rich.pdf").toString(),
        folder.resolve("rich-pdf.txt").toString());
    assertEquals(
        words(Files.readString(folder.resolve("rich-pdf.txt"))).stream().sorted().toList(),
        words(ours(folder.resolve("rich.pdf"))).stream().sorted().toList());
    assertEquals(
        whole.stream().filter(word -> !word.matches("\\(.\\)")).toList(),
        words(ours(folder.resolve("rich.html"))).stream()
            .filter(word -> !word.matches("\\(?.[.)]"))
            .toList());
  }
}
