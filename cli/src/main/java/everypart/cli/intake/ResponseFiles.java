package everypart.cli.intake;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.NoSuchElementException;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * Responses from files as they come: a CSV file with a row for each, a text file with one, or a
 * folder of such files.
 *
 * <p>A text file's id is its name without its ending. Hidden files, and those that office programs
 * keep beside an open document ({@code ~$...}), are no inputs.
 */
public final class ResponseFiles implements Arrivals {
  private static final List<String> TEXT = List.of(".txt", ".md");

  private final Sources sources;
  private final Deque<String> waiting = new ArrayDeque<>();
  private @Nullable ResponsesCsv rows;
  private @Nullable Arrival next;

  /**
   * Takes inputs in the order given; files in a folder are taken by name.
   *
   * @param names files, folders, or "-" for CSV on standard input
   */
  public ResponseFiles(Sources sources, List<String> names) {
    this.sources = sources;
    this.waiting.addAll(names);
    this.next = read();
  }

  @Override
  public boolean hasNext() {
    return next != null;
  }

  @Override
  public Arrival next() {
    Arrival now = next;
    if (now == null) {
      throw new NoSuchElementException();
    }
    next = read();
    return now;
  }

  private @Nullable Arrival read() {
    while (true) {
      if (rows != null) {
        if (rows.hasNext()) {
          return rows.next();
        }
        closeRows();
      }
      String name = waiting.poll();
      if (name == null) {
        return null;
      }
      try {
        if (!name.equals(Sources.STANDARD_INPUT) && Files.isDirectory(Path.of(name))) {
          List<String> inside = inside(name);
          for (int i = inside.size() - 1; i >= 0; i--) {
            waiting.addFirst(inside.get(i));
          }
          if (inside.isEmpty()) {
            return InputProblem.fault(
                Sources.place(name),
                "there is no file in this folder",
                "give the folder of the class set");
          }
          continue;
        }
        String ending = ending(name);
        if (name.equals(Sources.STANDARD_INPUT) || ending.equals(".csv")) {
          rows = new ResponsesCsv(sources, name);
          continue;
        }
        if (TEXT.contains(ending)) {
          return new Response(
              stem(name), Optional.empty(), sources.text(name), Map.of(), Sources.place(name));
        }
        return InputProblem.fault(
            Sources.place(name),
            "files of this kind (" + (ending.isEmpty() ? "no ending" : ending) + ") are not read",
            "save it as .txt, or put all responses into one .csv");
      } catch (InputException e) {
        return e.problem();
      }
    }
  }

  private static List<String> inside(String folder) throws InputException {
    try (Stream<Path> files = Files.list(Path.of(folder))) {
      List<String> names = new ArrayList<>();
      files
          .filter(
              path -> {
                String last = String.valueOf(path.getFileName());
                return !last.startsWith(".") && !last.startsWith("~$");
              })
          .sorted()
          .forEach(path -> names.add(path.toString()));
      return names;
    } catch (IOException e) {
      throw new InputException(Sources.unreadable(folder, e));
    } catch (DirectoryIteratorException | UncheckedIOException e) {
      throw new InputException(Sources.unreadable(folder, new IOException(e.getCause())));
    }
  }

  private static String ending(String name) {
    String last = String.valueOf(Path.of(name).getFileName());
    int dot = last.lastIndexOf('.');
    return dot < 0 ? "" : last.substring(dot).toLowerCase(Locale.ROOT);
  }

  private static String stem(String name) {
    String last = String.valueOf(Path.of(name).getFileName());
    int dot = last.lastIndexOf('.');
    return dot <= 0 ? last : last.substring(0, dot);
  }

  private void closeRows() {
    try {
      close();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Override
  public void close() throws IOException {
    ResponsesCsv open = rows;
    rows = null;
    if (open != null) {
      open.close();
    }
  }
}
