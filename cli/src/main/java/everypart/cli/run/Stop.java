package everypart.cli.run;

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
  private volatile Runnable wish = () -> {};

  /** Asks the run to stop, and waits a while for one that heeds it. */
  public void ask() {
    asked = true;
    wish.run();
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
  public void heed() {
    heeded = true;
  }

  /** Says what is to be done when the run is asked to end, and that it will end by itself then. */
  public void whenAsked(Runnable todo) {
    wish = todo;
    heeded = true;
  }

  /** Tells whether the run was asked to stop. */
  public boolean asked() {
    return asked;
  }
}
