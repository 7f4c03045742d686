package everypart.cli.intake;

import java.io.Closeable;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Locale;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/** Texts without a prompt, from a text file with one on each line or a CSV file. */
public final class NamedTexts extends Ahead<NamedText> implements Closeable {
  /** Reads one text. */
  private interface Source {
    @Nullable NamedText next() throws IOException;
  }

  private final Source source;
  private final Closeable file;

  private NamedTexts(Source source, Closeable file) {
    this.source = source;
    this.file = file;
    begin();
  }

  /**
   * Opens a file.
   *
   * @param name .csv with the columns {@code id} and {@code text}; anything else, and "-", is a
   *     text a line, empty lines left out
   * @param problems is told of each row that cannot be read
   * @throws InputException when the file cannot be read or lacks a column
   */
  public static NamedTexts open(Sources sources, String name, Consumer<InputProblem> problems)
      throws InputException {
    if (!name.toLowerCase(Locale.ROOT).endsWith(".csv")) {
      LongLines lines = sources.lines(name);
      long[] number = {0};
      return new NamedTexts(
          () -> {
            String line = lines.next();
            number[0]++;
            while (line != null && (line.isBlank() || lines.cut(line))) {
              if (lines.cut(line)) {
                problems.accept(sources.tooLong(Sources.place(name).atLine(number[0])));
              }
              line = lines.next();
              number[0]++;
            }
            return line == null ? null : new NamedText(String.valueOf(number[0]), line);
          },
          lines);
    }
    CsvRows rows = new CsvRows(name, sources);
    int id = rows.column("id");
    int text = rows.column("text");
    return new NamedTexts(
        () -> {
          CsvRows.Row row = rows.next();
          while (row != null && row.problem().isPresent()) {
            problems.accept(row.problem().get());
            row = rows.next();
          }
          return row == null ? null : new NamedText(row.cells().get(id), row.cells().get(text));
        },
        rows::close);
  }

  @Override
  protected @Nullable NamedText read() {
    try {
      return source.next();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Override
  public void close() throws IOException {
    file.close();
  }
}
