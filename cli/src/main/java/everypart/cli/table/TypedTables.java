package everypart.cli.table;

import java.io.Closeable;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Reads and writes Parquet files; brought by a jar of its own. */
public interface TypedTables {
  /**
   * A column.
   *
   * @param name its name
   * @param type what its cells hold
   */
  record Column(String name, CellType type) {}

  /** What a cell holds; any may be null. */
  enum CellType {
    /** A {@link String}. */
    TEXT,
    /** An {@link Integer}. */
    NUMBER,
    /** A {@link Double}. */
    FRACTION,
    /** A {@link Boolean}. */
    TRUTH
  }

  /** The rows of a file, read a row group at a time. */
  interface Rows extends Closeable {
    /** Returns the names of the columns that hold one value a row, in the file's order. */
    List<String> columns();

    /** Returns the names of the columns that hold lists or tables, which are not read. */
    List<String> nested();

    /**
     * Returns the cells of the next row as text, null where there is no value; null after the last
     * row. Dates and times are as ISO 8601 writes them, whole numbers have no point.
     *
     * @throws IOException when the file is not what it claims to be
     */
    @Nullable List<@Nullable String> next() throws IOException;
  }

  /** A file holds a column that is packed in a way that is not read. */
  final class UnreadCodecException extends IOException {
    private static final long serialVersionUID = 1;

    private final String column;
    private final String codec;

    /**
     * Names the column and the codec.
     *
     * @param column which column cannot be unpacked
     * @param codec the name that the format has for the codec
     */
    public UnreadCodecException(String column, String codec) {
      super("the column " + column + " is packed by " + codec);
      this.column = column;
      this.codec = codec;
    }

    /** Returns which column cannot be unpacked. */
    public String column() {
      return column;
    }

    /** Returns the name that the format has for the codec. */
    public String codec() {
      return codec;
    }
  }

  /** A file that is being written. */
  interface Sink extends Closeable {
    /**
     * Adds a row.
     *
     * @param cells as many as there are columns, of their types
     */
    void add(List<?> cells) throws IOException;
  }

  /**
   * Opens a file for reading.
   *
   * @throws UnreadCodecException when a column that would be read is packed in a way that is not
   * @throws IOException when it cannot be read or is no Parquet
   */
  Rows read(Path file) throws IOException;

  /**
   * Begins a file. The stream is closed with it.
   *
   * @param columns with names that differ
   */
  Sink write(OutputStream file, List<Column> columns) throws IOException;
}
