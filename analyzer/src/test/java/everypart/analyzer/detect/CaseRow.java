package everypart.analyzer.detect;

import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.coverage.CoverageAnalyzer;
import everypart.analyzer.coverage.DemandCoverage;
import everypart.analyzer.coverage.PartCoverage;
import everypart.analyzer.coverage.Verdict;
import everypart.analyzer.prompt.Prompt;
import everypart.lexicon.DemandKind;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/**
 * A case of a detector: an answer to a prompt, and the verdict that it should get.
 *
 * @param kind the kind of demand; the first one of this kind in the prompt is judged
 * @param right the verdict that a careful reader gives
 * @param now the verdict that the program gives now; the same one unless the case is a known fault
 * @param prompt the prompt
 * @param answer the answer
 * @param note what the case shows
 */
record CaseRow(
    DemandKind kind, Verdict right, Verdict now, String prompt, String answer, String note) {
  private static final String SAME = "ok";
  private static final int COLUMNS = 5;

  /** Returns the name of the table of a kind. */
  static String table(DemandKind kind) {
    return "cases-" + kind.word() + ".tsv";
  }

  /** Returns the rows of a kind; none when there is no table. A malformed row fails. */
  static List<CaseRow> of(DemandKind kind) {
    List<CaseRow> rows = new ArrayList<>();
    for (String line : lines(kind)) {
      if (isRow(line)) {
        rows.add(parse(kind, line));
      }
    }
    return rows;
  }

  /** Returns the rows of all kinds that have a detector. */
  static List<CaseRow> all() {
    return Detectors.all().stream().flatMap(d -> of(d.kind()).stream()).toList();
  }

  static List<String> lines(DemandKind kind) {
    try (InputStream in = CaseRow.class.getResourceAsStream(table(kind))) {
      return in == null
          ? List.of()
          : new String(in.readAllBytes(), StandardCharsets.UTF_8).lines().toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static boolean isRow(String line) {
    return !line.isBlank() && !line.startsWith("#");
  }

  static CaseRow parse(DemandKind kind, String line) {
    List<String> cells = Arrays.stream(line.split(" \\| ")).map(String::strip).toList();
    if (cells.size() != COLUMNS) {
      throw new IllegalArgumentException(
          table(kind) + ": " + COLUMNS + " columns wanted, parted by \" | \": " + line);
    }
    Verdict right = verdict(cells.get(0));
    Verdict now = cells.get(1).equals(SAME) ? right : verdict(cells.get(1));
    return new CaseRow(kind, right, now, cells.get(2), cells.get(3), cells.get(4));
  }

  private static Verdict verdict(String word) {
    return Verdict.valueOf(word.toUpperCase(Locale.ROOT));
  }

  /** Returns the row as a line of the table, with another verdict of the program. */
  String line(Verdict found) {
    String state = found == right ? SAME : found.word();
    return String.join(" | ", right.word(), state, prompt, answer, note);
  }

  boolean isKnownFault() {
    return right != now;
  }

  /** Judges the answer. */
  DemandCoverage judge(CoverageAnalyzer analyzer) {
    return judge(analyzer, answer);
  }

  /** Judges another answer to the same demand. */
  DemandCoverage judge(CoverageAnalyzer analyzer, String other) {
    Prompt read = analyzer.prompts().read("case", prompt);
    Coverage coverage = analyzer.analyze(read, "r", other);
    for (PartCoverage part : coverage.parts()) {
      for (DemandCoverage demand : part.demands()) {
        if (demand.demand().kind() == kind) {
          return demand;
        }
      }
    }
    throw new IllegalStateException("no demand to " + kind.word() + " is read from: " + prompt);
  }

  @Override
  public String toString() {
    return kind.word() + ", " + note + ": " + answer;
  }
}
