package everypart.cli.report;

import static org.junit.jupiter.api.Assertions.assertEquals;

import everypart.analyzer.coverage.Verdict;
import everypart.analyzer.study.JudgedResponse;
import everypart.analyzer.study.StudyDesign;
import everypart.analyzer.study.StudySummary;
import everypart.analyzer.study.StudyTally;
import everypart.analyzer.study.agreement.Agreement;
import everypart.analyzer.study.agreement.CodedDemand;
import everypart.analyzer.study.statistics.Level;
import everypart.analyzer.text.TextReader;
import everypart.cli.intake.InputProblem;
import everypart.cli.intake.Place;
import everypart.lexicon.ConceptMatch;
import everypart.lexicon.CueMatch;
import everypart.lexicon.CueType;
import everypart.lexicon.DemandKind;
import everypart.lexicon.TokenRange;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Consumer;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/**
 * Each renderer against a file that a person has read. With {@code -Deverypart.golden=write} the
 * files are written anew: read the difference before you commit it.
 */
class GoldenTest {
  private static final Path FOLDER =
      Path.of("src", "test", "resources", "everypart", "cli", "report", "golden");

  private static final List<InputProblem> PROBLEMS =
      List.of(InputProblem.fault(Place.file("s3.odd"), "it is <odd>", "save it as .txt"));

  private static final Map<String, Supplier<String>> RENDERERS =
      new TreeMap<>(
          Map.ofEntries(
              Map.entry("outline.jsonl", () -> OutlineJson.line(Samples.prompt()) + "\n"),
              Map.entry(
                  "outline.yaml",
                  () -> written(out -> OutlineYaml.write(Samples.prompt(), Optional.empty(), out))),
              Map.entry("outline.json", () -> OutlineJson.list(List.of(Samples.prompt())) + "\n"),
              Map.entry(
                  "outline.txt", () -> written(out -> OutlineText.write(Samples.prompt(), out))),
              Map.entry(
                  "results.jsonl",
                  () ->
                      ResultJson.line(Samples.partly(), Map.of("class", "east"))
                          + "\n"
                          + ResultJson.line(Samples.empty(), Map.of())
                          + "\n"),
              Map.entry(
                  "check.json", () -> ResultJson.pretty(Samples.partly(), Optional.empty()) + "\n"),
              Map.entry("check.txt", () -> check(Colours.OFF)),
              Map.entry("check-colours.txt", () -> check(Colours.ON)),
              Map.entry(
                  "check-empty.txt",
                  () -> written(out -> new CheckText(Colours.OFF).write(Samples.empty(), out))),
              Map.entry("check.html", () -> CheckHtml.of(Samples.partly(), Optional.empty())),
              Map.entry("index.html", GoldenTest::page),
              Map.entry("report.html", () -> StudyHtml.of(log(), summary(), Optional.of(coded()))),
              Map.entry(
                  "summary.json", () -> SummaryJson.of(log(), summary(), Optional.of(coded()))),
              Map.entry("matrix.csv", () -> tables().matrix()),
              Map.entry("demands.csv", () -> tables().demands()),
              Map.entry("trace.jsonl", () -> trace().jsonLine() + "\n"),
              Map.entry("trace.txt", () -> trace().lines()),
              Map.entry("agreement.txt", GoldenTest::agreement)));

  private static String written(Consumer<PrintWriter> renderer) {
    StringWriter text = new StringWriter();
    PrintWriter out = new PrintWriter(text);
    renderer.accept(out);
    out.flush();
    return text.toString().replace(System.lineSeparator(), "\n");
  }

  private static String check(Colours colours) {
    return written(out -> new CheckText(colours).write(Samples.partly(), out));
  }

  private static String page() {
    ScreenHtml page = new ScreenHtml(List.of(Samples.prompt()));
    page.add(Samples.partly());
    page.add(Samples.empty());
    return page.page(PROBLEMS);
  }

