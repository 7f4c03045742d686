package everypart.cli.intake.document;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;

/**
 * Does the work on one document on a thread of its own, so that a document that takes too long,
 * runs out of memory or nests too deep costs a sentence and not the run.
 *
 * <p>The thread is asked to end when its processor time is over. One that does not, since it is in
 * a loop of a library, is left behind: it is a daemon and ends with the program.
 */
final class Watch {
  /** What is done. */
  interface Work<T> {
    T get() throws Exception;
  }

  private static final long FIRST_LOOK_MILLIS = 50;
  private static final long GRACE_MILLIS = 2_000;

  /** Wall time may be longer than processor time by so much, where others use the machine. */
  private static final long SLOWEST = 4;

  private Watch() {}

  /**
   * Does the work.
   *
   * @throws DocumentException when it passes a bound, time and memory among them
   * @throws ExecutionException when it ends with anything else
   */
  static <T> T over(Meter meter, Work<T> work) throws DocumentException, ExecutionException {
    FutureTask<T> task = new FutureTask<>(work::get);
    Thread thread = new Thread(task, "reader");
    thread.setDaemon(true);
    thread.start();
    try {
      T done = await(meter, task, thread);
      if (meter.passed().isPresent()) {
        throw new DocumentException(meter.passed().get());
      }
      return done;
    } catch (ExecutionException e) {
      if (meter.passed().isPresent()) {
        throw new DocumentException(meter.passed().get());
      }
      for (Throwable cause = e.getCause(); cause != null; cause = cause.getCause()) {
        if (cause instanceof OutOfMemoryError) {
          throw new DocumentException(Faults.NO_MEMORY);
        }
        if (cause instanceof StackOverflowError) {
          throw new DocumentException(Faults.TOO_DEEP);
        }
      }
      throw e;
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("interrupted", e);
    }
  }

  private static <T> T await(Meter meter, FutureTask<T> task, Thread thread)
      throws ExecutionException, InterruptedException, DocumentException {
    long most = TimeUnit.SECONDS.toNanos(meter.limits().of(Limit.SECONDS));
    long start = System.nanoTime();
    while (true) {
      try {
        return task.get(FIRST_LOOK_MILLIS, TimeUnit.MILLISECONDS);
      } catch (TimeoutException e) {
        long used = processorNanos(thread, start);
        if (used > most || System.nanoTime() - start > most * SLOWEST) {
          meter.end();
          thread.interrupt();
          try {
            return task.get(GRACE_MILLIS, TimeUnit.MILLISECONDS);
          } catch (TimeoutException stillAtIt) {
            throw new DocumentException(meter.limits().exceeded(Limit.SECONDS));
          }
        }
      }
    }
  }

  private static long processorNanos(Thread thread, long start) {
    ThreadMXBean threads = ManagementFactory.getThreadMXBean();
    long used =
        threads.isThreadCpuTimeSupported() && threads.isThreadCpuTimeEnabled()
            ? threads.getThreadCpuTime(thread.getId())
            : System.nanoTime() - start;
    return used;
  }
}
