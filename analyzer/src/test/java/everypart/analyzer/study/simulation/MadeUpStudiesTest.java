package everypart.analyzer.study.simulation;

import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.analyzer.study.simulation.MadeUpStudies.Design;
import java.util.List;
import java.util.Objects;
import org.apache.commons.statistics.distribution.BinomialDistribution;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** A few designs of {@link MadeUpStudies}, whose whole table stands in docs/statistics.md. */
final class MadeUpStudiesTest {
  private static final int STUDIES = 300;
  private static final int FAIR_STUDIES = 200;
  private static final int RARE_STUDIES = 1000;
  private static final double MOST_WARNED = 0.02;

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

  /**
   * Where missing demands are rare and clusters differ much, groups were warned of unless they were
   * found to be alike, and intervals without a warning held in .993 to .995, warned of in .27. Now
   * they hold in .959 and .954 of 2,000 studies (Monte Carlo standard error .005), warned of in .02
   * and .01.
   */
  @Test
  void aWarningDoesNotPassJustTheStudiesWhoseGroupsAreFoundAlike() {
    var counts = MadeUpStudies.run(new Design(200, 0.05, 0.4, 2), RARE_STUDIES);
    for (var figure : List.of(MadeUpStudies.Figure.BETWEEN, MadeUpStudies.Figure.OTHERS)) {
      var count = Objects.requireNonNull(counts.get(figure));
      assertTrue(count.warned() < 0.1, figure + ": warned in " + count.warned());
      assertTrue(
          count.sound() && count.coverage() < 0.985, figure + ": holds in " + count.coverage());
    }
  }

  /**
   * A warning that is always there would keep any level. Over 2,000 studies of this design fewer
   * than one in 200 have a warning at any figure but a fifth of the clusters against the rest,
   * which is always warned of and left out here. Fails where as many warnings or more have a chance
   * of one in a thousand at 0.02.
   */
  @Test
  void fewStudiesOfAFairSizeAreWarnedOf() {
    int bound =
        BinomialDistribution.of(FAIR_STUDIES, MOST_WARNED).inverseSurvivalProbability(0.001);
    assertTrue(bound < FAIR_STUDIES / 4, "too few studies to tell: " + bound);
    MadeUpStudies.run(new Design(50, 0.2, 0.1, 2), FAIR_STUDIES)
        .forEach(
            (figure, count) ->
                assertTrue(
                    figure == MadeUpStudies.Figure.LOPSIDED
                        || Math.round(count.warned() * count.studies()) <= bound,
                    figure.label() + " " + count.warned()));
  }
}
