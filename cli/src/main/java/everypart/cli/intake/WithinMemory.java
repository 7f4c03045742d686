package everypart.cli.intake;

import java.io.IOException;
import java.util.NoSuchElementException;

/**
 * Ends a class that is larger than what its page can be made of: everything on the page is in
 * memory until it is written. What came before is reported, and one problem says so.
 */
public final class WithinMemory implements Arrivals {
  /** What a response takes beside its text: its row of the page and its rows of the tables. */
  private static final long BESIDE = 2_000;

  /** A character of most languages takes two bytes. */
  private static final long BYTES_A_CHARACTER = 2;

  private final Arrivals inner;
  private final long most;
  private long held;
  private boolean over;

  /**
   * Wraps arrivals.
   *
   * @param most the bytes that the page of a class may take
   */
  public WithinMemory(Arrivals inner, long most) {
    this.inner = inner;
    this.most = most;
  }

  @Override
  public boolean hasNext() {
    return !over && inner.hasNext();
  }

  @Override
  public Arrival next() {
    if (over) {
      throw new NoSuchElementException();
    }
    Arrival arrival = inner.next();
    if (arrival instanceof Response response) {
      held += BESIDE + BYTES_A_CHARACTER * response.text().length();
      for (String group : response.groups().values()) {
        held += BYTES_A_CHARACTER * group.length();
      }
    }
    if (held <= most) {
      return arrival;
    }
    over = true;
    return InputProblem.fault(
        ((Response) arrival).place(),
        Sayings.of("class.tooLarge"),
        Sayings.of("class.tooLarge.mend"));
  }

  @Override
  public void close() throws IOException {
    inner.close();
  }
}
