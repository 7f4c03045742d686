package everypart.cli.open;

import everypart.analyzer.prompt.Prompt;
import everypart.cli.intake.Arrival;
import everypart.cli.intake.Arrivals;
import everypart.cli.intake.Choices;
import everypart.cli.intake.Gathered;
import everypart.cli.intake.InputException;
import everypart.cli.intake.InputProblem;
import everypart.cli.intake.Place;
import everypart.cli.intake.Register;
import everypart.cli.intake.Registered;
import everypart.cli.intake.Response;
import everypart.cli.intake.ResponseFiles;
import everypart.cli.intake.Room;
import everypart.cli.intake.SamePerson;
import everypart.cli.intake.Sources;
import everypart.cli.intake.UniqueIds;
import everypart.cli.intake.WithinMemory;
import everypart.cli.intake.document.Limits;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Consumer;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * The files of a class that were dropped. They stand in a private folder until they are read, which
 * happens once; what they say is kept while somebody is asked about those of one person.
 */
final class DroppedClass {
  private static final int MOST_FILES = 5000;

  /** The answers may take this part of the memory. */
  private static final int SHARE = 4;

  /** A name of a file or folder as a browser gives it: no way out of the folder it is put in. */
  private static final Pattern NAME = Pattern.compile("[^/\\\\\\p{Cntrl}:*?\"<>|]{1,200}");

  private final Path folder;
  private final AtomicInteger files = new AtomicInteger();
  private final AtomicBoolean busy = new AtomicBoolean();
  private final List<Arrival> arrivals = new ArrayList<>();
  private final List<InputProblem> notes = new ArrayList<>();
  private boolean read;

  /** The list of a class, and what was odd about it. */
  record ClassList(Register register, List<InputProblem> problems) {}

  /** Is told how far something is. */
  interface Progress {
    void at(long done, long total) throws IOException;
  }

  DroppedClass() throws IOException {
    this.folder = Files.createTempDirectory("everypart");
  }

  /** Takes hold of it; nobody else may until {@link #free}. */
  void take() throws Refusal {
    if (!busy.compareAndSet(false, true)) {
      throw new Refusal(409, Sayings.of("refused.busy"));
    }
  }

  void free() {
    busy.set(false);
  }

  /** Puts a dropped file where it is read from; its name may have folders before it. */
  void put(String name, byte[] bytes) throws IOException, Refusal {
    if (files.incrementAndGet() > MOST_FILES) {
      throw new Refusal(413, Sayings.of("refused.files", MOST_FILES));
    }
    Path target = folder;
    for (String step : name.split("/", -1)) {
      if (!NAME.matcher(step).matches() || step.equals(".") || step.equals("..")) {
        throw new Refusal(422, Sayings.of("refused.name"));
      }
      target = target.resolve(step);
    }
    if (!target.normalize().startsWith(folder)) {
      throw new Refusal(422, Sayings.of("refused.name"));
    }
    Path parent = target.getParent();
    if (parent != null) {
      Files.createDirectories(parent);
    }
    Files.write(target, bytes);
  }

  /** Reads the list of a class, which is a file that was dropped alone. */
  static ClassList register(String name, byte[] bytes) throws IOException, Refusal {
    DroppedClass alone = new DroppedClass();
    try {
      alone.put(name, bytes);
      List<InputProblem> problems = new ArrayList<>();
      Sources sources = new Sources(InputStream.nullInputStream(), Limits.USUAL, problems::add);
      Register register =
          Register.read(sources, alone.folder.resolve(name).toString(), problems::add);
      return new ClassList(register.named(name), problems.stream().map(alone::relative).toList());
    } catch (InputException e) {
      throw new Refusal(422, alone.relative(e.problem()).sentence());
    } finally {
      alone.delete();
    }
  }

  /** Reads the files and removes them; a second time it does nothing. */
  void read(Prompt prompt, Progress progress) throws IOException {
    if (read) {
      return;
    }
    read = true;
    try {
      Sources sources = new Sources(InputStream.nullInputStream(), Limits.USUAL, this::note);
      long total;
      try (ResponseFiles count = responses(sources, prompt, note -> {})) {
        total = count.left().orElse(0);
      }
      try (ResponseFiles files = responses(sources, prompt, this::note);
          Arrivals responses =
              new WithinMemory(files, new Room(Runtime.getRuntime().maxMemory() / SHARE))) {
        while (responses.hasNext()) {
          arrivals.add(relative(responses.next()));
          progress.at(arrivals.size(), Math.max(arrivals.size(), total));
        }
      }
    } finally {
      delete();
    }
  }

  private ResponseFiles responses(Sources sources, Prompt prompt, Consumer<InputProblem> told) {
    return new ResponseFiles(
        sources, List.of(prompt), Choices.NONE, List.of(folder.toString()), told);
  }

  private void note(InputProblem problem) {
    notes.add(relative(problem));
  }

  /** Returns the answers that are of one person. */
  List<SamePerson.Several> ofOnePerson(Optional<ClassList> list) {
    return SamePerson.among(arrivals, list.map(ClassList::register));
  }

  /**
   * Returns all that is to be looked at, in order; problems are told on the way.
   *
   * @param decisions what becomes of those of one person
   */
  List<Response> answers(
      Prompt prompt,
      Optional<ClassList> list,
      List<SamePerson.Several> several,
      List<SamePerson.Decision> decisions,
      Consumer<InputProblem> problems)
      throws IOException {
    notes.forEach(problems);
    list.ifPresent(one -> one.problems().forEach(problems));
    Arrivals settled = new Gathered(SamePerson.settled(arrivals, several, decisions, problems));
    Arrivals known =
        list.isEmpty()
            ? settled
            : new Registered(settled, list.get().register(), List.of(prompt.id()), true, problems);
    List<Response> answers = new ArrayList<>();
    try (Arrivals all = new UniqueIds(known, problems)) {
      while (all.hasNext()) {
        Arrival arrival = all.next();
        if (arrival instanceof Response response) {
          answers.add(response);
        } else if (arrival instanceof InputProblem problem) {
          problems.accept(problem);
        }
      }
    }
    return answers;
  }

  /** Names a file as it was dropped, not where it stood meanwhile. */
  private Arrival relative(Arrival arrival) {
    return arrival instanceof Response response
        ? new Response(
            response.id(),
            response.promptId(),
            response.text(),
            response.groups(),
            relative(response.place()))
        : relative((InputProblem) arrival);
  }

  private InputProblem relative(InputProblem problem) {
    return new InputProblem(
        relative(problem.place()), problem.what(), problem.mend(), problem.weight());
  }

  private Place relative(Place place) {
    String source = place.source();
    String base = folder.toString();
    return new Place(
        source.equals(base)
            ? Sayings.of("class.place")
            : source.startsWith(base) ? source.substring(base.length() + 1) : source,
        place.line());
  }

  /** Removes the files, where they were not read. */
  void delete() {
    if (Files.notExists(folder)) {
      return;
    }
    try (Stream<Path> all = Files.walk(folder)) {
      for (Path file : all.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(file);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
