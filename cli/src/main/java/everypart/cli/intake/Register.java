package everypart.cli.intake;

import java.io.IOException;
import java.text.Normalizer;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.BiPredicate;
import java.util.function.Consumer;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The list of a class: who is expected to hand something in. A file is known as a person's by the
 * words in its name, in any order and with or without accents: "Smith_Ann (1)" and "ann smith
 * final" are Ann Smith's. Where a name fits two people it is taken for neither.
 */
public final class Register {
  private static final Pattern WORD = Pattern.compile("[\\p{L}\\p{N}]+");
  private static final Pattern ACCENT = Pattern.compile("\\p{M}+");

  /** What people and systems add to the name of a file that they save again. */
  private static final Pattern VERSION =
      Pattern.compile(
          "\\(\\d{1,3}\\)|(?<![\\p{L}\\p{N}])(?:final|draft|copy|new|version|v\\d{1,2})(?![\\p{L}])");

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
        List<Set<String>> names = new ArrayList<>(List.of(words(id)));
        name.map(row.cells()::get).map(Register::words).ifPresent(names::add);
        names.removeIf(Set::isEmpty);
        if (id.isEmpty() || names.isEmpty()) {
          problems.accept(
              InputProblem.fault(
                  row.place(), "nobody is named in the first column", "write a name or an id"));
        } else if (people.putIfAbsent(id, List.copyOf(names)) != null) {
          problems.accept(
              InputProblem.fault(
                  row.place(),
                  "\"" + id + "\" stands on the register twice, and counts once",
                  "give two people of one name an id each"));
        }
      }
    } catch (IOException e) {
      throw new InputException(Sources.unreadable(file, e));
    }
    if (people.isEmpty()) {
      throw new InputException(
          InputProblem.fault(
              Sources.place(file),
              "there is nobody on this register",
              "give a table with a header, and a name or an id in its first column"));
    }
    return new Register(file, people);
  }

  /** Returns the place of the register. */
  Place place() {
    return Sources.place(file);
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
    Set<String> all = words(name);
    Set<String> own = words(VERSION.matcher(plain(name)).replaceAll(" "));
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

  private static String plain(String name) {
    return ACCENT
        .matcher(Normalizer.normalize(name, Normalizer.Form.NFKD))
        .replaceAll("")
        .toLowerCase(Locale.ROOT);
  }

  private static Set<String> words(String name) {
    Set<String> words = new LinkedHashSet<>();
    Matcher word = WORD.matcher(plain(name));
    while (word.find()) {
      words.add(word.group());
    }
    return new HashSet<>(words);
  }
}
