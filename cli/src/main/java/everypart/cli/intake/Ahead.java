package everypart.cli.intake;

import java.util.Iterator;
import java.util.NoSuchElementException;
import org.jspecify.annotations.Nullable;

/**
 * Reads one element ahead, so that it is known whether there is a next one before it is asked for.
 * Whoever extends it calls {@link #begin} at the end of its constructor.
 */
public abstract class Ahead<T> implements Iterator<T> {
  private @Nullable T next;

  /** Makes an iterator that has read nothing yet. */
  protected Ahead() {}

  /** Returns the next element from the source, or null at its end. */
  protected abstract @Nullable T read();

  /** Reads the first element. */
  protected final void begin() {
    next = read();
  }

  @Override
  public final boolean hasNext() {
    return next != null;
  }

  @Override
  public final T next() {
    T now = next;
    if (now == null) {
      throw new NoSuchElementException();
    }
    next = read();
    return now;
  }
}
