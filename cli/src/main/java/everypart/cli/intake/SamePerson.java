package everypart.cli.intake;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;

/**
 * Finds several answers of one person to one question, so that somebody can be asked what is to
 * become of them: "Ann Smith", "Smith_Ann (1)" and "ann smith final", two rows with one id, two
 * documents in a student's folder. With a register, those that it takes for one person's.
 */
public final class SamePerson {
  /** Where this many folders with documents are, they may be one a student. */
  private static final int FEWEST_FOLDERS = 3;

  private SamePerson() {}

  /**
   * Several answers of one person.
   *
   * @param person the person's id on the register, else what the names have in common
   * @param places where they stand among all that came
   * @param responses the answers
   */
  public record Several(String person, List<Integer> places, List<Response> responses) {
    /** Copies the lists. */
    public Several {
      places = List.copyOf(places);
      responses = List.copyOf(responses);
    }
  }

  /** What becomes of several answers. */
  public enum What {
    /** They are put together into one. */
    JOIN,
    /** One is kept, the others are left out. */
    KEEP,
    /** They are of different people and stay as they are. */
    APART
  }

  /**
   * A decision.
   *
   * @param kept which one is kept, from 0; counts only where one is
   */
  public record Decision(What what, int kept) {}

  /** By what answers are known to be one person's. */
  private record Key(Set<String> words, Optional<String> prompt) {}

  /** Returns all that are of one person and answer one question, in the order they came. */
  public static List<Several> among(List<Arrival> arrivals, Optional<Register> register) {
    Map<Key, List<Integer>> found = new LinkedHashMap<>();
    Set<String> students = register.isPresent() ? Set.of() : foldersOfStudents(arrivals);
    for (int at = 0; at < arrivals.size(); at++) {
      if (arrivals.get(at) instanceof Response response) {
        Set<String> words =
            register.isPresent()
                ? register.get().writer(response).map(Set::of).orElse(Set.of())
                : words(response, students);
        if (!words.isEmpty()) {
          found
              .computeIfAbsent(new Key(words, response.promptId()), key -> new ArrayList<>())
              .add(at);
        }
      }
    }
    List<Several> several = new ArrayList<>();
    found.forEach(
        (key, places) -> {
          if (places.size() > 1) {
            List<Response> responses =
                places.stream().map(at -> (Response) arrivals.get(at)).toList();
            several.add(
                new Several(
                    register.isPresent()
                        ? key.words().iterator().next()
                        : person(responses, students),
                    places,
                    responses));
          }
        });
    return several;
  }

  private static Set<String> words(Response response, Set<String> students) {
    if (response.place().line().isPresent()) {
      return PersonName.words(Register.student(response));
    }
    String folder = folder(response);
    return students.contains(folder)
        ? Set.of(folder)
        : PersonName.withoutVersion(Register.student(response));
  }

  private static String person(List<Response> responses, Set<String> students) {
    String folder = folder(responses.get(0));
    return students.contains(folder)
        ? folder.replaceFirst("^.*[/\\\\!]", "")
        : Collections.min(
            responses.stream().map(Register::student).toList(),
            Comparator.comparingInt(String::length));
  }

  /** Returns the folder that a document lies in; empty for a row of a sheet. */
  private static String folder(Response response) {
    String source = response.place().source();
    int at = Math.max(source.lastIndexOf('/'), source.lastIndexOf('\\'));
    return response.place().line().isPresent() || at < 0 ? "" : source.substring(0, at);
  }

  /**
   * Returns the folders with several documents, where each student seems to have a folder: where
   * most folders hold one.
   */
  private static Set<String> foldersOfStudents(List<Arrival> arrivals) {
    Map<String, Integer> documents = new HashMap<>();
    for (Arrival arrival : arrivals) {
      if (arrival instanceof Response response && !folder(response).isEmpty()) {
        documents.merge(folder(response), 1, Integer::sum);
      }
    }
    Set<String> with = new LinkedHashSet<>();
    documents.forEach(
        (folder, count) -> {
          if (count > 1) {
            with.add(folder);
          }
        });
    boolean oneEach = documents.size() >= FEWEST_FOLDERS && with.size() * 4 <= documents.size();
    return oneEach ? with : Set.of();
  }

  /**
   * Returns all that came, with what was decided on those of one person.
   *
   * @param several as {@link #among} found them
   * @param decisions one for each
   * @param notes is told what was put together and what was left out
   */
  public static List<Arrival> settled(
      List<Arrival> arrivals,
      List<Several> several,
      List<Decision> decisions,
      Consumer<InputProblem> notes) {
    if (several.size() != decisions.size()) {
      throw new IllegalArgumentException(several.size() + " need a decision each");
    }
    Map<Integer, Optional<Arrival>> instead = new HashMap<>();
    for (int i = 0; i < several.size(); i++) {
      Several one = several.get(i);
      Decision decision = decisions.get(i);
      if (decision.what() == What.APART) {
        continue;
      }
      one.places().forEach(at -> instead.put(at, Optional.empty()));
      int first = decision.what() == What.KEEP ? decision.kept() : 0;
      Response kept = one.responses().get(first);
      String text = decision.what() == What.KEEP ? kept.text() : joined(one.responses());
      instead.put(one.places().get(first), Optional.of(as(one.person(), kept, text)));
      List<Response> told = new ArrayList<>(one.responses());
      if (decision.what() == What.KEEP) {
        told.remove(first);
      }
      String places =
          String.join(", ", told.stream().map(response -> response.place().toString()).toList());
      notes.accept(
          InputProblem.note(
              kept.place(),
              decision.what() == What.KEEP
                  ? Sayings.of("same.kept", one.person(), places)
                  : Sayings.of("same.joined", one.person(), places),
              Sayings.of("same.chosen")));
    }
    List<Arrival> all = new ArrayList<>();
    for (int at = 0; at < arrivals.size(); at++) {
      instead.getOrDefault(at, Optional.of(arrivals.get(at))).ifPresent(all::add);
    }
    return all;
  }

  /** Returns a response under its writer's name, where its id is nothing but that. */
  private static Response as(String person, Response response, String text) {
    String id = Register.student(response).equals(response.id()) ? person : response.id();
    return new Response(id, response.promptId(), text, response.groups(), response.place());
  }

  /** Returns what several answers say, each wording once. */
  static String joined(List<Response> responses) {
    Set<String> texts = new LinkedHashSet<>();
    responses.forEach(response -> texts.add(response.text()));
    return String.join("\n\n", texts);
  }
}
