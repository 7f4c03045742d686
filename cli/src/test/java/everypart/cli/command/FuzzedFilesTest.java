package everypart.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.coverage.CoverageAnalyzer;
import everypart.analyzer.coverage.DemandCoverage;
import everypart.analyzer.coverage.PartCoverage;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.text.Span;
import everypart.cli.intake.Arrival;
import everypart.cli.intake.Choices;
import everypart.cli.intake.Codes;
import everypart.cli.intake.Corrections;
import everypart.cli.intake.InputException;
import everypart.cli.intake.InputProblem;
import everypart.cli.intake.NamedTexts;
import everypart.cli.intake.PromptFiles;
import everypart.cli.intake.Register;
import everypart.cli.intake.Response;
import everypart.cli.intake.ResponseFiles;
import everypart.cli.intake.ResponseRows;
import everypart.cli.intake.Sources;
import everypart.cli.intake.document.Limits;
import everypart.lexicon.Lexicon;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

/**
 * Every reader on files that were good until bytes of them were changed, cut out, doubled or put
 * in: {@value #EACH} of each of 16 kinds, the same in every run; {@code -Deverypart.fuzz=N} makes N
 * of each. A reader either reads such a file or refuses it in a sentence. What a lexicon's reader
 * thinks of one is in {@link #LEXICONS} more.
 */
class FuzzedFilesTest {
  private static final int EACH = 120;
  private static final int LEXICONS = 80;
  private static final long SEED = 20_261_128;

  private static final String ANSWER =
      "a) The pool is deep and cold.\n\nb) They hide because birds hunt them, \u00fcber all.";
  private static final String QUESTION =
      "(a) Describe the tide pool.\n(b) Explain why the pipkins hide.\n";
  private static final String YAML =
      """
      id: pool
      title: A pool
      stimulus: |
        A pool lies by the sea.
      parts:
        - label: a
          text: Describe two features of the pool.
          model_answer: It is deep and cold.
          demands:
            - kind: describe
              about: features of the pool
              count: 2
              points:
                - [deep, goes down far]
                - [cold]
        - label: b
          text: Explain why the pipkins hide.
          optional: true
      """;
  private static final String CORRECTIONS =
      """
      {"format": "everypart-corrections", "version": 1, "responses": [
        {"promptId": "q", "responseId": "oda", "read": true, "comment": "well seen", "demands": [
          {"part": "a", "demand": 1, "kind": "describe", "program": "addressed",
           "verdict": "partly", "overruled": true, "comment": "one more"}]}]}
      """;
  private static final String CODES =
      """
      response_id,prompt_id,part,demand,coder,code,weight,sample
      oda,q,a,1,c1,1,2.5,s
      fenn,q,b,1,c2,0,1,s
      """;
  private static final String RESULT =
      "{\"responseId\":\"r1\",\"promptId\":\"q\",\"verdict\":\"partly\",\"parts\":[{\"label\":\"a\","
          + "\"verdict\":\"missing\",\"demands\":[{\"kind\":\"describe\",\"verb\":\"describe\","
          + "\"count\":1,\"found\":0,\"verdict\":\"missing\",\"confidence\":0.81,\"look\":false,"
          + "\"evidence\":[],\"why\":[\"nothing found\"],\"points\":[]}]}],\"sentences\":[]}\n";

  /** Bytes and words at which readers of these formats have stumbled, here or elsewhere. */
  private static final List<String> ODD =
      List.of(
          "\u0000",
          "\"",
          "'",
          "<",
          ">",
          "&",
          "{",
          "}",
          "[",
          "]",
          "\\",
          "\n",
          "\r",
          "\t",
          ",",
          ":",
          "- ",
          "\u00ff",
          "\ufeff",
          "\ud83d\ude00",
          "&#0;",
          "]]>",
          "<![CDATA[",
          "<!DOCTYPE x [",
          "%",
          "-1",
          "0",
          "999999999999",
          "1e999",
          "\\bin99999",
          "\\u-1?",
          "endobj",
          "stream",
          "/Length 9",
          "((((",
          "null",
          "true",
          "*",
          "&a *a",
          "!!int",
          "||",
          "a: ");

  @TempDir
  @SuppressWarnings("NullAway.Init")
  Path folder;

  /** Reads a file, to the end. */
  private interface Reader {
    void read(Path file) throws InputException, IOException;
  }

  @SuppressWarnings("ArrayRecordComponent") // nobody compares kinds
  private record Kind(String name, byte[] good, Reader reader) {}

  private final CoverageAnalyzer analyzer = new CoverageAnalyzer(Lexicon.bundled());
  private final Prompt prompt = analyzer.prompts().read("q", QUESTION);
  private int read;
  private int refused;

  private static Sources sources() {
    return new Sources(
        new ByteArrayInputStream(new byte[0]), Limits.USUAL, FuzzedFilesTest::sentence);
  }

  private static void sentence(InputProblem problem) {
    assertFalse(problem.what().isBlank() || problem.mend().isBlank(), problem.toString());
    assertFalse(problem.sentence().contains("Exception"), problem.sentence());
  }

  private static byte[] utf8(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }

