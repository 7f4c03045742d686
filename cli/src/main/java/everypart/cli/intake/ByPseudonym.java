package everypart.cli.intake;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Responses in the order of their pseudonyms, which says nothing of the order they came in: row n
 * is not the n-th name of the class list. All are read before the first is given on; problems go
 * first.
 */
public final class ByPseudonym extends Rearranged {
  /**
   * Wraps arrivals.
   *
   * @param inner responses that bear their pseudonyms already
   */
  public ByPseudonym(Arrivals inner) {
    super(inner);
  }

  @Override
  List<Arrival> read(Arrivals all) {
    List<Arrival> first = new ArrayList<>();
    List<Response> responses = new ArrayList<>();
    while (all.hasNext()) {
      Arrival arrival = all.next();
      if (arrival instanceof Response response) {
        responses.add(response);
      } else {
        first.add(arrival);
      }
    }
    responses.sort(Comparator.comparing(Response::id));
    first.addAll(responses);
    return first;
  }
}
