package everypart.cli.open;

import java.io.IOException;
import java.io.OutputStream;
import java.time.Duration;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;

/**
 * The pages that are open. Each holds one answer open, and when its connection breaks, it is gone.
 * A page that is loaded anew has a moment to come back.
 */
final class Visitors {
  private final Duration pulse;
  private final Duration grace;
  private final AtomicInteger here = new AtomicInteger();
  private final AtomicInteger came = new AtomicInteger();
  private final CountDownLatch over = new CountDownLatch(1);

  Visitors(Duration pulse, Duration grace) {
    this.pulse = pulse;
    this.grace = grace;
  }

  /** Holds an answer open until its page is gone or the visit is over. */
  void stay(OutputStream out) {
    here.incrementAndGet();
    came.incrementAndGet();
    try {
      while (!over.await(pulse.toMillis(), TimeUnit.MILLISECONDS)) {
        out.write('.');
        out.flush();
      }
    } catch (IOException gone) {
      // That is how a page says goodbye.
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    } finally {
      here.decrementAndGet();
    }
  }

  /** Ends the visit. */
  void end() {
    over.countDown();
  }

  /**
   * Waits until every page is gone, but not before one came.
   *
   * @return whether it was pages that went, and not {@link #end}
   */
  boolean awaitLast() throws InterruptedException {
    long emptySince = 0;
    int seen = 0;
    while (!over.await(100, TimeUnit.MILLISECONDS)) {
      long now = System.nanoTime();
      if (came.get() == 0 || here.get() > 0) {
        emptySince = 0;
      } else if (emptySince == 0 || seen != came.get()) {
        emptySince = now;
        seen = came.get();
      } else if (now - emptySince > grace.toNanos()) {
        return true;
      }
    }
    return false;
  }
}
