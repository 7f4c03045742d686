package everypart.cli.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Names of files that every system takes, and cells that no spreadsheet calculates. */
class SafeNamesAndCellsTest {
  @Test
  void namesOfFilesAreShortAndSafe() {
    assertEquals("r1", FileName.of("r1"));
    assertEquals("Ann Smith", FileName.of("Ann Smith"));
    assertEquals("a_b_c", FileName.of("a/b\\c"));
    assertEquals("_CON", FileName.of("CON"));
    assertEquals("_con.x", FileName.of("con.x"));
    assertEquals("_lpt1", FileName.of("lpt1"));
    assertEquals("_", FileName.of(""));
    assertTrue(!FileName.of("..").startsWith(".") && !FileName.of("x. ").endsWith(" "));
    assertEquals("_", FileName.of("\u0007"));
    String chinese = FileName.of("\u5b57".repeat(80));
    assertEquals(99, chinese.getBytes(StandardCharsets.UTF_8).length);
    assertTrue(FileName.of("\ud83d\ude00".repeat(80) + "\ud83d").matches("_+"));
  }

  @Test
  void noCellBeginsAFormulaWhereverItIsSplit() {
    assertEquals("'=1+1\r\n", DemandsCsv.row(List.of("=1+1")));
    assertEquals("\"x;'=1+1\"\r\n", DemandsCsv.row(List.of("x;=1+1")));
    assertEquals("\"x; '=1+1\"\r\n", DemandsCsv.row(List.of("x; =1+1")));
    assertEquals("\"x\t'@a\"\r\n", DemandsCsv.row(List.of("x\t@a")));
    assertEquals("\"x\n'-1\"\r\n", DemandsCsv.row(List.of("x\n-1")));
    assertTrue(DemandsCsv.row(List.of("\uff1d1+1")).contains("'\uff1d"));
    assertEquals("a,\"b;c\",d-e\r\n", DemandsCsv.row(List.of("a", "b;c", "d-e")));
  }
}
