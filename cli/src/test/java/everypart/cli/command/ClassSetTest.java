package everypart.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A class set as it really arrives: one call, a row for every good file, a sentence for a bad one.
 */
class ClassSetTest {
  private static final JsonMapper JSON = new JsonMapper();
  private static final Path QUESTION = Path.of("..", "demo-data", "prompts", "lost-star.txt");
  private static final String A = "Lanternweed feeds the tollops and hides the pipkins from birds.";
  private static final String B = "The tollops will increase because nothing hunts them any more.";
  private static final String C = "One risk is a new disease, which could kill the other animals.";

  @TempDir
  @SuppressWarnings("NullAway.Init")
  Path folder;

  private Run screen(Path question, Object... rest) {
    List<Object> words = new ArrayList<>(List.of("screen", question));
    words.addAll(List.of(rest));
    words.addAll(List.of("--out", folder.resolve("out")));
    return Run.of(words.toArray());
  }

  private List<JsonNode> results() throws IOException {
    List<JsonNode> results = new ArrayList<>();
    for (String line : Files.readAllLines(folder.resolve("out/results.jsonl"))) {
      results.add(JSON.readTree(line));
    }
    return results;
  }

  private List<String> ids() throws IOException {
    return results().stream().map(one -> one.path("responseId").asText()).toList();
  }

  private Path write(String name, String text) throws IOException {
    Path file = folder.resolve(name);
    Files.createDirectories(file.getParent());
    return Files.writeString(file, text);
  }

  @Test
  void aMixedSetOf120FilesIsScreenedInOneCall() throws IOException {
    Path set = folder.resolve("set");
    Map<Path, String> good = MixedSet.write(set);
    assertEquals(MixedSet.FILES - 3, good.size());
    Run run = screen(QUESTION, set);
    assertEquals(3, run.status(), run.err());
    assertEquals(
        good.keySet().stream()
            .map(file -> file.getFileName().toString().replaceFirst("\\..*", ""))
            .toList(),
        ids());
    for (String sentence :
        List.of(
            "student-002.pdf: the file is protected by a password",
            "student-008.pdf: scanned page: no text to read",
            "student-010.txt: the file is empty (0 bytes)")) {
      assertEquals(1, run.err().lines().filter(line -> line.contains(sentence)).count(), run.err());
    }
    assertEquals(good.size() + 1, Files.readAllLines(folder.resolve("out/matrix.csv")).size());

    Path zip = folder.resolve("set.zip");
    MixedSet.zip(set, zip);
    List<String> fromFolder = Files.readAllLines(folder.resolve("out/results.jsonl"));
    assertEquals(3, screen(QUESTION, zip).status());
    assertEquals(fromFolder, Files.readAllLines(folder.resolve("out/results.jsonl")));
  }

  @Test
  void aWorkbookWithAColumnForEachPartIsUnderstoodAndTheGuessIsPrinted() throws IOException {
    Path sheet = folder.resolve("class.xlsx");
    try (XSSFWorkbook book = new XSSFWorkbook();
        ByteArrayOutputStream out = new ByteArrayOutputStream()) {
      var rows = book.createSheet("form");
      List<List<String>> cells =
          List.of(
              List.of("Timestamp", "Full name", "Part (a)", "Part (b)", "Part (c)"),
              List.of("1", "Ferrin", A, B, C),
              List.of("2", "Oda", A, "", C));
      for (int r = 0; r < cells.size(); r++) {
        var row = rows.createRow(r);
        for (int c = 0; c < 5; c++) {
          row.createCell(c).setCellValue(cells.get(r).get(c));
        }
      }
      book.write(out);
      Files.write(sheet, out.toByteArray());
    }
    Run run = screen(QUESTION, sheet);
    assertEquals(0, run.status(), run.err());
    assertTrue(
        run.err()
            .contains(
                "its columns were read as id=\"Full name\", a=\"Part (a)\", b=\"Part (b)\","
                    + " c=\"Part (c)\"; say it with --columns"),
        run.err());
    assertEquals(List.of("Ferrin", "Oda"), ids());
    assertEquals("missing", results().get(1).path("parts").get(1).path("verdict").asText());
    assertFalse(results().get(0).path("parts").get(1).path("verdict").asText().equals("missing"));
    assertEquals("1", results().get(0).path("groups").path("Timestamp").asText());
  }

  @Test
  void columnsCanBeSaidByHeaderBeginningOrNumber() throws IOException {
    Path sheet =
        write(
            "class.tsv",
            "who\tmark\tSay, in your words, what happens\nFerrin\t3\t"
                + A
                + "\nOda\t4\t"
                + B
                + "\n");
    assertEquals(0, screen(QUESTION, sheet, "--columns", "id=who,text=3").status());
    assertEquals(List.of("Ferrin", "Oda"), ids());
    assertEquals(0, screen(QUESTION, sheet, "--columns", "id=1,text=Say").status());
    assertEquals(List.of("Ferrin", "Oda"), ids());
    Run wrong = screen(QUESTION, sheet, "--columns", "id=whom");
    assertEquals(3, wrong.status());
    assertTrue(wrong.err().contains("the header has no column \"whom\""), wrong.err());
    wrong = screen(QUESTION, sheet, "--columns", "z=who");
    assertTrue(wrong.err().contains("\"z\", which is no part and no prompt"), wrong.err());
  }

