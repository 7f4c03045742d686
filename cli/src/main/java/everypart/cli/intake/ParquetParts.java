package everypart.cli.intake;

import everypart.cli.table.TypedTables;
import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * The rows of a Parquet file, or of a folder of them as programs that share the writing leave it:
 * part after part in the order of their names, one open at a time. Files whose names begin with
 * {@code .} or {@code _} are no parts.
 */
final class ParquetParts implements TypedTables.Rows {
  private static final String ENDING = ".parquet";

  /** A part that does not fit, with what is wrong with it and how to mend it. */
  static final class PartException extends IOException {
    private static final long serialVersionUID = 1;

    private final transient InputProblem problem;

    PartException(Path part, String what, String mend) {
      super(what);
      this.problem = InputProblem.fault(Place.file(part.toString()), what, mend);
    }

    InputProblem problem() {
      return problem;
    }
  }

  private final TypedTables tables;
  private final Iterator<Path> left;
  private final List<String> columns;
  private final List<String> nested;
  private TypedTables.Rows open;
  private Path part;
  private long row;

  private ParquetParts(TypedTables tables, Iterator<Path> left, Path part, TypedTables.Rows first) {
    this.tables = tables;
    this.left = left;
    this.part = part;
    this.open = first;
    this.columns = first.columns();
    this.nested = first.nested();
  }

  /** Returns whether a name is that of a Parquet file, or of a folder that holds some. */
  static boolean isParquet(String name) {
    if (named(name)) {
      return true;
    }
    try {
      return !name.equals(Sources.STANDARD_INPUT)
          && Files.isDirectory(Path.of(name))
          && !(files(Path.of(name)).isEmpty() && partition(Path.of(name)).isEmpty());
    } catch (IOException e) {
      return false;
    }
  }

  private static boolean named(String name) {
    return name.toLowerCase(Locale.ROOT).endsWith(ENDING);
  }

  /** Returns the files that a name stands for: itself, or the parts in the folder in order. */
  static List<Path> files(Path path) throws IOException {
    if (!Files.isDirectory(path)) {
      return List.of(path);
    }
    List<Path> parts = new ArrayList<>();
    try (DirectoryStream<Path> all = Files.newDirectoryStream(path)) {
      for (Path file : all) {
        String name = String.valueOf(file.getFileName());
        if (named(name)
            && !name.startsWith(".")
            && !name.startsWith("_")
            && Files.isRegularFile(file)) {
          parts.add(file);
        }
      }
    }
    parts.sort(null);
    return parts;
  }

  /** Returns a folder in a folder that stands for a value of a column, as in {@code class=west}. */
  private static Optional<Path> partition(Path folder) throws IOException {
    try (DirectoryStream<Path> all = Files.newDirectoryStream(folder, "*=*")) {
      for (Path one : all) {
        if (Files.isDirectory(one)) {
          return Optional.of(one);
        }
      }
    }
    return Optional.empty();
  }

  /**
   * Opens a file, or a folder after looking that all of its parts have the columns of the first.
   *
   * @throws PartException when a part has other columns, or there is none
   * @throws IOException when a file cannot be read or is no Parquet
   */
  static ParquetParts open(TypedTables tables, Path path) throws IOException {
    List<Path> files = files(path);
    if (Files.isDirectory(path)) {
      Optional<Path> partition = partition(path);
      if (partition.isPresent()) {
        throw new PartException(
            path,
            Sayings.of(
                "responsesParquet.partitioned", String.valueOf(partition.get().getFileName())),
            Sayings.of("responsesParquet.partitioned.mend"));
      }
      if (files.isEmpty()) {
        throw new PartException(
            path,
            Sayings.of("responsesParquet.noParts"),
            Sayings.of("responsesParquet.noParts.mend"));
      }
      checkColumns(tables, files);
    }
    Iterator<Path> left = files.iterator();
    Path first = left.next();
    return new ParquetParts(tables, left, first, tables.read(first));
  }

  private static void checkColumns(TypedTables tables, List<Path> files) throws IOException {
    @Nullable List<String> wanted = null;
    for (Path file : files) {
      try (TypedTables.Rows rows = tables.read(file)) {
        if (wanted != null && !wanted.equals(rows.columns())) {
          throw new PartException(
              file,
              Sayings.of(
                  "responsesParquet.otherColumns",
                  String.join(", ", rows.columns()),
                  String.valueOf(files.get(0).getFileName()),
                  String.join(", ", wanted)),
              Sayings.of("responsesParquet.otherColumns.mend"));
        }
        wanted = rows.columns();
      } catch (PartException | TypedTables.UnreadCodecException e) {
        throw e;
      } catch (IOException e) {
        throw new PartException(
            file,
            Sayings.of("responsesParquet.broken"),
            Sayings.of("responsesParquet.broken.mend"));
      }
    }
  }

  /** Returns the file of the row that was read last. */
  Path part() {
    return part;
  }

  /** Returns the number of the row that was read last in its file, from 1. */
  long row() {
    return row;
  }

  @Override
  public List<String> columns() {
    return columns;
  }

  @Override
  public List<String> nested() {
    return nested;
  }

  @Override
  public @Nullable List<@Nullable String> next() throws IOException {
    while (true) {
      row++;
      List<@Nullable String> cells = open.next();
      if (cells != null || !left.hasNext()) {
        return cells;
      }
      open.close();
      part = left.next();
      open = tables.read(part);
      row = 0;
    }
  }

  @Override
  public void close() throws IOException {
    open.close();
  }
}
