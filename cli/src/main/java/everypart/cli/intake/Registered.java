package everypart.cli.intake;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;

/**
 * The responses of a class in the order of its register, with a row for everyone on it: who handed
 * in nothing, or something unreadable, has a response without text. What several files of one
 * person say is put together, and told of, so that nobody becomes two students. All is read before
 * the first is given on.
 */
public final class Registered extends Rearranged {
  /** The column that says whether someone handed in. */
  public static final String HANDED_IN = "handed_in";

  private final Register register;
  private final List<String> prompts;
  private final boolean everyone;
  private final Consumer<InputProblem> problems;

  /**
   * Wraps arrivals.
   *
   * @param prompts the ids of all prompts
   * @param everyone whether who handed in nothing has a row too
   * @param problems is told of files that were put together, and of who is not on the register
   */
  public Registered(
      Arrivals inner,
      Register register,
      List<String> prompts,
      boolean everyone,
      Consumer<InputProblem> problems) {
    super(inner);
    this.register = register;
    this.prompts = List.copyOf(prompts);
    this.everyone = everyone;
    this.problems = problems;
  }

  /** Whose response to what. */
  private record Key(String person, Optional<String> prompt) {}

  @Override
  List<Arrival> read(Arrivals inner) {
    List<Arrival> all = new ArrayList<>();
    List<Response> strangers = new ArrayList<>();
    Map<Key, List<Response>> own = new LinkedHashMap<>();
    Set<String> unreadable = new LinkedHashSet<>();
    while (inner.hasNext()) {
      Arrival arrival = inner.next();
      if (arrival instanceof Response response) {
        Optional<String> person = register.writer(response);
        if (person.isPresent()) {
          own.computeIfAbsent(new Key(person.get(), response.promptId()), key -> new ArrayList<>())
              .add(response);
        } else {
          strangers.add(stranger(response));
        }
      } else {
        all.add(arrival);
        register.writer(((InputProblem) arrival).place()).ifPresent(unreadable::add);
      }
    }
    List<String> nothing = new ArrayList<>();
    List<String> unread = new ArrayList<>();
    for (String person : register.ids()) {
      List<Key> keys = own.keySet().stream().filter(key -> key.person().equals(person)).toList();
      keys.forEach(key -> all.add(together(key, own.getOrDefault(key, List.of()))));
      if (keys.isEmpty() && everyone) {
        boolean lost = unreadable.contains(person);
        (lost ? unread : nothing).add(person);
        absent(person, lost ? "not readable" : "nothing", all);
      }
    }
    all.addAll(strangers);
    tell(nothing, "register.nothing");
    tell(unread, "register.unread");
    return all;
  }

  private Response stranger(Response response) {
    if (everyone) {
      problems.accept(
          InputProblem.note(
              response.place(),
              Sayings.of("register.stranger", Register.student(response)),
              Sayings.of("register.stranger.mend")));
    }
    return with(response.id(), response, response.text(), "not on the register", response.groups());
  }

  private Response together(Key key, List<Response> responses) {
    Response first = responses.get(0);
    Set<String> texts = new LinkedHashSet<>();
    responses.forEach(response -> texts.add(response.text()));
    if (responses.size() > 1) {
      problems.accept(
          InputProblem.fault(
              first.place(),
              Sayings.of(
                  texts.size() == 1 ? "register.same" : "register.joined",
                  responses.size(),
                  key.person(),
                  String.join(
                      ", ", responses.stream().map(one -> one.place().toString()).toList())),
              Sayings.of("register.several.mend")));
    }
    String id = first.id();
    Map<String, String> groups = new LinkedHashMap<>(first.groups());
    if (Register.student(first).equals(id)) {
      id = key.person();
    } else {
      id = key.person() + id.substring(Register.student(first).length());
      groups.put(SheetResponses.STUDENT, key.person());
    }
    return with(id, first, SamePerson.joined(responses), "yes", groups);
  }

  private static Response with(
      String id, Response like, String text, String handedIn, Map<String, String> groups) {
    Map<String, String> all = new LinkedHashMap<>(groups);
    all.put(HANDED_IN, handedIn);
    return new Response(id, like.promptId(), text, all, like.place());
  }

  /** Adds a response without text to each prompt. */
  private void absent(String person, String why, List<Arrival> all) {
    for (String prompt : prompts) {
      Map<String, String> groups = new LinkedHashMap<>();
      if (prompts.size() > 1) {
        groups.put(SheetResponses.STUDENT, person);
      }
      groups.put(HANDED_IN, why);
      all.add(
          new Response(
              prompts.size() > 1 ? person + "/" + prompt : person,
              prompts.size() > 1 ? Optional.of(prompt) : Optional.empty(),
              "",
              groups,
              register.place()));
    }
  }

  private void tell(List<String> people, String what) {
    if (!people.isEmpty()) {
      problems.accept(
          InputProblem.note(
              register.place(),
              Sayings.of(what, people.size(), register.ids().size(), String.join(", ", people)),
              Sayings.of("register.row")));
    }
  }
}
