package everypart.analyzer.detect;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.analyzer.coverage.Verdict;
import everypart.lexicon.DemandKind;
import java.io.IOException;
import java.net.URISyntaxException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Named;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Every detector has a kind, a one-line summary, a page, and cases of both verdicts. */
class DetectorCatalogueTest {
  private static final Path PAGES = Path.of("..", "docs", "detectors");
  private static final int LEAST_CASES = 6;
  private static final int LEAST_IN_ALL = 150;

  static List<Named<Detector>> named() {
    return detectors().stream().map(each -> Named.of(each.kind().word(), each)).toList();
  }

  private static List<Detector> detectors() {
    return Detectors.all();
  }

  @Test
  void everyDetectorClassIsInTheCatalogue() throws IOException, URISyntaxException {
    Path classes =
        Path.of(Detector.class.getProtectionDomain().getCodeSource().getLocation().toURI())
            .resolve("everypart/analyzer/detect");
    Set<String> compiled;
    try (Stream<Path> files = Files.list(classes)) {
      compiled =
          files
              .map(file -> file.getFileName().toString())
              .filter(name -> name.endsWith("Detector.class") && !name.equals("Detector.class"))
              .map(name -> name.replace(".class", ""))
              .collect(Collectors.toCollection(TreeSet::new));
    }
    assertFalse(compiled.isEmpty(), () -> "no detector under " + classes);
    assertEquals(
        compiled,
        detectors().stream()
            .map(detector -> detector.getClass().getSimpleName())
            .collect(Collectors.toCollection(TreeSet::new)));
  }

  @Test
  void everyKindThatTextCanAnswerHasOneDetector() {
    List<DemandKind> kinds = detectors().stream().map(Detector::kind).toList();
    assertEquals(EnumSet.complementOf(EnumSet.of(DemandKind.REPRESENT)), EnumSet.copyOf(kinds));
    assertEquals(kinds.size(), new HashSet<>(kinds).size(), kinds::toString);
  }

  @Test
  void noPageAndNoTableIsLeftWithoutADetector() throws IOException {
    Set<String> kinds =
        detectors().stream().map(detector -> detector.kind().word()).collect(Collectors.toSet());
    assertEquals(kinds, names(PAGES, "", ".md"));
    assertEquals(
        kinds, names(Path.of("src/test/resources/everypart/analyzer/detect"), "cases-", ".tsv"));
  }

  private static Set<String> names(Path folder, String start, String end) throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files
          .map(file -> file.getFileName().toString())
          .filter(name -> name.startsWith(start) && name.endsWith(end))
          .map(name -> name.substring(start.length(), name.length() - end.length()))
          .collect(Collectors.toSet());
    }
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("named")
  void theDetectorHasASummaryAPageAndCases(Detector detector) throws IOException {
    DemandKind kind = detector.kind();
    String page = Files.readString(PAGES.resolve(kind.word() + ".md"), StandardCharsets.UTF_8);
    List<CaseRow> rows = CaseRow.of(kind);
    assertAll(
        () -> assertFalse(detector.summary().isBlank(), "the summary is blank"),
        () -> assertEquals(1, detector.summary().lines().count(), "the summary is one line"),
        () ->
            assertTrue(
                page.startsWith("# " + kind.word() + "\n" + detector.summary() + "\n"),
                "the page opens with the kind and the summary"),
        () -> assertTrue(page.contains("\n## Counts\n- "), "the page says what counts"),
        () ->
            assertTrue(
                page.contains("\n## Does not count\n- "), "the page says what does not count"),
        () -> assertTrue(count(rows, Verdict.ADDRESSED) >= LEAST_CASES, "positive cases"),
        () -> assertTrue(count(rows, Verdict.MISSING) >= LEAST_CASES, "negative cases"),
        () ->
            assertEquals(
                rows.size(),
                rows.stream().map(row -> row.prompt() + row.answer()).distinct().count(),
                "a case stands twice"));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("named")
  void thePageTellsOfEveryKnownFaultAndOfNoOther(Detector detector) throws IOException {
    String page =
        Files.readString(PAGES.resolve(detector.kind().word() + ".md"), StandardCharsets.UTF_8);
    List<String> told =
        page.lines().dropWhile(line -> !line.equals(CaseTables.FAULTS)).skip(1).toList();
    List<String> faults =
        CaseRow.of(detector.kind()).stream()
            .filter(CaseRow::isKnownFault)
            .map(row -> CaseTables.fault(row, row.now()))
            .toList();
    assertEquals(faults.isEmpty() ? List.of("None among the cases.") : faults, told);
  }

  @Test
  void thereAreEnoughCasesInAll() {
    int all = CaseRow.all().size();
    assertTrue(all >= LEAST_IN_ALL, () -> all + " cases");
  }

  private static long count(List<CaseRow> rows, Verdict right) {
    return rows.stream().filter(row -> row.right() == right).count();
  }
}
