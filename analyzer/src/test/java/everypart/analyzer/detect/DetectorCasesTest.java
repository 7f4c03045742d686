package everypart.analyzer.detect;

import static org.junit.jupiter.api.Assertions.assertEquals;

import everypart.analyzer.coverage.CoverageAnalyzer;
import everypart.analyzer.coverage.DemandCoverage;
import everypart.lexicon.Lexicon;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Holds each detector to its table of cases. A case that the program still gets wrong states the
 * wrong verdict, so that a mended fault is noticed too; {@link CaseTables} writes the tables anew.
 */
class DetectorCasesTest {
  private static final CoverageAnalyzer ANALYZER = new CoverageAnalyzer(Lexicon.bundled());

  static List<CaseRow> cases() {
    return CaseRow.all();
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("cases")
  void theVerdictIsAsTheTableSays(CaseRow row) {
    DemandCoverage found = row.judge(ANALYZER);
    assertEquals(
        row.now(),
        found.verdict(),
        () ->
            (row.isKnownFault() ? "a known fault has changed; " : "")
                + "right is "
                + row.right().word()
                + ", the program says "
                + found.why()
                + "; when the change is meant, run CaseTables (DEVELOPERS.md)");
  }
}
