package everypart.cli.command;

import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;

/**
 * Somebody's wish that the run end now, as with Ctrl-C. A command that can leave something useful
 * behind heeds it; any other just ends.
 */
public final class Stop {
  private static final long SECONDS = 20;

  private final CountDownLatch over = new CountDownLatch(1);
  private volatile boolean asked;
  private volatile boolean heeded;

  /** Asks the run to stop, and waits a while for one that heeds it. */
  public void ask() {
    asked = true;
    if (heeded) {
      try {
        over.await(SECONDS, TimeUnit.SECONDS);
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
      }
    }
  }

  /** Says that the run has ended. */
  public void over() {
    over.countDown();
  }

  /** Says that the run will end by itself when asked. */
  void heed() {
    heeded = true;
  }

  /** Tells whether the run was asked to stop. */
  boolean asked() {
    return asked;
  }
}
