package everypart.cli.intake.document;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

/** A hostile file costs one sentence, or is read. */
class HostileFilesTest {
  /** Lower than the usual bounds where reaching those takes long. */
  private static final Limits LIMITS =
      Limits.USUAL.with(Limit.STEPS, 100_000).with(Limit.UNPACKED, 60).with(Limit.ROWS, 20_000);

  @TestFactory
  Stream<DynamicTest> isToldOfOrRead() {
    return HostileFiles.all().entrySet().stream()
        .map(file -> DynamicTest.dynamicTest(file.getKey(), () -> meets(file)));
  }

  private static void meets(Map.Entry<String, HostileFiles.Hostile> file) throws Exception {
    String told = file.getValue().told();
    Optional<String> said =
        Sheet.reads(file.getKey())
            ? sheet(file.getKey(), file.getValue().bytes())
            : document(file.getKey(), file.getValue().bytes());
    assertEquals(!told.isEmpty(), said.isPresent(), said.toString());
    assertTrue(said.orElse("").contains(told), said.toString());
  }

  private static Optional<String> document(String name, byte[] bytes) {
    try {
      assertTrue(!new Documents(LIMITS).read(name, bytes).text().isBlank());
      return Optional.empty();
    } catch (DocumentException e) {
      return Optional.of(e.remark().sentence());
    }
  }

  /** Returns the last thing that is said of a sheet or its rows. */
  private static Optional<String> sheet(String name, byte[] bytes) throws Exception {
    Optional<FileRemark> said = Optional.empty();
    try (Sheet sheet = Sheet.open(name, bytes, LIMITS)) {
      while (sheet.hasNext()) {
        SheetRow row = sheet.next();
        said = sheet.fault(row).isPresent() ? sheet.fault(row) : said;
      }
      return sheet.fault().isPresent()
          ? sheet.fault().map(FileRemark::sentence)
          : said.map(FileRemark::sentence);
    } catch (DocumentException e) {
      return Optional.of(e.remark().sentence());
    }
  }
}
