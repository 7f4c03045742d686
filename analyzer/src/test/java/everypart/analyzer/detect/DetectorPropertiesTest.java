package everypart.analyzer.detect;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.coverage.CoverageAnalyzer;
import everypart.analyzer.coverage.DemandCoverage;
import everypart.analyzer.coverage.Verdict;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.text.Span;
import everypart.lexicon.Lexicon;
import java.io.IOException;
import java.io.Reader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;

/** What holds for every verdict, whatever the subject; tried on the tables of cases. */
class DetectorPropertiesTest {
  private static final CoverageAnalyzer ANALYZER = new CoverageAnalyzer(Lexicon.bundled());
  private static final List<String> UNRELATED =
      List.of(
          "My brother has a red bicycle.",
          "We had soup for lunch on Tuesday.",
          "this question was on page nine of the booklet",
          "The bus to the lighthouse leaves at noon.");

  @Test
  void anUnrelatedSentenceNeverTurnsAddressedIntoMissing() {
    List<String> broken = new ArrayList<>();
    int tried = 0;
    for (CaseRow row : CaseRow.all()) {
      if (row.judge(ANALYZER).verdict() == Verdict.MISSING) {
        continue;
      }
      for (String extra : UNRELATED) {
        for (String answer : List.of(stopped(row.answer()) + " " + extra, extra(extra, row))) {
          tried++;
          if (row.judge(ANALYZER, answer).verdict() == Verdict.MISSING) {
            broken.add(row.kind().word() + ": " + answer);
          }
        }
      }
    }
    int all = tried;
    assertTrue(all > 500, () -> "only " + all + " tried");
    assertEquals(List.of(), broken);
  }

  private static String extra(String extra, CaseRow row) {
    return stopped(extra) + " " + row.answer();
  }

  private static String stopped(String text) {
    return text.matches("(?s).*[.!?]") ? text : text + ".";
  }

  @Test
  void withoutItsQuotedWordsAVerdictIsMissingOrRestsOnOthers() {
    List<String> broken = new ArrayList<>();
    int tried = 0;
    for (CaseRow row : CaseRow.all()) {
      DemandCoverage demand = row.judge(ANALYZER);
      if (demand.verdict() == Verdict.MISSING) {
        continue;
      }
      tried++;
      assertTrue(!demand.evidence().isEmpty(), () -> "nothing is quoted: " + row);
      String rest = without(row.answer(), demand.evidence());
      DemandCoverage after = row.judge(ANALYZER, rest);
      Set<String> quoted = quotes(row.answer(), demand.evidence());
      if (after.verdict() != Verdict.MISSING && quotes(rest, after.evidence()).equals(quoted)) {
        broken.add(row + " -> " + rest);
      }
    }
    int all = tried;
    assertTrue(all > 100, () -> "only " + all + " tried");
    assertEquals(List.of(), broken);
  }

  private static String without(String text, List<Span> spans) {
    StringBuilder rest = new StringBuilder(text);
    spans.stream()
        .sorted(Comparator.comparingInt(Span::start).reversed())
        .forEach(span -> rest.delete(span.start(), span.end()));
    return rest.toString();
  }

  private static Set<String> quotes(String text, List<Span> spans) {
    return spans.stream().map(span -> span.of(text)).collect(Collectors.toSet());
  }

  @Test
  void thePromptHandedBackAddressesNothing() throws IOException {
    Set<String> prompts = new LinkedHashSet<>();
    CaseRow.all().forEach(row -> prompts.add(row.prompt()));
    try (Stream<Path> files = Files.list(Path.of("..", "demo-data", "prompts"))) {
      for (Path file : files.filter(path -> !path.toString().endsWith(".yaml")).sorted().toList()) {
        prompts.add(Files.readString(file));
      }
    }
    List<String> broken = new ArrayList<>();
    for (String text : prompts) {
      Prompt prompt = ANALYZER.prompts().read("p", text);
      for (String copy : List.of(text, text.toLowerCase(Locale.ROOT), text + " " + text)) {
        Coverage coverage = ANALYZER.analyze(prompt, "r", copy);
        coverage.parts().stream()
            .flatMap(part -> part.demands().stream())
            .filter(demand -> demand.found() > 0)
            .forEach(
                demand ->
                    broken.add(
                        demand.demand().kind().word()
                            + ": "
                            + quotes(copy, demand.evidence())
                            + " in: "
                            + copy));
      }
    }
    assertTrue(prompts.size() > 50, () -> "only " + prompts.size() + " prompts");
    assertEquals(List.of(), broken);
  }

  /** In the demo data, s05 is empty, s06 off the subject, and s07 the question copied back. */
  @Test
  void anEmptyAnOffSubjectAndACopiedResponseAreCreditedWithNothing() throws IOException {
    Path demo = Path.of("..", "demo-data");
    Prompt prompt =
        ANALYZER.prompts().read("p", Files.readString(demo.resolve("prompts/lost-star.txt")));
    CSVFormat format = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();
    List<String> empty = new ArrayList<>();
    try (Reader in = Files.newBufferedReader(demo.resolve("class.csv"))) {
      for (CSVRecord row : format.parse(in)) {
        Coverage coverage = ANALYZER.analyze(prompt, row.get("response_id"), row.get("text"));
        if (coverage.verdict() == Verdict.MISSING) {
          empty.add(coverage.responseId());
        }
      }
    }
    assertEquals(List.of("s05", "s06", "s07"), empty);
  }

  @Test
  void theOrderOfSentencesInALabelledPartOfOneDemandChangesNoVerdict() {
    List<CaseRow> rows = CaseRow.all();
    List<String> broken = new ArrayList<>();
    Set<String> seen = new HashSet<>();
    int tried = 0;
    for (CaseRow first : rows) {
      Prompt alone = ANALYZER.prompts().read("p", first.prompt());
      boolean single = alone.parts().size() == 1 && alone.parts().get(0).demands().size() == 1;
      for (CaseRow second : rows) {
        boolean pair = second.prompt().equals(first.prompt()) && !second.equals(first);
        if (!single || !pair || !seen.add(first.answer() + "\n" + second.answer())) {
          continue;
        }
        seen.add(second.answer() + "\n" + first.answer());
        tried++;
        String a = stopped(first.answer());
        String b = stopped(second.answer());
        Verdict one = labelled(first, a + " " + b);
        Verdict other = labelled(first, b + " " + a);
        if (one != other) {
          broken.add(first.kind().word() + ": " + a + " / " + b + " " + one + " " + other);
        }
      }
    }
    int all = tried;
    assertTrue(all > 200, () -> "only " + all + " tried");
    assertEquals(List.of(), broken);
  }

  private static Verdict labelled(CaseRow row, String answer) {
    Prompt prompt =
        ANALYZER
            .prompts()
            .read("p", "(a) " + row.prompt() + "\n\n(b) Name the keeper of the lighthouse.\n");
    Coverage coverage =
        ANALYZER.analyze(prompt, "r", "(a) " + answer + "\n(b) The keeper is called Odo.\n");
    return coverage.parts().get(0).demands().get(0).verdict();
  }
}
