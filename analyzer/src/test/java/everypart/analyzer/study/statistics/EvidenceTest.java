package everypart.analyzer.study.statistics;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** What counts that come in clusters are worth, worked out by hand. */
class EvidenceTest {
  private static final double EXACT = 1e-12;

  @Test
  void nothingIsWorthNothing() {
    assertEquals(0, new Evidence().worth());
    assertEquals(0, new Evidence().size());
  }

  @Test
  void equalClustersAreWorthTheirNumber() {
    Evidence evidence = new Evidence();
    for (int cluster = 0; cluster < 10; cluster++) {
      evidence.add(1, 3);
    }
    assertEquals(10, evidence.worth(), EXACT);
    assertEquals(10, evidence.size(), EXACT);
  }

  @Test
  void oneClusterWithHalfOfAllIsWorthLittle() {
    Evidence evidence = new Evidence();
    for (int cluster = 0; cluster < 9; cluster++) {
      evidence.add(1, 3);
    }
    evidence.add(10, 12);
    assertEquals(361.0 / 109, evidence.worth(), EXACT);
    assertEquals(1521.0 / 225, evidence.size(), EXACT);
  }

  @Test
  void theSmallerSideDecides() {
    Evidence evidence = new Evidence();
    evidence.add(3, 4);
    evidence.add(3, 4);
    evidence.add(0, 5);
    assertEquals(49.0 / 27, evidence.worth(), EXACT);
  }
}
