package everypart.cli.intake;

import java.util.function.Consumer;

/**
 * Gives a response whose id is already taken an id of its own, so that none is lost and no two
 * results bear one name: the second "r7" becomes "r7#2".
 */
public final class UniqueIds extends PassedOn {
  private final Consumer<InputProblem> problems;
  private final IdHashes taken = new IdHashes();

  /**
   * Wraps arrivals.
   *
   * @param problems is told of each id that was taken
   */
  public UniqueIds(Arrivals inner, Consumer<InputProblem> problems) {
    super(inner);
    this.problems = problems;
  }

  @Override
  Arrival pass(Arrival arrival) {
    if (!(arrival instanceof Response response) || taken.add(response.id())) {
      return arrival;
    }
    int number = 2;
    while (!taken.add(response.id() + "#" + number)) {
      number++;
    }
    String id = response.id() + "#" + number;
    problems.accept(
        InputProblem.fault(
            response.place(),
            Sayings.of("id.taken", response.id(), id),
            Sayings.of("id.taken.mend")));
    return new Response(
        id, response.promptId(), response.text(), response.groups(), response.place());
  }
}
