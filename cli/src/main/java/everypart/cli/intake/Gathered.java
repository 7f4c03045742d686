package everypart.cli.intake;

import java.util.Iterator;
import java.util.List;

/** Arrivals that were all read before. */
public final class Gathered implements Arrivals {
  private final Iterator<Arrival> all;

  /** Gives these on again, in their order. */
  public Gathered(List<Arrival> all) {
    this.all = List.copyOf(all).iterator();
  }

  @Override
  public boolean hasNext() {
    return all.hasNext();
  }

  @Override
  public Arrival next() {
    return all.next();
  }

  @Override
  public void close() {
    // Nothing is open.
  }
}
