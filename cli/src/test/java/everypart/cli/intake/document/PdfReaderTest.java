package everypart.cli.intake.document;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A PDF is read as people read it: without what stands on every page, column by column. */
class PdfReaderTest {
  private static final Path PDFTOTEXT = Path.of("/usr/bin/pdftotext");

  private static final String LEFT_TEXT =
      "The pipkins hide under the fronds since birds hunt them by day, and they come out at night, "
          + "when no bird can see the pool and the water in it is cold and still.";
  private static final String RIGHT_TEXT =
      "The lanternweed grows where the star fell, which nobody could explain until the keeper of "
          + "the pool measured how warm the stones are under the moss in a hard winter.";

  private static final List<String> LEFT = wrapped(LEFT_TEXT);
  private static final List<String> RIGHT = wrapped(RIGHT_TEXT);

  private static List<String> wrapped(String text) {
    try {
      return PrintedPdf.wrapped(210, text);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** A line as wide as the page. */
  private static final String WIDE =
      "The keeper of the pool watched the pipkins for nine days and wrote down what each of them"
          + " did,";

  @TempDir
  @SuppressWarnings("NullAway.Init")
  Path folder;

  private static String read(PrintedPdf pdf) throws Exception {
    try (pdf) {
      return new Documents().read("a.pdf", pdf.bytes()).text();
    }
  }

  private static PrintedPdf fourPages() throws Exception {
    PrintedPdf pdf = new PrintedPdf();
    for (int page = 1; page <= 4; page++) {
      pdf.put(72, 40, 9, "Mira Holt").put(420, 40, 9, "Tide pools, set 3");
      pdf.line(72, 90, "(" + (char) ('a' + page - 1) + ") The star fell on night " + page + ".");
      pdf.put(280, 760, 9, "Page " + page + " of 4");
      if (page < 4) {
        pdf.next();
      }
    }
    return pdf;
  }

  @Test
  void headsFeetAndPageNumbersAreLeftOut() throws Exception {
    assertEquals(
        "(a) The star fell on night 1.\n(b) The star fell on night 2.\n"
            + "(c) The star fell on night 3.\n(d) The star fell on night 4.",
        read(fourPages()));
  }

  @Test
  void aPageNumberIsFoundInEachOfItsForms() throws Exception {
    for (String form : List.of("%d", "- %d -", "%d/3", "p. %d", "Page %d", "%d | Mira Holt")) {
      PrintedPdf pdf = new PrintedPdf();
      for (int page = 1; page <= 3; page++) {
        pdf.line(72, 90, "On night " + page + " a star fell.");
        pdf.put(300, 750, 10, String.format(Locale.ROOT, form, page));
        if (page < 3) {
          pdf.next();
        }
      }
      assertEquals(
          "On night 1 a star fell.\n\nOn night 2 a star fell.\n\nOn night 3 a star fell.",
          read(pdf),
          form);
    }
  }

  @Test
  void aSinglePageLosesItsNumberToo() throws Exception {
    assertEquals(
        "The star fell.",
        read(
            new PrintedPdf()
                .put(72, 20, 8, "11/29/26, 9:05 AM")
                .put(300, 20, 8, "Tide pools")
                .line(72, 90, "The star fell.")
                .put(500, 770, 8, "Page 1 of 1")));
  }

  @Test
  void labelsAtTheHeadsOfPagesStay() throws Exception {
    for (String label : List.of("Question %d", "%d.", "(%d)", "Part %d: stars", "%d")) {
      PrintedPdf pdf = new PrintedPdf();
      List<String> labels = new ArrayList<>();
      for (int page = 1; page <= 3; page++) {
        labels.add(String.format(Locale.ROOT, label, page));
        pdf.put(72, 72, 11, labels.get(page - 1));
        pdf.line(72, 110, List.of("A star fell.", "It glowed.", "It was cold.").get(page - 1));
        if (page < 3) {
          pdf.next();
        }
      }
      String text = read(pdf);
      labels.forEach(word -> assertTrue(text.contains(word + "\n"), text));
    }
  }

  @Test
  void pagesThatAreTheSameAllThroughStay() throws Exception {
    PrintedPdf pdf = new PrintedPdf();
    pdf.lines(72, 90, LEFT).lines(72, 300, RIGHT);
    pdf.next().lines(72, 90, LEFT).lines(72, 300, RIGHT);
    String once = LEFT_TEXT + "\n\n" + RIGHT_TEXT;
    assertEquals(once + "\n\n" + once, read(pdf));
    PrintedPdf short1 = new PrintedPdf().line(72, 90, "I agree.").next();
    assertEquals("I agree.\n\nI agree.", read(short1.line(72, 90, "I agree.")));
  }

  @Test
  void wordsPartedAtTheEndOfALineAreJoined() throws Exception {
    assertEquals(
        "The weed makes sugar by photosynthesis and stands at sea-level; the pipkin-house is a"
            + " well-kept place in the wood of glimfrond plants, says the long-known Anglo-Saxon."
            + " The pipkin-house and glimfrond are old.",
        read(
            new PrintedPdf()
                .lines(
                    72,
                    90,
                    List.of(
                        "The weed makes sugar by photosyn-",
                        "thesis and stands at sea-",
                        "level; the pipkin-",
                        "house is a well-",
                        "kept place in the wood of glim-",
                        "frond plants, says the long-known Anglo-",
                        "Saxon. The pipkin-house and glimfrond are old."))));
  }

  @Test
  void aDashAtTheEndOfALineStays() throws Exception {
    assertEquals(
        "The pool was very cold - so they hid.",
        read(new PrintedPdf().lines(72, 90, List.of("The pool was very cold -", "so they hid."))));
  }

  @Test
  void columnsAreReadOneAfterTheOtherInWhateverOrderTheyAreSet() throws Exception {
    String expected = WIDE + "\n\n" + LEFT_TEXT + "\n\n" + RIGHT_TEXT + "\n\nIt ends here.";
    PrintedPdf byColumn =
        new PrintedPdf()
            .put(72, 70, 11, WIDE)
            .lines(72, 100, LEFT)
            .lines(320, 100, RIGHT)
            .put(72, 200, 11, "It ends here.");
    PrintedPdf byRow = new PrintedPdf().put(72, 70, 11, WIDE);
    for (int i = 0; i < RIGHT.size(); i++) {
      byRow.line(72, 100 + 14 * i, i < LEFT.size() ? LEFT.get(i) : " ");
      byRow.line(320, 100 + 14 * i, RIGHT.get(i));
    }
    byRow.put(72, 200, 11, "It ends here.");
    PrintedPdf rightFirst =
        new PrintedPdf()
            .lines(320, 100, RIGHT)
            .lines(72, 100, LEFT)
            .put(72, 70, 11, WIDE)
            .put(72, 200, 11, "It ends here.");
    assertEquals(expected, read(byColumn));
    assertEquals(expected, read(byRow));
    assertEquals(expected, read(rightFirst));
  }

  @Test
  void threeColumnsAreReadOneAfterTheOther() throws Exception {
    PrintedPdf pdf = new PrintedPdf();
    List<String> texts = List.of(LEFT_TEXT, RIGHT_TEXT, LEFT_TEXT.replace("night", "dusk"));
    for (int i = 0; i < 9; i++) {
      for (int column = 0; column < 3; column++) {
        List<String> lines = PrintedPdf.wrapped(140, texts.get(column));
        if (i < lines.size()) {
          pdf.line(72 + 160 * column, 100 + 14 * i, lines.get(i));
        }
      }
    }
    assertEquals(String.join("\n\n", texts), read(pdf));
  }

  @Test
  void aSentenceGoesOnInTheNextColumnAndOnTheNextPage() throws Exception {
    String text = LEFT_TEXT.replace(".", ",") + " and " + RIGHT_TEXT.replace("The l", "the l");
    List<String> lines = wrapped(text);
    PrintedPdf pdf =
        new PrintedPdf()
            .lines(72, 100, lines.subList(0, 3))
            .lines(320, 100, lines.subList(3, 6))
            .next()
            .lines(72, 100, lines.subList(6, lines.size()));
    assertEquals(text, read(pdf));
  }

  @Test
  void theRowsOfATableStayRows() throws Exception {
    PrintedPdf pdf = new PrintedPdf();
    String[] names = {"night", "one", "two", "three", "four"};
    String[] counts = {"pipkins", "12", "15", "9", "11"};
    for (int i = 0; i < names.length; i++) {
      pdf.put(72, 100 + 14 * i, 11, names[i]).put(250, 100 + 14 * i, 11, counts[i]);
    }
    String text = read(pdf);
    assertTrue(text.contains("two 15"), text);
    assertTrue(text.contains("four 11"), text);
  }

  @Test
  void theNumbersOfAListStayBesideItsItems() throws Exception {
    PrintedPdf pdf = new PrintedPdf();
    for (int i = 0; i < LEFT.size(); i++) {
      pdf.put(72, 100 + 14 * i, 11, i + 1 + ".").put(110, 100 + 14 * i, 11, LEFT.get(i));
    }
    assertEquals(
        "1. " + LEFT.get(0) + "\n2. " + LEFT.get(1) + "\n3. " + LEFT.get(2) + "\n4. " + LEFT.get(3),
        read(pdf).lines().limit(4).collect(Collectors.joining("\n")));
  }

  @Test
  void aCaptionStandsApartFromTheParagraphThatItInterrupts() throws Exception {
    PrintedPdf pdf =
        new PrintedPdf()
            .lines(72, 100, LEFT.subList(0, 2))
            .put(110, 250, 9, "Figure 2. How many pipkins were seen")
            .put(110, 262, 9, "in each of the nine nights")
            .lines(72, 300, LEFT.subList(2, LEFT.size()))
            .line(72, 400, "Figure 2 shows it.");
    assertEquals(
        LEFT_TEXT
            + "\n\nFigure 2. How many pipkins were seen in each of the nine nights"
            + "\n\nFigure 2 shows it.",
        read(pdf));
  }

  /** The words of poppler's pdftotext, which knows columns and leaves heads and feet in. */
  private List<String> others(byte[] pdf) throws Exception {
    Path file = Files.write(folder.resolve("a.pdf"), pdf);
    Path out = folder.resolve("a.txt");
    Process process =
        new ProcessBuilder(PDFTOTEXT.toString(), "-enc", "UTF-8", file.toString(), out.toString())
            .redirectErrorStream(true)
            .redirectOutput(folder.resolve("log.txt").toFile())
            .start();
    assertTrue(process.waitFor(60, TimeUnit.SECONDS));
    assertEquals(0, process.exitValue());
    return words(Files.readString(out));
  }

  private static List<String> words(String text) {
    return List.of(text.strip().split("\\s+"));
  }

  @Test
  void anIndependentReaderReadsTheSameWordsInTheSameOrder() throws Exception {
    assumeTrue(Files.isExecutable(PDFTOTEXT), "pdftotext is not installed");
    byte[] columns;
    try (PrintedPdf pdf = new PrintedPdf()) {
      for (int page = 0; page < 2; page++) {
        pdf.line(72, 70, page == 0 ? WIDE : WIDE.replace("nine", "ten"));
        for (int i = 0; i < 3; i++) {
          pdf.lines(72, 100 + 90 * i, LEFT).lines(320, 100 + 90 * i, RIGHT);
        }
        if (page == 0) {
          pdf.next();
        }
      }
      columns = pdf.bytes();
    }
    assertEquals(others(columns), words(new Documents().read("a.pdf", columns).text()));
    byte[] pages;
    try (PrintedPdf pdf = fourPages()) {
      pages = pdf.bytes();
    }
    String theirs = String.join(" ", others(pages));
    assertTrue(theirs.contains("Page 4 of 4"), theirs);
    String without =
        theirs.replaceAll("Page \\d of 4|Mira Holt|Tide pools, set 3", "").replaceAll("\\s+", " ");
    String ours = String.join(" ", words(new Documents().read("a.pdf", pages).text()));
    assertEquals(without.strip(), ours);
    assertFalse(ours.contains("Page"), ours);
  }
}
