package everypart.cli.run;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Iterator;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.BooleanSupplier;

/**
 * Does one piece of work for each input on all cores and hands on the outcomes in the inputs'
 * order.
 *
 * <p>No more than a fixed number of inputs, and no more than half of the memory may need, are under
 * way at a time, so a stream of any length fits into memory. An input that may need more than that
 * by itself is worked on while nothing else is; one for which memory ran out while others were
 * worked on is tried again like that.
 */
public final class OrderedPipeline {
  private static final int UNDER_WAY_A_THREAD = 64;
  private static final long LOOK_UP_MILLIS = 100;

  /**
   * Is done with each input, on several threads at once; what it throws is thrown to the caller.
   */
  @FunctionalInterface
  public interface Work<I, O> {
    O of(I input);

    /** Returns how many bytes of memory the work on an input may take. */
    default long bytes(I input) {
      return 0;
    }

    /** Returns the outcome of an input for which there is not memory enough. */
    default O withoutMemory(I input, OutOfMemoryError error) {
      throw error;
    }
  }

  /** Takes an outcome. */
  public interface Sink<O> {
    void accept(O outcome) throws IOException;
  }

  private OrderedPipeline() {}

  /** An input on which work goes on. */
  private record UnderWay<I, O>(I input, long bytes, Future<O> outcome) {}

  /** Runs the work on as many threads as there are cores. */
  public static <I, O> void run(Iterator<I> inputs, Work<I, O> work, Sink<O> sink)
      throws IOException {
    run(Runtime.getRuntime().availableProcessors(), inputs, work, sink);
  }

  /** Runs the work on a number of threads. */
  public static <I, O> void run(int threads, Iterator<I> inputs, Work<I, O> work, Sink<O> sink)
      throws IOException {
    run(threads, inputs, work, sink, () -> false);
  }

  /**
   * Runs the work.
   *
   * @param threads how many threads work at a time
   * @param sink is called on the caller's thread, in the inputs' order
   * @param stopped when it tells so, what is done is handed on up to the first input that is not,
   *     and the rest is left
   */
  public static <I, O> void run(
      int threads, Iterator<I> inputs, Work<I, O> work, Sink<O> sink, BooleanSupplier stopped)
      throws IOException {
    ExecutorService workers =
        Executors.newFixedThreadPool(
            threads,
            task -> {
              Thread thread = new Thread(task, "analyzer");
              thread.setDaemon(true);
              return thread;
            });
    try {
      Deque<UnderWay<I, O>> underWay = new ArrayDeque<>();
      long most = free() / 2;
      long bytes = 0;
      while (!stopped.getAsBoolean() && inputs.hasNext()) {
        I input = inputs.next();
        long own = work.bytes(input);
        while (!underWay.isEmpty()
            && (bytes + own > most || underWay.size() >= threads * UNDER_WAY_A_THREAD)
            && isDone(underWay.getFirst().outcome(), stopped)) {
          bytes -= underWay.getFirst().bytes();
          sink.accept(outcome(underWay, work, stopped));
        }
        bytes += own;
        underWay.add(new UnderWay<>(input, own, workers.submit(() -> work.of(input))));
        if (own > most && isDone(underWay.getFirst().outcome(), stopped)) {
          bytes -= own;
          sink.accept(outcome(underWay, work, stopped)); // before the next one is read
        }
      }
      while (!underWay.isEmpty() && isDone(underWay.getFirst().outcome(), stopped)) {
        sink.accept(outcome(underWay, work, stopped));
      }
    } finally {
      workers.shutdownNow();
    }
  }

  /** Returns how much memory nothing has taken yet. */
  private static long free() {
    Runtime runtime = Runtime.getRuntime();
    return runtime.maxMemory() - (runtime.totalMemory() - runtime.freeMemory());
  }

  /** Waits until it is done, or the run is stopped before. */
  private static boolean isDone(Future<?> future, BooleanSupplier stopped) {
    while (!future.isDone() && !stopped.getAsBoolean()) {
      try {
        future.get(LOOK_UP_MILLIS, TimeUnit.MILLISECONDS);
      } catch (TimeoutException | ExecutionException e) {
        // Look whether the run was stopped; what the work threw is told with its outcome.
      } catch (OutOfMemoryError e) {
        // Those at work have taken it all; they are about to be told so themselves.
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        throw new IllegalStateException("interrupted", e);
      }
    }
    return future.isDone();
  }

  private static <I, O> O outcome(
      Deque<UnderWay<I, O>> underWay, Work<I, O> work, BooleanSupplier stopped) {
    UnderWay<I, O> done = underWay.remove();
    try {
      return done.outcome().get();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("interrupted", e);
    } catch (ExecutionException e) {
      if (e.getCause() instanceof OutOfMemoryError) {
        underWay.forEach(other -> isDone(other.outcome(), stopped));
        return alone(done.input(), work);
      }
      throw e.getCause() instanceof RuntimeException cause
          ? cause
          : new IllegalStateException(e.getCause());
    }
  }

  private static <I, O> O alone(I input, Work<I, O> work) {
    try {
      return work.of(input);
    } catch (OutOfMemoryError e) {
      return work.withoutMemory(input, e);
    }
  }
}
