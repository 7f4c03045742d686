package everypart.cli.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.analyzer.coverage.CoverageAnalyzer;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** What reports say of the judge whose verdicts they show. */
class CautionsTest {
  private static final String WITH = "features and reader";

  @Test
  void aReportSaysWhetherTheReaderTookPart() {
    assertTrue(Cautions.judge(Set.of(WITH)).startsWith("Read with the reader"));
    assertTrue(
        Cautions.judge(Set.of(CoverageAnalyzer.WITHOUT_READER))
            .startsWith("Read without the reader"));
    assertTrue(
        Cautions.judge(Set.of(WITH, CoverageAnalyzer.WITHOUT_READER)).startsWith("Some answers"));
    assertEquals("", Cautions.judge(Set.of()));
  }
}