  @Test
  void idsComeFromNamesByAPattern() throws IOException {
    write("set/4711_ferrin_essay.txt", A);
    write("set/4712_oda_essay.txt", B);
    write("set/other.txt", C);
    Run run = screen(QUESTION, folder.resolve("set"), "--id-from", "*_{id}_essay");
    assertEquals(0, run.status(), run.err());
    assertEquals(List.of("ferrin", "oda", "other"), ids());
    assertTrue(run.err().contains("other.txt: its name does not fit --id-from"), run.err());
    Run wrong = screen(QUESTION, folder.resolve("set"), "--id-from", "essay");
    assertEquals(2, wrong.status());
    assertTrue(wrong.err().contains("say with {id} where"), wrong.err());
  }

  @Test
  void aFolderForEachStudentGivesTheId() throws IOException {
    write("set/ferrin/essay.txt", A);
    write("set/oda/essay.txt", B);
    Run run = screen(QUESTION, folder.resolve("set"));
    assertEquals(0, run.status(), run.err());
    assertEquals(List.of("ferrin", "oda"), ids());
    assertTrue(run.err().contains("the folders' names are taken as ids"), run.err());
  }

  @Test
  void theNewestOfSeveralSubmissionsIsTakenOnRequest() throws IOException {
    Path old = write("set/2/ferrin.txt", A);
    Path fresh = write("set/1/ferrin.txt", B);
    write("set/3/oda.txt", C);
    Files.setLastModifiedTime(old, FileTime.from(Instant.parse("2024-01-01T00:00:00Z")));
    Files.setLastModifiedTime(fresh, FileTime.from(Instant.parse("2024-02-01T00:00:00Z")));
    Run all = screen(QUESTION, folder.resolve("set"));
    assertEquals(3, all.status());
    assertEquals(List.of("ferrin", "ferrin#2", "oda"), ids());
    Run run = screen(QUESTION, folder.resolve("set"), "--newest");
    assertEquals(0, run.status(), run.err());
    assertEquals(List.of("ferrin", "oda"), ids());
    assertTrue(run.err().contains("1/ferrin.txt: \"ferrin\" came twice"), run.err());
    assertTrue(
        Files.readString(folder.resolve("out/index.html")).contains("tollops will increase"));
  }

  @Test
  void severalPromptsHaveAFolderOrAColumnEach() throws IOException {
    Path prompts = folder.resolve("prompts");
    write("prompts/pool.txt", "(a) Describe the tide pool.\n");
    write("prompts/mist.txt", "(a) Explain why the mist rises.\n");
    write("set/pool/oda.txt", "The pool is deep and cold.");
    write("set/mist/oda.txt", "The mist rises because the sea is warm.");
    Run run = screen(prompts, folder.resolve("set"));
    assertEquals(0, run.status(), run.err());
    assertEquals(List.of("oda/mist", "oda/pool"), ids());
    Path sheet =
        write(
            "class.csv", "student,Pool,Mist\noda,It is deep and cold.,It rises because of heat.\n");
    run = screen(prompts, sheet);
    assertEquals(0, run.status(), run.err());
    assertEquals(List.of("oda/mist", "oda/pool"), ids());
    assertEquals("mist", results().get(0).path("promptId").asText());
    assertEquals("oda", results().get(0).path("groups").path("student").asText());
  }

  @Test
  void foldersWithoutAFileAreSaidToBeEmpty() throws IOException {
    Files.createDirectories(folder.resolve("set/east/first"));
    Run run = screen(QUESTION, folder.resolve("set"));
    assertEquals(3, run.status(), run.err());
    assertTrue(run.err().contains("set: there is no file in this folder"), run.err());
  }

  @Test
  void oneResponseIsCheckedInAnyFormat() throws IOException {
    Path docx = folder.resolve("answer.docx");
    Files.write(docx, MixedSet.docx("(a) " + A));
    Run run = Run.of("check", QUESTION, docx);
    assertEquals(0, run.status(), run.err());
    assertTrue(run.out().contains("Lanternweed feeds the tollops"), run.out());
    Path scan = folder.resolve("answer.pdf");
    Files.write(scan, MixedSet.pdf("", true, ""));
    run = Run.of("check", QUESTION, scan);
    assertEquals(3, run.status());
    assertTrue(run.err().contains("answer.pdf: scanned page: no text to read"), run.err());
    run = Run.of("check", QUESTION, Path.of("..", "demo-data", "class.csv"));
    assertTrue(run.err().contains("more than one response in it; use screen"), run.err());
  }
}
