package everypart.analyzer.study.simulation;

import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.analyzer.study.simulation.MadeUpStudies.Design;
import java.util.List;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** A few designs of {@link MadeUpStudies}, whose whole table stands in docs/statistics.md. */
final class MadeUpStudiesTest {
  private static final int STUDIES = 300;

  private static final List<Design> DESIGNS =
      List.of(
          new Design(6, 0.02, 0.4, 2),
          new Design(10, 0.2, 0.1, 2),
          new Design(20, 0.5, 0.4, 2),
          new Design(50, 0.05, 0.1, 2),
          new Design(50, 0.2, 0.1, 20));

  @TestFactory
  List<DynamicTest> figuresKeepTheirLevelOrAreWarnedOf() {
    return DESIGNS.stream().map(MadeUpStudiesTest::test).toList();
  }

  private static DynamicTest test(Design design) {
    return DynamicTest.dynamicTest(
        design.toString(),
        () ->
            MadeUpStudies.run(design, STUDIES)
                .forEach(
                    (figure, count) ->
                        assertTrue(
                            count.sound(),
                            figure.label()
                                + ": holds in "
                                + count.coverage()
                                + ", warned in "
                                + count.warned())));
  }

  /** A warning that is always there would keep any level. */
  @Test
  void mostStudiesOfAFairSizeAreNotWarnedOf() {
    MadeUpStudies.run(new Design(50, 0.2, 0.1, 2), 50)
        .forEach(
            (figure, count) -> {
              boolean lopsided = figure == MadeUpStudies.Figure.LOPSIDED;
              assertTrue(lopsided || count.warned() < 0.1, figure.label() + " " + count.warned());
            });
  }
}
