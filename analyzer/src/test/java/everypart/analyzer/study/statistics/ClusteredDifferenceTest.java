package everypart.analyzer.study.statistics;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import org.junit.jupiter.api.Test;

/** When a difference of groups is warned of. What the warnings do is measured by simulation. */
final class ClusteredDifferenceTest {
  /** Adds clusters of 20 demands, those of one group after those of the other. */
  private static ClusteredDifference study(
      int firstClusters, int firstMissing, int secondClusters, int secondMissing) {
    ClusteredDifference study = new ClusteredDifference();
    for (int cluster = 0; cluster < firstClusters; cluster++) {
      study.add(firstMissing + cluster % 3, 20, 0, 0);
    }
    for (int cluster = 0; cluster < secondClusters; cluster++) {
      study.add(0, 0, secondMissing + cluster % 3, 20);
    }
    return study;
  }

  private static void warns(String words, ClusteredDifference study) {
    Optional<String> warning = study.method().warning();
    assertTrue(warning.isPresent() && warning.get().startsWith(words), warning.toString());
  }

  @Test
  void aSmallGroupWithFewClustersIsWarnedOf() {
    warns("One group is small beside the other", study(8, 4, 40, 4));
    warns("One group is small beside the other", study(40, 4, 8, 4));
  }

  @Test
  void aSmallGroupWithClustersEnoughIsNot() {
    assertEquals(Optional.empty(), study(40, 4, 160, 4).method().warning());
  }

  /**
   * Whether groups of like size are warned of does not hang on how far apart they are found to be:
   * a warning that passes on those that are alike would leave intervals that hold nearly always.
   */
  @Test
  void groupsOfLikeSizeAreNotWarnedOfForBeingFoundApart() {
    ClusteredDifference apart = new ClusteredDifference();
    for (int cluster = 0; cluster < 30; cluster++) {
      apart.add(cluster % 6 == 0 ? 1 : 0, 20, 0, 0);
      apart.add(0, 0, cluster % 3 == 0 ? 6 : 0, 20);
    }
    apart.add(1, 20, 0, 0);
    assertEquals(Optional.empty(), apart.method().warning());
    assertEquals(Optional.empty(), study(30, 4, 30, 5).method().warning());
  }

  @Test
  void groupsThatShareClustersAreNotLopsided() {
    ClusteredDifference study = new ClusteredDifference();
    for (int cluster = 0; cluster < 40; cluster++) {
      study.add(cluster % 3, 4, 2 + cluster % 5, 40);
    }
    assertEquals(Optional.empty(), study.method().warning());
  }

  @Test
  void aGroupWhoseRateFewClustersTellIsWarnedOf() {
    ClusteredDifference study = new ClusteredDifference();
    for (int cluster = 0; cluster < 40; cluster++) {
      study.add(cluster % 10 == 0 ? 12 : 0, 20, 0, 0);
      study.add(0, 0, 1, 20);
    }
    warns("What tells the rate of one group comes from too few clusters (worth 4.0", study);
  }

  @Test
  void aMissingDemandInFewClustersIsWarnedOf() {
    ClusteredDifference study = study(30, 0, 30, 0);
    ClusteredDifference rare = new ClusteredDifference();
    for (int cluster = 0; cluster < 60; cluster++) {
      int missing = cluster % 10 == 0 ? 1 : 0;
      boolean first = cluster % 20 < 10;
      rare.add(first ? missing : 0, first ? 20 : 0, first ? 0 : missing, first ? 0 : 20);
    }
    assertEquals(Optional.empty(), study.method().warning());
    warns("What tells the figure comes from too few clusters (worth 6.0, 8 are needed)", rare);
  }
}