  private List<Kind> kinds() throws IOException {
    List<Kind> kinds = new ArrayList<>();
    Reader responses = this::responses;
    kinds.add(new Kind("a.docx", MixedSet.docx(ANSWER), responses));
    kinds.add(new Kind("a.odt", MixedSet.odt(ANSWER), responses));
    kinds.add(new Kind("a.rtf", MixedSet.rtf(ANSWER), responses));
    kinds.add(new Kind("a.pdf", MixedSet.pdf(ANSWER, true, ""), responses));
    kinds.add(
        new Kind("a.html", utf8("<!DOCTYPE html><p id=x>" + ANSWER + "<br>&amp;"), responses));
    kinds.add(new Kind("a.txt", ANSWER.getBytes(StandardCharsets.UTF_16), responses));
    kinds.add(new Kind("a.csv", utf8("id,class,text\nr1,\"e,1\",\"" + ANSWER + "\"\n"), responses));
    kinds.add(new Kind("a.xlsx", workbook(), responses));
    kinds.add(
        new Kind("a.zip", zip(Map.of("b/r1.txt", utf8(ANSWER), "r2.txt", utf8("x"))), responses));
    kinds.add(new Kind("a.jsonl", utf8("{\"response_id\":\"r\",\"text\":\"x y\"}\n"), this::rows));
    kinds.add(new Kind("q.yaml", utf8(YAML), this::prompts));
    kinds.add(new Kind("q.md", utf8("# Pool\n\n> A pool.\n\n" + QUESTION), this::prompts));
    kinds.add(
        new Kind(
            "c.json",
            utf8(CORRECTIONS),
            file -> Corrections.read(sources(), file.toString(), List.of(prompt))));
    kinds.add(
        new Kind(
            "c.csv",
            utf8(CODES),
            file -> new Codes(sources(), FuzzedFilesTest::sentence).codes(file.toString())));
    kinds.add(
        new Kind(
            "results.jsonl",
            utf8(RESULT + RESULT),
            file ->
                new Codes(sources(), FuzzedFilesTest::sentence)
                    .forEachResult(file.toString(), (id, verdicts) -> {})));
    kinds.add(
        new Kind(
            "n.csv", utf8("id,name,text\ns1,Oda Lin,It hides.\ns2,Bo Mar,No.\n"), this::names));
    return kinds;
  }

  @TestFactory
  Stream<DynamicTest> aChangedFileIsReadOrRefusedInASentence() throws IOException {
    return kinds().stream().map(kind -> DynamicTest.dynamicTest(kind.name(), () -> fuzz(kind)));
  }

  /** A reader's library must not talk to the user either. */
  private void fuzz(Kind kind) throws Exception {
    PrintStream console = System.err;
    ByteArrayOutputStream said = new ByteArrayOutputStream();
    System.setErr(new PrintStream(said, true, StandardCharsets.UTF_8));
    try {
      changeAndRead(kind);
    } finally {
      System.setErr(console);
    }
    assertEquals("", said.toString(StandardCharsets.UTF_8));
  }

  private void changeAndRead(Kind kind) throws Exception {
    SplittableRandom random = new SplittableRandom(SEED + kind.name().hashCode());
    int each = Integer.getInteger("everypart.fuzz", EACH);
    read = 0;
    refused = 0;
    kind.reader().read(Files.write(folder.resolve(kind.name()), kind.good()));
    for (int i = 0; i < each; i++) {
      byte[] bytes = changed(kind.good(), random);
      Path file = Files.write(folder.resolve(kind.name()), bytes);
      try {
        kind.reader().read(file);
        read++;
      } catch (InputException e) {
        sentence(e.problem());
        refused++;
      } catch (RuntimeException | StackOverflowError | OutOfMemoryError | AssertionError e) {
        Path kept = Files.write(Path.of("target", "fuzzed-" + i + "-" + kind.name()), bytes);
        throw new AssertionError("input " + i + ", kept as " + kept + ": " + e, e);
      }
    }
    assertEquals(each, read + refused);
  }

  private static byte[] changed(byte[] good, SplittableRandom random) throws IOException {
    boolean packed = good.length > 2 && good[0] == 'P' && good[1] == 'K';
    if (!packed || random.nextInt(3) == 0) {
      return mutated(good, random);
    }
    Map<String, byte[]> entries = new LinkedHashMap<>();
    try (ZipInputStream zip = new ZipInputStream(new ByteArrayInputStream(good))) {
      for (ZipEntry entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
        entries.put(entry.getName(), zip.readAllBytes());
      }
    }
    List<String> names = List.copyOf(entries.keySet());
    entries.computeIfPresent(
        names.get(random.nextInt(names.size())), (name, bytes) -> mutated(bytes, random));
    return zip(entries);
  }

