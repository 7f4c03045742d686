package everypart.cli.intake;

import everypart.analyzer.prompt.Prompt;
import everypart.cli.intake.document.Document;
import everypart.cli.intake.document.DocumentException;
import everypart.cli.intake.document.Documents;
import everypart.cli.intake.document.FileRemark;
import everypart.cli.intake.document.FileTree;
import everypart.cli.intake.document.FoundFile;
import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NoSuchElementException;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * Responses from files as they come: documents with one response each, class sheets with a row for
 * each student, and folders and zip files of either.
 *
 * <p>A document's id is its name without its ending, unless each student has a folder with one
 * document: then it is the folder's name. Where there are several prompts, a folder or a document
 * that bears a prompt's id answers that prompt.
 */
public final class ResponseFiles implements Arrivals {
  private static final Instant UNKNOWN = Instant.MIN;

  private final Sources sources;
  private final Consumer<InputProblem> notes;
  private final Collection<Prompt> prompts;
  private final Choices choices;
  private final Documents documents;
  private final Deque<String> names;
  private final Deque<Arrival> waiting = new ArrayDeque<>();
  private @Nullable FileTree tree;
  private @Nullable Arrivals rows;
  private Instant changed = UNKNOWN;
  private boolean byFolder;
  private String opened = "";
  private boolean empty;

  /**
   * How new a response is.
   *
   * @param number its running number among all that came
   * @param changed when its file was last changed
   */
  private record Dated(int number, Instant changed) {}

  /**
   * Takes inputs in the order given; files in a folder are taken by name.
   *
   * @param names files, folders, zip files, or "-" for CSV on standard input
   * @param notes is told of each choice a person should know of
   */
  public ResponseFiles(
      Sources sources,
      Collection<Prompt> prompts,
      Choices choices,
      List<String> names,
      Consumer<InputProblem> notes) {
    this.sources = sources;
    this.documents = new Documents(sources.limits());
    this.prompts = List.copyOf(prompts);
    this.choices = choices;
    this.names = new ArrayDeque<>(names);
    this.notes = notes;
    if (choices.newest()) {
      waiting.addAll(newest());
    }
  }

  @Override
  public boolean hasNext() {
    while (waiting.isEmpty()) {
      if (rows != null && rows.hasNext()) {
        waiting.add(rows.next());
      } else {
        close(rows);
        rows = null;
        if (tree != null && tree.hasNext()) {
          empty = false;
          take(tree.next());
        } else if (tree != null && empty) {
          empty = false;
          waiting.add(
              InputProblem.fault(
                  Place.file(opened), Sayings.of("folder.empty"), Sayings.of("folder.empty.mend")));
        } else {
          close(tree);
          tree = null;
          String name = names.poll();
          if (name == null) {
            return false;
          }
          open(name);
        }
      }
    }
    return true;
  }

  @Override
  public Arrival next() {
    if (!hasNext()) {
      throw new NoSuchElementException();
    }
    return waiting.remove();
  }

  /**
   * Returns how many responses and problems are still to come; nothing where that cannot be told,
   * as with standard input. Sheets are read through for it, documents are not.
   */
  public OptionalLong left() {
    long left = waiting.size();
    for (String name : names) {
      if (name.equals(Sources.STANDARD_INPUT)) {
        return OptionalLong.empty();
      }
      try (FileTree files = documents.files(Path.of(name), name)) {
        while (files.hasNext()) {
          left += responses(files.next());
        }
      } catch (IOException e) {
        return OptionalLong.empty();
      }
    }
    return OptionalLong.of(left);
  }

  private long responses(FoundFile file) {
    if (!Documents.isSheet(file.name()) || file.lost().isPresent()) {
      return 1;
    }
    long count = 0;
    try (SheetResponses sheet =
        new SheetResponses(
            file.shown(),
            file.name(),
            file.bytes(),
            sources.limits(),
            choices.columns(),
            prompts,
            note -> {})) {
      for (; sheet.hasNext(); sheet.next()) {
        count++;
      }
      return count;
    } catch (InputException | DocumentException | IOException e) {
      return 1;
    }
  }

  private void open(String name) {
    if (name.equals(Sources.STANDARD_INPUT)) {
      try (InputStream in = sources.open(name)) {
        changed = UNKNOWN;
        sheet(Sources.place(name).source(), "input.csv", sources.bytes(name, in));
      } catch (InputException e) {
        waiting.add(e.problem());
      } catch (IOException e) {
        waiting.add(Sources.unreadable(name, e));
      }
      return;
    }
    byFolder = choices.idFrom().isEmpty() && eachHasAFolder(name);
    if (byFolder) {
      notes.accept(
          InputProblem.note(
              Sources.place(name), Sayings.of("folder.ids"), Sayings.of("folder.ids.mend")));
    }
    opened = shown(name);
    empty = true;
    tree = documents.files(Path.of(name), opened);
  }

  private static String shown(String name) {
    return name.length() > 1 && name.endsWith("/") ? name.substring(0, name.length() - 1) : name;
  }

  /**
   * Tells whether names repeat from folder to folder, while most folders hold one document: a
   * student may have put a second one in.
   */
  private boolean eachHasAFolder(String name) {
    Set<Set<String>> stems = new HashSet<>();
    Map<String, Integer> folders = new HashMap<>();
    boolean repeated = false;
    try (FileTree files = documents.files(Path.of(name), name)) {
      while (files.hasNext()) {
        FoundFile file = files.next();
        if (Documents.reads(file.name()) && file.lost().isEmpty()) {
          Set<String> words = PersonName.withoutVersion(stem(file.name()));
          repeated |= !stems.add(words.isEmpty() ? Set.of(stem(file.name())) : words);
          if (own(file.folders()).isEmpty()) {
            return false;
          }
          folders.merge(String.join("/", file.folders()), 1, Integer::sum);
        }
      }
    } catch (IOException e) {
      return false;
    }
    long several = folders.values().stream().filter(count -> count > 1).count();
    return repeated && stems.size() * 2 <= folders.size() && several * 4 <= folders.size();
  }

