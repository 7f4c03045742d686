package everypart.cli.command;

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
import java.util.function.Function;

/**
 * Does one piece of work for each input on all cores and hands on the outcomes in the inputs'
 * order.
 *
 * <p>No more than a fixed number of inputs are under way at a time, so a stream of any length fits
 * into memory.
 */
final class OrderedPipeline {
  private static final int UNDER_WAY_A_THREAD = 64;
  private static final long LOOK_UP_MILLIS = 100;

  /** Takes an outcome. */
  interface Sink<O> {
    void accept(O outcome) throws IOException;
  }

  private OrderedPipeline() {}

  /** Runs the work on as many threads as there are cores. */
  static <I, O> void run(Iterator<I> inputs, Function<I, O> work, Sink<O> sink) throws IOException {
    run(Runtime.getRuntime().availableProcessors(), inputs, work, sink);
  }

  /** Runs the work on a number of threads. */
  static <I, O> void run(int threads, Iterator<I> inputs, Function<I, O> work, Sink<O> sink)
      throws IOException {
    run(threads, inputs, work, sink, () -> false);
  }

  /**
   * Runs the work.
   *
   * @param threads how many threads work at a time
   * @param work is called on several threads at once; what it throws is thrown to the caller
   * @param sink is called on the caller's thread, in the inputs' order
   * @param stopped when it tells so, what is done is handed on up to the first input that is not,
   *     and the rest is left
   */
  static <I, O> void run(
      int threads, Iterator<I> inputs, Function<I, O> work, Sink<O> sink, BooleanSupplier stopped)
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
      Deque<Future<O>> underWay = new ArrayDeque<>();
      while (!stopped.getAsBoolean() && inputs.hasNext()) {
        I input = inputs.next();
        underWay.add(workers.submit(() -> work.apply(input)));
        if (underWay.size() >= threads * UNDER_WAY_A_THREAD
            && isDone(underWay.getFirst(), stopped)) {
          sink.accept(outcome(underWay.remove()));
        }
      }
      while (!underWay.isEmpty() && isDone(underWay.getFirst(), stopped)) {
        sink.accept(outcome(underWay.remove()));
      }
    } finally {
      workers.shutdownNow();
    }
  }

  /** Waits until it is done, or the run is stopped before. */
  private static boolean isDone(Future<?> future, BooleanSupplier stopped) {
    while (!future.isDone() && !stopped.getAsBoolean()) {
      try {
        future.get(LOOK_UP_MILLIS, TimeUnit.MILLISECONDS);
      } catch (TimeoutException | ExecutionException e) {
        // Look whether the run was stopped; what the work threw is told with its outcome.
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        throw new IllegalStateException("interrupted", e);
      }
    }
    return future.isDone();
  }

  private static <O> O outcome(Future<O> future) {
    try {
      return future.get();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("interrupted", e);
    } catch (ExecutionException e) {
      throw e.getCause() instanceof RuntimeException cause
          ? cause
          : new IllegalStateException(e.getCause());
    }
  }
}
