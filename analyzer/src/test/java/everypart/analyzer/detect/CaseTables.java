package everypart.analyzer.detect;

import everypart.analyzer.coverage.CoverageAnalyzer;
import everypart.analyzer.coverage.DemandCoverage;
import everypart.analyzer.coverage.Verdict;
import everypart.lexicon.DemandKind;
import everypart.lexicon.Lexicon;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * Prints how far the program agrees with the tables of cases; with {@code --write}, it also puts
 * the present verdicts into the tables and the known faults into the pages of the detectors. Run it
 * in the project's root folder.
 */
public final class CaseTables {
  private static final String TABLES = "analyzer/src/test/resources/everypart/analyzer/detect";
  private static final String PAGES = "docs/detectors";

  /** The heading of the last section of a page, which this program writes. */
  static final String FAULTS = "## Known faults";

  private CaseTables() {}

  /** Runs it. */
  public static void main(String[] args) throws IOException {
    boolean write = args.length == 1 && args[0].equals("--write");
    CoverageAnalyzer analyzer = new CoverageAnalyzer(Lexicon.bundled());
    int right = 0;
    int all = 0;
    for (Detector detector : Detectors.all()) {
      DemandKind kind = detector.kind();
      List<String> lines = new ArrayList<>();
      List<String> faults = new ArrayList<>();
      int rightHere = 0;
      int falseMissing = 0;
      int overlooked = 0;
      int here = 0;
      for (String line : CaseRow.lines(kind)) {
        if (!CaseRow.isRow(line)) {
          lines.add(line);
          continue;
        }
        CaseRow row = CaseRow.parse(kind, line);
        DemandCoverage demand = row.judge(analyzer);
        Verdict found = demand.verdict();
        lines.add(row.line(found));
        here++;
        if (found == row.right()) {
          rightHere++;
          continue;
        }
        faults.add(fault(row, found));
        falseMissing += found == Verdict.MISSING ? 1 : 0;
        overlooked += row.right() == Verdict.MISSING ? 1 : 0;
        System.out.printf(Locale.ROOT, "  %s -> %s %s%n", row, found.word(), demand.why());
      }
      right += rightHere;
      all += here;
      System.out.printf(
          Locale.ROOT,
          "%-10s %3d of %3d right, %d answered called missing, %d open overlooked%n",
          kind.word(),
          rightHere,
          here,
          falseMissing,
          overlooked);
      if (write) {
        Files.write(Path.of(TABLES, CaseRow.table(kind)), lines, StandardCharsets.UTF_8);
        writeFaults(Path.of(PAGES, kind.word() + ".md"), faults);
      }
    }
    System.out.printf(Locale.ROOT, "%-10s %3d of %3d right%n", "all", right, all);
  }

  /** Returns the line that tells of a fault in the page of a detector. */
  static String fault(CaseRow row, Verdict found) {
    return String.format(
        Locale.ROOT,
        "- %s: \"%s\" (to \"%s\") is called %s; right is %s.",
        row.note(),
        row.answer(),
        row.prompt(),
        found.word(),
        row.right().word());
  }

  private static void writeFaults(Path page, List<String> faults) throws IOException {
    List<String> lines = new ArrayList<>();
    for (String line : Files.readAllLines(page, StandardCharsets.UTF_8)) {
      if (line.equals(FAULTS)) {
        break;
      }
      lines.add(line);
    }
    lines.add(FAULTS);
    lines.addAll(faults.isEmpty() ? List.of("None among the cases.") : faults);
    Files.write(page, lines, StandardCharsets.UTF_8);
  }
}