  private void take(FoundFile file) {
    Place place = Place.file(file.shown());
    changed = file.changed().orElse(UNKNOWN);
    try {
      if (Documents.isSheet(file.name()) && file.lost().isEmpty()) {
        sheet(file.shown(), file.name(), file.bytes());
      } else {
        waiting.add(response(file, documents.read(file.name(), file.bytes()), place));
      }
    } catch (DocumentException e) {
      waiting.add(InputProblem.fault(place, e.remark().what(), e.remark().mend()));
    } catch (InputException e) {
      waiting.add(e.problem());
    }
  }

  private void sheet(String shown, String name, byte[] bytes) throws InputException {
    rows =
        new SheetResponses(shown, name, bytes, sources.limits(), choices.columns(), prompts, notes);
  }

  /** Returns the response in a document; one without a word in it is a problem. */
  private Arrival response(FoundFile file, Document document, Place place) {
    if (document.text().isBlank()) {
      FileRemark why =
          document.remarks().isEmpty()
              ? new FileRemark(Sayings.of("file.empty"), Sayings.of("file.empty.mend"))
              : document.remarks().get(0);
      return InputProblem.fault(place, why.what(), why.mend());
    }
    document
        .remarks()
        .forEach(remark -> notes.accept(InputProblem.note(place, remark.what(), remark.mend())));
    String stem = stem(file.name());
    if (stem.indexOf('\ufffd') >= 0) {
      notes.accept(
          InputProblem.fault(place, Sayings.of("file.letters"), Sayings.of("file.letters.mend")));
    }
    Optional<NamePattern.Told> told =
        choices.idFrom().flatMap(pattern -> pattern.read(file.folders(), stem));
    if (told.isEmpty() && choices.idFrom().isPresent()) {
      notes.accept(
          InputProblem.note(place, Sayings.of("file.idFrom"), Sayings.of("file.idFrom.mend")));
    }
    List<String> own = own(file.folders());
    Optional<String> prompt = told.flatMap(NamePattern.Told::prompt).or(() -> promptOf(file, stem));
    String id = told.map(NamePattern.Told::id).orElse(byFolder ? last(own) : stem);
    if (told.isEmpty() && prompt.isPresent() && isPrompt(stem) && !own.isEmpty()) {
      id = last(own);
    }
    Map<String, String> groups = new LinkedHashMap<>();
    if (prompt.isPresent()) {
      groups.put(SheetResponses.STUDENT, id);
      id = id + "/" + prompt.get();
    }
    return new Response(id, prompt, document.text(), groups, place);
  }

  private static String last(List<String> folders) {
    return folders.get(folders.size() - 1);
  }

  /** Returns the folders that do not bear a prompt's id. */
  private List<String> own(List<String> folders) {
    return folders.stream().filter(folder -> !isPrompt(folder)).toList();
  }

  private boolean isPrompt(String name) {
    return id(name).isPresent();
  }

  private Optional<String> promptOf(FoundFile file, String stem) {
    List<String> names = new ArrayList<>(file.folders());
    names.add(stem);
    return names.stream().map(this::id).flatMap(Optional::stream).findFirst();
  }

  /** Returns the id of the prompt that a file or folder is named for, where there are several. */
  private Optional<String> id(String name) {
    return prompts.size() < 2
        ? Optional.empty()
        : prompts.stream().map(Prompt::id).filter(id -> id.equalsIgnoreCase(name)).findFirst();
  }

  /** Reads everything and keeps the newest of each id; of rows in one sheet, the last. */
  private List<Arrival> newest() {
    Map<String, Dated> best = new HashMap<>();
    Map<String, Integer> counts = new HashMap<>();
    List<Arrival> all = new ArrayList<>();
    while (hasNext()) {
      Arrival arrival = next();
      all.add(arrival);
      if (arrival instanceof Response response) {
        counts.merge(response.id(), 1, Integer::sum);
        best.merge(
            response.id(),
            new Dated(all.size(), changed),
            (old, now) -> now.changed().isBefore(old.changed()) ? old : now);
      }
    }
    List<Arrival> kept = new ArrayList<>();
    for (int i = 0; i < all.size(); i++) {
      Arrival arrival = all.get(i);
      if (arrival instanceof Response response) {
        Dated newest = best.get(response.id());
        if (newest == null || newest.number() != i + 1) {
          continue;
        }
        int count = counts.getOrDefault(response.id(), 1);
        if (count > 1) {
          notes.accept(
              InputProblem.note(
                  response.place(),
                  count == 2
                      ? Sayings.of("newest.twice", response.id())
                      : Sayings.of("newest.times", response.id(), count),
                  Sayings.of("newest.mend")));
        }
      }
      kept.add(arrival);
    }
    return kept;
  }

  private static String stem(String name) {
    int dot = name.lastIndexOf('.');
    return dot <= 0 ? name : name.substring(0, dot);
  }

  private static void close(@Nullable Closeable open) {
    try {
      if (open != null) {
        open.close();
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Override
  public void close() {
    close(rows);
    close(tree);
    rows = null;
    tree = null;
  }
}
