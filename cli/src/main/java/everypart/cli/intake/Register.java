package everypart.cli.intake;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.BiPredicate;
import java.util.function.Consumer;

/**
 * The list of a class: who is expected to hand something in. A file is known as a person's by the
 * words in its name, in any order and with or without accents: "Smith_Ann (1)" and "ann smith
 * final" are Ann Smith's. Where a name fits two people it is taken for neither.
 */
public final class Register {
  private final String file;
  private final Map<String, List<Set<String>>> people;

  private Register(String file, Map<String, List<Set<String>>> people) {
    this.file = file;
    this.people = people;
  }

  /**
   * Reads a register: a table (.csv, .tsv, .xlsx) with a header. Its first column holds the ids; a
   * column {@code name}, where there is one, is a second way in which files may name a person.
   *
   * @param problems is told of each row that cannot be used
   * @throws InputException when it cannot be read, or names nobody
   */
  public static Register read(Sources sources, String file, Consumer<InputProblem> problems)
      throws InputException {
    Map<String, List<Set<String>>> people = new LinkedHashMap<>();
    try (CodeRows rows = CodeRows.open(sources, file, problems)) {
      Optional<Integer> name = rows.optionalColumn("name");
      for (CsvRows.Row row = rows.next(); row != null; row = rows.next()) {
        if (row.problem().isPresent()) {
          problems.accept(row.problem().get());
          continue;
        }
        String id = row.cells().get(0).strip();
        List<Set<String>> names = new ArrayList<>(List.of(PersonName.words(id)));
        name.map(row.cells()::get).map(PersonName::words).ifPresent(names::add);
        names.removeIf(Set::isEmpty);
        if (id.isEmpty() || names.isEmpty()) {
          problems.accept(
              InputProblem.fault(
                  row.place(), Sayings.of("register.noName"), Sayings.of("register.noName.mend")));
        } else if (people.putIfAbsent(id, List.copyOf(names)) != null) {
          problems.accept(
              InputProblem.fault(
                  row.place(),
                  Sayings.of("register.twice", id),
                  Sayings.of("register.twice.mend")));
        }
      }
    } catch (IOException e) {
      throw new InputException(Sources.unreadable(file, e));
    }
    if (people.isEmpty()) {
      throw new InputException(
          InputProblem.fault(
              Sources.place(file),
              Sayings.of("register.empty"),
              Sayings.of("register.empty.mend")));
    }
    return new Register(file, people);
  }

  /** Returns the place of the register. */
  Place place() {
    return Sources.place(file);
  }

  /** Returns this register under another name in messages. */
  public Register named(String name) {
    return new Register(name, people);
  }

  /** Returns how many people are on it. */
  public int size() {
    return people.size();
  }

  /** Returns everyone's id, in the order of the register. */
  List<String> ids() {
    return List.copyOf(people.keySet());
  }

  /** Returns whose a file or row of this name is; nobody's where it fits none or two. */
  Optional<String> person(String name) {
    if (people.containsKey(name)) {
      return Optional.of(name);
    }
    Set<String> all = PersonName.words(name);
    Set<String> own = PersonName.withoutVersion(name);
    return one(all, Set::equals)
        .or(() -> one(own, Set::equals))
        .or(() -> one(own, Set::containsAll));
  }

  private Optional<String> one(Set<String> words, BiPredicate<Set<String>, Set<String>> fits) {
    List<String> found =
        people.entrySet().stream()
            .filter(one -> one.getValue().stream().anyMatch(name -> fits.test(words, name)))
            .map(Map.Entry::getKey)
            .limit(2)
            .toList();
    return found.size() == 1 ? Optional.of(found.get(0)) : Optional.empty();
  }

  /** Returns whose a response is: by the part of its id that names its writer, or by its file. */
  Optional<String> writer(Response response) {
    return person(student(response)).or(() -> writer(response.place()));
  }

  /** Returns whose file something in a class set is, by its name or that of its folder. */
  Optional<String> writer(Place place) {
    if (place.line().isPresent()) {
      return Optional.empty();
    }
    String[] names = place.source().split("[/\\\\!]+", -1);
    for (int at = names.length - 1; at >= Math.max(0, names.length - 2); at--) {
      Optional<String> person = person(names[at].replaceFirst("\\.\\w{1,5}$", ""));
      if (person.isPresent()) {
        return person;
      }
    }
    return Optional.empty();
  }

  /** Returns the part of an id that names its writer. */
  static String student(Response response) {
    String student = response.groups().getOrDefault(SheetResponses.STUDENT, "");
    return !student.isEmpty() && response.id().startsWith(student + "/") ? student : response.id();
  }
}