  private static StudyLog log() {
    return new StudyLog(
        "everypart 0",
        new StudyLog.Settings(
            "prompts",
            "answers.csv",
            List.of("class"),
            null,
            null,
            null,
            "codes.csv",
            0.95,
            1,
            List.of(),
            false,
            false,
            "features",
            0,
            false,
            null),
        new StudyLog.Inputs(
            new StudyLog.Checked("answers.csv", "0123456789abcdef"),
            List.of("class"),
            List.of(new StudyLog.PromptFile("pool", "Rain on a pool", "pool.md", null)),
            List.of("look <here>"),
            new StudyLog.Checked("codes.csv", "123456789abcdef0"),
            List.of(new StudyLog.Checked("cues.yaml", "23456789abcdef01")),
            null),
        null,
        new StudyLog.Rows(
            3, 2, List.of(List.of(3L, 3L)), 1, 1, new StudyLog.Reasons(1, 0, 0, 1, 0)),
        List.of(new StudyLog.Problem(3, true, PROBLEMS.get(0).sentence())),
        List.of());
  }

  private static StudySummary summary() {
    StudyTally tally =
        new StudyTally(new StudyDesign(List.of("class"), List.of(), Optional.empty()));
    tally.add(JudgedResponse.of(Samples.partly(), Map.of("class", "<east>")));
    tally.add(JudgedResponse.of(Samples.empty(), Map.of("class", "west")));
    return StudySummary.of(tally, Level.DEFAULT, Optional.of(coded()));
  }

  private static ClassTables tables() {
    ClassTables tables = new ClassTables(List.of(Samples.prompt()), false);
    tables.add(Samples.partly(), Map.of("class", "east"), Optional.empty());
    tables.add(Samples.empty(), Map.of(), Optional.empty());
    return tables;
  }

  private static Trace trace() {
    return new Trace(
        "1",
        new TextReader(word -> word).read("Rain falls because warm air rises."),
        List.of(
            List.of(
                new CueMatch(
                    CueType.CAUSE_EFFECT,
                    "because",
                    "because",
                    new TokenRange(2, 3),
                    Optional.of(new TokenRange(3, 6)),
                    Optional.of(new TokenRange(0, 2)),
                    false))),
        List.of(List.of(new ConceptMatch("rain", new TokenRange(0, 1)))));
  }

  private static Agreement coded() {
    List<CodedDemand> demands =
        List.of(
            coded("r1", Verdict.ADDRESSED, Map.of("c1", true, "c2", true)),
            coded("r2", Verdict.PARTLY, Map.of("c1", true)),
            coded("r3", Verdict.MISSING, Map.of("c1", true, "c2", true)),
            coded("r4", Verdict.ADDRESSED, Map.of("c1", false, "c2", true)),
            coded("r5", Verdict.MISSING, Map.of("c1", false, "c2", false)),
            coded("r6", Verdict.UNCHECKED, Map.of("c1", false)));
    return new Agreement(demands, Level.DEFAULT, 100, 1);
  }

  private static String agreement() {
    return written(
        out ->
            new AgreementText(out, Level.DEFAULT)
                .write(
                    coded(),
                    List.of(),
                    demand ->
                        new Disagreement(
                            "c1 1", List.of("the tide"), List.of("no ground"), Optional.empty()),
                    5));
  }

  private static CodedDemand coded(String id, Verdict verdict, Map<String, Boolean> codes) {
    return new CodedDemand(
        id, "pool", "a", 1, DemandKind.JUSTIFY, verdict, 0.8, false, codes, 1, id, Map.of());
  }

  @TestFactory
  Stream<DynamicTest> rendersAsTheFileSays() {
    return RENDERERS.entrySet().stream()
        .map(
            one ->
                DynamicTest.dynamicTest(
                    one.getKey(),
                    () -> {
                      Path file = FOLDER.resolve(one.getKey());
                      String now = one.getValue().get();
                      if ("write".equals(System.getProperty("everypart.golden"))) {
                        Files.writeString(file, now);
                      }
                      assertEquals(Files.readString(file), now);
                    }));
  }

  @Test
  void everyFileHasARenderer() throws IOException {
    try (Stream<Path> files = Files.list(FOLDER)) {
      assertEquals(
          List.copyOf(RENDERERS.keySet()),
          files.map(file -> file.getFileName().toString()).sorted().toList());
    }
  }
}
