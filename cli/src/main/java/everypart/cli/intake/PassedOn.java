package everypart.cli.intake;

import java.io.IOException;

/** Arrivals that are looked at, or changed, one by one as they are passed on. */
abstract class PassedOn implements Arrivals {
  private final Arrivals inner;

  PassedOn(Arrivals inner) {
    this.inner = inner;
  }

  /** Returns what is passed on in an arrival's place. */
  abstract Arrival pass(Arrival arrival);

  @Override
  public final boolean hasNext() {
    return inner.hasNext();
  }

  @Override
  public final Arrival next() {
    return pass(inner.next());
  }

  @Override
  public final void close() throws IOException {
    inner.close();
  }
}