  private static byte[] mutated(byte[] good, SplittableRandom random) {
    byte[] bytes = good.clone();
    int changes = 1 + random.nextInt(4);
    for (int change = 0; change < changes; change++) {
      int at = random.nextInt(bytes.length + 1);
      int to = Math.min(bytes.length, at + random.nextInt(1 + Math.min(200, bytes.length)));
      byte[] put =
          switch (random.nextInt(6)) {
            case 0 -> new byte[] {(byte) random.nextInt(256)};
            case 1 -> utf8(ODD.get(random.nextInt(ODD.size())));
            case 2 -> utf8(ODD.get(random.nextInt(ODD.size())).repeat(1 + random.nextInt(300)));
            case 3 -> twice(Arrays.copyOfRange(bytes, at, to));
            case 4 -> new byte[0];
            default -> Arrays.copyOfRange(bytes, 0, random.nextInt(bytes.length + 1));
          };
      boolean inPlace = random.nextBoolean();
      int from = inPlace ? Math.min(bytes.length, at + put.length) : to;
      ByteArrayOutputStream out = new ByteArrayOutputStream();
      out.write(bytes, 0, at);
      out.writeBytes(put);
      out.write(bytes, from, bytes.length - from);
      bytes = out.toByteArray();
    }
    return bytes;
  }

  private static byte[] twice(byte[] bytes) {
    byte[] twice = Arrays.copyOf(bytes, bytes.length * 2);
    System.arraycopy(bytes, 0, twice, bytes.length, bytes.length);
    return twice;
  }

  private static byte[] zip(Map<String, byte[]> entries) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (ZipOutputStream zip = new ZipOutputStream(out)) {
      for (Map.Entry<String, byte[]> entry : new java.util.TreeMap<>(entries).entrySet()) {
        ZipEntry one = new ZipEntry(entry.getKey());
        one.setTime(0);
        zip.putNextEntry(one);
        zip.write(entry.getValue());
      }
    }
    return out.toByteArray();
  }

  private static byte[] workbook() throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (XSSFWorkbook book = new XSSFWorkbook()) {
      var rows = book.createSheet("form");
      List<List<String>> cells =
          List.of(List.of("Full name", "Part (a)", "Part (b)"), List.of("Oda", "Deep.", "Birds."));
      for (int r = 0; r < cells.size(); r++) {
        var row = rows.createRow(r);
        for (int c = 0; c < cells.get(r).size(); c++) {
          row.createCell(c).setCellValue(cells.get(r).get(c));
        }
      }
      rows.createRow(2).createCell(0).setCellValue(17.25);
      book.write(out);
    }
    return out.toByteArray();
  }

  private void responses(Path file) throws InputException {
    boolean any = false;
    try (ResponseFiles files =
        new ResponseFiles(
            sources(),
            List.of(prompt),
            Choices.NONE,
            List.of(file.toString()),
            FuzzedFilesTest::sentence)) {
      while (files.hasNext()) {
        any |= judge(files.next());
      }
    }
    if (!any) {
      refused++;
      read--;
    }
  }

  /** Tells whether it is a response; its marks stand in its text. */
  private boolean judge(Arrival arrival) {
    if (arrival instanceof InputProblem problem) {
      sentence(problem);
      return false;
    }
    Response response = (Response) arrival;
    if (response.text().length() > 5_000) {
      return true;
    }
    Coverage coverage = analyzer.analyze(prompt, response.id(), response.text());
    for (PartCoverage part : coverage.parts()) {
      for (DemandCoverage demand : part.demands()) {
        for (Span span : demand.evidence()) {
          assertTrue(span.end() <= coverage.text().length() && span.length() > 0, span.toString());
          assertTrue(coverage.text().equals(response.text()), "the text is as given");
        }
      }
    }
    return true;
  }

  private void rows(Path file) throws InputException, IOException {
    try (ResponseRows rows = ResponseRows.open(sources(), file.toString())) {
      while (rows.hasNext()) {
        judge(rows.next());
      }
    }
  }

  private void prompts(Path file) throws InputException {
    new PromptFiles(sources(), analyzer.prompts(), FuzzedFilesTest::sentence).read(file.toString());
  }

  private void names(Path file) throws InputException, IOException {
    Register.read(sources(), file.toString(), FuzzedFilesTest::sentence);
    try (NamedTexts texts =
        NamedTexts.open(sources(), file.toString(), FuzzedFilesTest::sentence)) {
      while (texts.hasNext()) {
        texts.next();
      }
    }
  }

  @Test
  void aChangedLexiconIsReadOrRefusedInASentence() throws IOException {
    byte[] good;
    try (InputStream in =
        Files.newInputStream(
            Path.of("..", "demo-data", "economics", "lexicon", "concepts-economics.yaml"))) {
      good = in.readAllBytes();
    }
    SplittableRandom random = new SplittableRandom(SEED);
    Path lexicon = Files.createDirectories(folder.resolve("lexicon"));
    int bad = 0;
    for (int i = 0; i < LEXICONS; i++) {
      Files.write(lexicon.resolve("concepts-economics.yaml"), mutated(good, random));
      Run run = Run.of("lexicon", "check", lexicon);
      assertTrue(run.status() == 0 || run.status() == ExitStatus.INPUT_LOST, i + ": " + run.err());
      assertFalse(run.err().contains("Exception"), i + ": " + run.err());
      bad += run.status() == 0 ? 0 : 1;
    }
    assertTrue(bad > LEXICONS / 4, "hardly any of them was bad: " + bad);
  }
}
