package everypart.cli.open;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.OutputStream;
import java.time.Duration;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** Pages that come, go and come again, told in milliseconds where the page waits for seconds. */
@Timeout(60)
class VisitorsTest {
  private static final Duration PULSE = Duration.ofMillis(5);
  private static final Duration GRACE = Duration.ofMillis(600);

  /** Longer than the grace and than two looks at who is there. */
  private static final long LONG = 1_000;

  private final ExecutorService threads = Executors.newCachedThreadPool();
  private final Visitors visitors = new Visitors(PULSE, GRACE);

  /** A page: its connection breaks when it is closed. */
  private static final class Page extends OutputStream {
    private final CountDownLatch drawn = new CountDownLatch(1);
    private volatile boolean closed;

    @Override
    public void write(int sign) throws IOException {
      drawn.countDown();
      if (closed) {
        throw new IOException("gone");
      }
    }

    @Override
    public void close() {
      closed = true;
    }
  }

  private Page open() throws InterruptedException {
    Page page = new Page();
    threads.execute(() -> visitors.stay(page));
    assertTrue(page.drawn.await(30, TimeUnit.SECONDS));
    return page;
  }

  private Future<Boolean> waiting() {
    return threads.submit(visitors::awaitLast);
  }

  private static void goesOn(Future<Boolean> waiting) {
    assertThrows(TimeoutException.class, () -> waiting.get(LONG, TimeUnit.MILLISECONDS));
  }

  @AfterEach
  void end() {
    visitors.end();
    threads.shutdownNow();
  }

  @Test
  void itWaitsForAFirstPage() throws Exception {
    Future<Boolean> waiting = waiting();
    goesOn(waiting);
    visitors.end();
    assertEquals(false, waiting.get(), "it was ended, and no page went");
  }

  @Test
  void anOpenPageAndOneThatIsLoadedAnewKeepItWaiting() throws Exception {
    Future<Boolean> waiting = waiting();
    Page page = open();
    goesOn(waiting);
    page.close();
    Page anew = open();
    goesOn(waiting);
    anew.close();
    assertEquals(true, waiting.get());
  }

  @Test
  void thePagesThatAreOpenAreCounted() throws Exception {
    Future<Boolean> waiting = waiting();
    Page first = open();
    Page second = open();
    first.close();
    goesOn(waiting);
    second.close();
    assertEquals(true, waiting.get());
  }
}
