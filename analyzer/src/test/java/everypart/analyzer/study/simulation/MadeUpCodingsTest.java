package everypart.analyzer.study.simulation;

import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.analyzer.study.simulation.MadeUpCodings.Design;
import everypart.analyzer.study.simulation.MadeUpCodings.Scheme;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

/** A few designs of {@link MadeUpCodings}, whose whole table stands in docs/statistics.md. */
final class MadeUpCodingsTest {
  private static final int STUDIES = 150;

  private static final List<Design> DESIGNS =
      List.of(
          new Design(400, 0.2, 0.3, 150, 0.05, Scheme.STRATA),
          new Design(400, 0.1, 0, 200, 0.05, Scheme.STRATA),
          new Design(400, 0.2, 0.3, 200, 0.05, Scheme.RESPONSES));

  @TestFactory
  List<DynamicTest> figuresOfAgreementKeepTheirLevelOrAreWarnedOf() {
    return DESIGNS.stream()
        .map(design -> DynamicTest.dynamicTest(design.toString(), () -> test(design)))
        .toList();
  }

  private static void test(Design design) {
    var counts = MadeUpCodings.run(design, STUDIES);
    assertTrue(
        counts.keySet().containsAll(Set.of("agreement", "kappa", "alpha", "AC1", "recall", "F1")));
    counts.forEach(
        (figure, count) ->
            assertTrue(
                count.sound() && count.warned() < 0.5,
                figure + ": holds in " + count.coverage() + ", warned in " + count.warned()));
  }
}
