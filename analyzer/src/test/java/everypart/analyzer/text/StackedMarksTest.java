package everypart.analyzer.text;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;

import org.junit.jupiter.api.Test;

class StackedMarksTest {
  @Test
  void leavesWhatPeopleWrite() {
    String text = "Vie\u0302\u0323t; \u05e9\u05c1\u05b8; caf\u00e9; \ud83d\ude00";
    assertSame(text, StackedMarks.bounded(text));
  }

  @Test
  void keepsEachOtherSignInItsPlace() {
    String text = "a" + "\u0301".repeat(20) + "b" + "\ud805\udcb3".repeat(12) + "c\ud83d";
    assertEquals(
        "a"
            + "\u0301".repeat(8)
            + "\u200b".repeat(12)
            + "b"
            + "\ud805\udcb3".repeat(8)
            + "\u200b".repeat(8)
            + "c\ud83d",
        StackedMarks.bounded(text));
  }
}
