package everypart.analyzer.prompt;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.sun.management.ThreadMXBean;
import everypart.lexicon.Lexicon;
import java.lang.management.ManagementFactory;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * A prompt of twice as many signs without a stop takes twice as much to read. What is counted is
 * the bytes that are made, so the machine's pace does not matter.
 */
class LongPromptsTest {
  private static final int LENGTH = 2_000;
  private static final double MOST = 2.3;

  private final PromptReader reader = new PromptReader(Lexicon.bundled());

  @ParameterizedTest
  @ValueSource(
      strings = {"a* ", "*", "a) ", "plan ", "why ", "- x\n", "- A b. C d.\n", "and how, "})
  void twiceAsMuchTakesTwiceAsLong(String piece) {
    made(piece, LENGTH);
    long once = made(piece, LENGTH);
    long twice = made(piece, 2 * LENGTH);
    long fourTimes = made(piece, 4 * LENGTH);
    assertTrue(twice < MOST * once, twice + " bytes, for half of it " + once);
    assertTrue(fourTimes < MOST * twice, fourTimes + " bytes, for half of it " + twice);
  }

  private long made(String piece, int length) {
    String text = piece.repeat(length / piece.length());
    ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
    long before = threads.getThreadAllocatedBytes(Thread.currentThread().getId());
    assertFalse(reader.read("p", text).parts().isEmpty());
    return threads.getThreadAllocatedBytes(Thread.currentThread().getId()) - before;
  }
}
