package everypart.cli.intake;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;

/**
 * Tells of documents whose names differ by no more than the version of a file, as "ada" and "ada
 * final" do: without a register they stay two rows, and that should not go unsaid.
 */
public final class LookAlikes extends PassedOn {
  private final Consumer<InputProblem> notes;
  private final Map<List<Object>, Response> seen = new HashMap<>();

  /**
   * Wraps arrivals.
   *
   * @param notes is told of each name that is like another one
   */
  public LookAlikes(Arrivals inner, Consumer<InputProblem> notes) {
    super(inner);
    this.notes = notes;
  }

  @Override
  Arrival pass(Arrival arrival) {
    if (arrival instanceof Response response && response.place().line().isEmpty()) {
      Set<String> words = PersonName.withoutVersion(Register.student(response));
      Optional<Response> first =
          words.isEmpty()
              ? Optional.empty()
              : Optional.ofNullable(
                  seen.putIfAbsent(List.of(words, response.promptId()), response));
      if (first.isPresent() && !first.get().id().equals(response.id())) {
        notes.accept(
            InputProblem.note(
                response.place(),
                Sayings.of("alike.two", first.get().id()),
                Sayings.of("alike.mend")));
      }
    }
    return arrival;
  }
}
