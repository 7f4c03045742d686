package everypart.cli.intake;

import java.io.IOException;
import java.util.Iterator;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Arrivals that are all read before the first is passed on, since their order changes. */
abstract class Rearranged implements Arrivals {
  private final Arrivals inner;
  private @Nullable Iterator<Arrival> arranged;

  Rearranged(Arrivals inner) {
    this.inner = inner;
  }

  /** Reads all arrivals and returns what is passed on. */
  abstract List<Arrival> read(Arrivals all);

  private Iterator<Arrival> arranged() {
    if (arranged == null) {
      arranged = read(inner).iterator();
    }
    return arranged;
  }

  @Override
  public final boolean hasNext() {
    return arranged().hasNext();
  }

  @Override
  public final Arrival next() {
    return arranged().next();
  }

  @Override
  public final void close() throws IOException {
    inner.close();
  }
}
