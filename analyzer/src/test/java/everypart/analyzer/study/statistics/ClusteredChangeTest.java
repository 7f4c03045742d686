package everypart.analyzer.study.statistics;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** Changes in clusters: against those of single items, and mirrored. */
class ClusteredChangeTest {
  private static ClusteredChange of(PairedChange one, PairedChange other, int times) {
    ClusteredChange change = new ClusteredChange();
    for (int i = 0; i < times; i++) {
      change.add(one);
      change.add(other);
    }
    return change;
  }

  @Test
  void clustersOfOneItemAreTheItems() {
    ClusteredChange change = new ClusteredChange();
    int[] kinds = {10, 2, 12, 6};
    for (int kind = 0; kind < kinds.length; kind++) {
      for (int i = 0; i < kinds[kind]; i++) {
        change.add(
            new PairedChange(
                kind == 0 ? 1 : 0, kind == 1 ? 1 : 0, kind == 2 ? 1 : 0, kind == 3 ? 1 : 0));
      }
    }
    PairedChange items = new PairedChange(10, 2, 12, 6);
    assertEquals(items, change.counts());
    assertEquals(Method.Name.ALONE, change.method().name());
    assertEquals(items.change(Level.DEFAULT), change.change(Level.DEFAULT));
    assertEquals(items.test(), change.test());
  }

  @Test
  void clustersInWhichNothingChangedCountOnceEach() {
    ClusteredChange change = of(new PairedChange(2, 0, 0, 1), new PairedChange(1, 0, 0, 2), 3);
    assertEquals(new PairedChange(9, 0, 0, 9), change.counts());
    assertEquals(new PairedChange(0, 0, 0, 6).change(Level.DEFAULT), change.change(Level.DEFAULT));
  }

  @Test
  void theChangeIsThatOfTheItemsAndMirrorsWhereTheDraftsAreSwapped() {
    ClusteredChange change = of(new PairedChange(1, 0, 2, 1), new PairedChange(1, 1, 0, 2), 8);
    ClusteredChange swapped = of(new PairedChange(1, 2, 0, 1), new PairedChange(1, 0, 1, 2), 8);
    Estimate found = change.change(Level.DEFAULT).orElseThrow();
    Estimate mirrored = swapped.change(Level.DEFAULT).orElseThrow();
    assertEquals((16.0 - 8) / 64, found.value(), 1e-12);
    assertTrue(found.interval().low() < found.value() && found.value() < found.interval().high());
    assertEquals(-found.value(), mirrored.value(), 1e-12);
    assertEquals(-found.interval().low(), mirrored.interval().high(), 1e-12);
    assertEquals(-found.interval().high(), mirrored.interval().low(), 1e-12);
    assertTrue(change.test().isPresent() && swapped.test().isPresent());
  }
}
