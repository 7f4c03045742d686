package everypart.cli.intake;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Iterator;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Responses in the order of their pseudonyms, which says nothing of the order they came in: row n
 * is not the n-th name of the class list. All are read before the first is given on; problems go
 * first.
 */
public final class ByPseudonym implements Arrivals {
  private final Arrivals inner;
  private @Nullable Iterator<Arrival> sorted;

  /**
   * Wraps arrivals.
   *
   * @param inner responses that bear their pseudonyms already
   */
  public ByPseudonym(Arrivals inner) {
    this.inner = inner;
  }

  private Iterator<Arrival> sorted() {
    if (sorted == null) {
      List<Arrival> first = new ArrayList<>();
      List<Response> responses = new ArrayList<>();
      while (inner.hasNext()) {
        Arrival arrival = inner.next();
        if (arrival instanceof Response response) {
          responses.add(response);
        } else {
          first.add(arrival);
        }
      }
      responses.sort(Comparator.comparing(Response::id));
      first.addAll(responses);
      sorted = first.iterator();
    }
    return sorted;
  }

  @Override
  public boolean hasNext() {
    return sorted().hasNext();
  }

  @Override
  public Arrival next() {
    return sorted().next();
  }

  @Override
  public void close() throws IOException {
    inner.close();
  }
}
