package everypart.cli.command;

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
import everypart.cli.intake.JudgedResults;
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
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;

/**
 * A good file of each kind that the program reads, with what reads it. A reader either reads a file
 * or refuses it in a sentence; every mark on a response stands inside its text.
 */
final class ReadableKinds {
  private static final Pattern QUOTED = Pattern.compile("\"[^\"]*\"");

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
          + "\"count\":1,\"found\":0,\"verdict\":\"missing\",\"confidence\":0.81,\"look\":false,\"evidence\":[],\"why\":[\"nothing"
          + " found\"],\"points\":[]}]}],\"sentences\":[]}\n";

  /** Reads a file to the end, and tells whether anything in it was taken. */
  interface Reader {
    boolean read(Path file) throws InputException, IOException;
  }

  @SuppressWarnings("ArrayRecordComponent") // nobody compares kinds
  record Kind(String name, byte[] good, Reader reader) {}

  private final CoverageAnalyzer analyzer = new CoverageAnalyzer(Lexicon.bundled());
  private final Prompt prompt = analyzer.prompts().read("q", QUESTION);

  private static Sources sources() {
    return new Sources(
        new ByteArrayInputStream(new byte[0]), Limits.USUAL, ReadableKinds::sentence);
  }

  static void sentence(InputProblem problem) {
    assertFalse(problem.what().isBlank() || problem.mend().isBlank(), problem.toString());
    namesNoException(problem.sentence());
  }

  /** Holds a sentence to what it says itself; what it quotes of an input may say anything. */
  static void namesNoException(String sentence) {
    assertFalse(QUOTED.matcher(sentence).replaceAll("").contains("Exception"), sentence);
  }

  static byte[] utf8(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }

  List<Kind> all() throws IOException {
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
            file -> {
              Corrections.read(sources(), file.toString(), List.of(prompt));
              return true;
            }));
    kinds.add(
        new Kind(
            "c.csv",
            utf8(CODES),
            file -> {
              new Codes(sources(), ReadableKinds::sentence).codes(file.toString());
              return true;
            }));
    kinds.add(
        new Kind(
            "results.jsonl",
            utf8(RESULT + RESULT),
            file -> {
              new JudgedResults(sources(), ReadableKinds::sentence)
                  .forEachResult(file.toString(), (id, verdicts) -> {});
              return true;
            }));
    kinds.add(
        new Kind(
            "n.csv", utf8("id,name,text\ns1,Oda Lin,It hides.\ns2,Bo Mar,No.\n"), this::names));
    return kinds;
  }

  static byte[] zip(Map<String, byte[]> entries) throws IOException {
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

  private boolean responses(Path file) throws InputException {
    boolean any = false;
    try (ResponseFiles files =
        new ResponseFiles(
            sources(),
            List.of(prompt),
            Choices.NONE,
            List.of(file.toString()),
            ReadableKinds::sentence)) {
      while (files.hasNext()) {
        any |= judge(files.next());
      }
    }
    return any;
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

  private boolean rows(Path file) throws InputException, IOException {
    try (ResponseRows rows = ResponseRows.open(sources(), file.toString())) {
      while (rows.hasNext()) {
        judge(rows.next());
      }
    }
    return true;
  }

  private boolean prompts(Path file) throws InputException {
    new PromptFiles(sources(), analyzer.prompts(), ReadableKinds::sentence).read(file.toString());
    return true;
  }

  private boolean names(Path file) throws InputException, IOException {
    Register.read(sources(), file.toString(), ReadableKinds::sentence);
    try (NamedTexts texts = NamedTexts.open(sources(), file.toString(), ReadableKinds::sentence)) {
      while (texts.hasNext()) {
        texts.next();
      }
    }
    return true;
  }
}
