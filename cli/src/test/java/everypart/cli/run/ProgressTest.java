package everypart.cli.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalLong;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;

/** The line that says how far a run is. */
class ProgressTest {
  private final StringWriter written = new StringWriter();
  private final AtomicLong nanos = new AtomicLong();

  private List<String> shown() {
    List<String> shown = new ArrayList<>(List.of(written.toString().split("\r\u001b\\[K", -1)));
    shown.remove(0);
    return shown;
  }

  private Progress progress(boolean watched, OptionalLong total) {
    return new Progress(new StatusLine(new PrintWriter(written), watched), nanos::get, total);
  }

  private void steps(Progress progress, int count, long millisEach) {
    for (int i = 0; i < count; i++) {
      nanos.addAndGet(millisEach * 1_000_000);
      progress.step();
    }
  }

  @Test
  void itSaysCountPaceAndTimeLeft() {
    Progress progress = progress(true, OptionalLong.of(2400));
    steps(progress, 1200, 10);
    assertEquals("1,200 of 2,400, 100 a second, 12 s left", shown().get(shown().size() - 1));
    progress.end();
    assertEquals("", shown().get(shown().size() - 1));
  }

  @Test
  void itIsDrawnFiveTimesASecondAtMost() {
    steps(progress(true, OptionalLong.of(1000)), 1000, 1);
    assertEquals(5, shown().size());
  }

  @Test
  void slowRunsAreCountedByTheMinute() {
    steps(progress(true, OptionalLong.of(1000)), 30, 4000);
    assertEquals("30 of 1,000, 15 a minute, 65 min left", shown().get(29));
  }

  @Test
  void thePaceIsThatOfTheLastSeconds() {
    Progress progress = progress(true, OptionalLong.of(10_000));
    steps(progress, 100, 1000);
    steps(progress, 600, 10);
    assertEquals("700 of 10,000, 100 a second, 2 min left", last());
  }

  private String last() {
    return shown().get(shown().size() - 1);
  }

  @Test
  void withoutATotalNoTimeIsPromised() {
    steps(progress(true, OptionalLong.empty()), 20, 100);
    assertEquals("20, 10 a second", last());
    steps(progress(true, OptionalLong.of(3)), 20, 100);
    assertEquals("20, 10 a second", last());
  }

  @Test
  void nothingIsDrawnWhereNobodyWatches() {
    Progress progress = progress(false, OptionalLong.of(100));
    steps(progress, 100, 1000);
    progress.end();
    assertEquals("", written.toString());
  }

  @Test
  void messagesStandAboveTheLine() {
    StatusLine line = new StatusLine(new PrintWriter(written), true);
    line.show("1 of 2");
    line.above("everypart: a message");
    assertTrue(
        written.toString().endsWith("\r\u001b[Keverypart: a message\n\r\u001b[K1 of 2")
            || written.toString().endsWith("message\r\n\r\u001b[K1 of 2"),
        written.toString());
  }
}
