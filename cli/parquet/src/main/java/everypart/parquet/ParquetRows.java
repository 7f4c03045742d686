package everypart.parquet;

import everypart.cli.table.TypedTables;
import everypart.cli.table.TypedTables.UnreadCodecException;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.apache.parquet.ParquetReadOptions;
import org.apache.parquet.column.page.PageReadStore;
import org.apache.parquet.example.data.Group;
import org.apache.parquet.example.data.simple.convert.GroupRecordConverter;
import org.apache.parquet.hadoop.ParquetFileReader;
import org.apache.parquet.hadoop.metadata.BlockMetaData;
import org.apache.parquet.hadoop.metadata.ColumnChunkMetaData;
import org.apache.parquet.io.ColumnIOFactory;
import org.apache.parquet.io.LocalInputFile;
import org.apache.parquet.io.RecordReader;
import org.apache.parquet.schema.MessageType;
import org.apache.parquet.schema.Type;
import org.jspecify.annotations.Nullable;

/** The rows of a Parquet file, a row group in memory at a time. */
final class ParquetRows implements TypedTables.Rows {
  private final ParquetFileReader file;
  private final MessageType flat;
  private final List<String> nested = new ArrayList<>();
  private @Nullable RecordReader<Group> rows;
  private long left;

  ParquetRows(Path path) throws IOException {
    try {
      this.file =
          ParquetFileReader.open(
              new LocalInputFile(path),
              ParquetReadOptions.builder(ParquetTables.plain())
                  .withCodecFactory(new Codecs())
                  .build());
    } catch (RuntimeException | LinkageError | StackOverflowError | OutOfMemoryError e) {
      throw broken(e);
    }
    MessageType schema = file.getFileMetaData().getSchema();
    List<Type> kept = new ArrayList<>();
    for (Type field : schema.getFields()) {
      if (field.isPrimitive() && !field.isRepetition(Type.Repetition.REPEATED)) {
        kept.add(field);
      } else {
        nested.add(field.getName());
      }
    }
    this.flat = new MessageType(schema.getName(), kept);
    file.setRequestedSchema(flat);
    try {
      checkCodecs();
    } catch (UnreadCodecException e) {
      file.close();
      throw e;
    }
  }

  /** A codec is told of before the first row, with the column that it packs. */
  private void checkCodecs() throws UnreadCodecException {
    for (BlockMetaData group : file.getFooter().getBlocks()) {
      for (ColumnChunkMetaData column : group.getColumns()) {
        String name = column.getPath().toArray()[0];
        if (flat.containsField(name) && !Codecs.READ.contains(column.getCodec())) {
          throw new UnreadCodecException(name, column.getCodec().name());
        }
      }
    }
  }

  @Override
  public List<String> columns() {
    return flat.getFields().stream().map(Type::getName).toList();
  }

  @Override
  public List<String> nested() {
    return List.copyOf(nested);
  }

  @Override
  public @Nullable List<@Nullable String> next() throws IOException {
    try {
      while (left == 0) {
        PageReadStore group = file.readNextRowGroup();
        if (group == null) {
          return null;
        }
        left = group.getRowCount();
        rows =
            new ColumnIOFactory()
                .getColumnIO(flat)
                .getRecordReader(group, new GroupRecordConverter(flat));
      }
      left--;
      RecordReader<Group> open = rows;
      Group row = open == null ? null : open.read();
      if (row == null) {
        throw new IOException("it ends before its last row");
      }
      List<@Nullable String> cells = new ArrayList<>();
      for (int at = 0; at < flat.getFieldCount(); at++) {
        cells.add(row.getFieldRepetitionCount(at) == 0 ? null : Cells.text(row, at));
      }
      return cells;
    } catch (RuntimeException | LinkageError | StackOverflowError | OutOfMemoryError e) {
      throw broken(e);
    }
  }

  /** What the library throws at a broken file is of many kinds; all mean the same to the caller. */
  private static IOException broken(Throwable thrown) {
    String said =
        thrown instanceof OutOfMemoryError
            ? "it takes more memory than there is"
            : String.valueOf(thrown.getMessage()).lines().findFirst().orElse("");
    return new IOException(said, thrown);
  }

  @Override
  public void close() throws IOException {
    file.close();
  }
}
