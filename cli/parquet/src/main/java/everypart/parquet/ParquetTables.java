package everypart.parquet;

import everypart.cli.table.TypedTables;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Path;
import java.util.List;
import org.apache.parquet.conf.ParquetConfiguration;
import org.apache.parquet.conf.PlainParquetConfiguration;
import org.apache.parquet.example.data.Group;
import org.apache.parquet.example.data.simple.SimpleGroup;
import org.apache.parquet.hadoop.ParquetWriter;
import org.apache.parquet.hadoop.example.ExampleParquetWriter;
import org.apache.parquet.hadoop.metadata.CompressionCodecName;
import org.apache.parquet.io.OutputFile;
import org.apache.parquet.io.PositionOutputStream;
import org.apache.parquet.schema.LogicalTypeAnnotation;
import org.apache.parquet.schema.MessageType;
import org.apache.parquet.schema.PrimitiveType.PrimitiveTypeName;
import org.apache.parquet.schema.Types;

/** Reads and writes Parquet files by parquet-java. */
public final class ParquetTables implements TypedTables {
  /** Small enough that a study's memory does not grow by it. */
  private static final long ROW_GROUP_BYTES = 8L << 20;

  /** The service. */
  public ParquetTables() {}

  static ParquetConfiguration plain() {
    return new PlainParquetConfiguration();
  }

  @Override
  public Rows read(Path file) throws IOException {
    return new ParquetRows(file);
  }

  @Override
  public Sink write(OutputStream file, List<Column> columns) throws IOException {
    Types.MessageTypeBuilder schema = Types.buildMessage();
    for (Column column : columns) {
      schema.addField(
          switch (column.type()) {
            case TEXT ->
                Types.optional(PrimitiveTypeName.BINARY)
                    .as(LogicalTypeAnnotation.stringType())
                    .named(column.name());
            case NUMBER -> Types.optional(PrimitiveTypeName.INT32).named(column.name());
            case FRACTION -> Types.optional(PrimitiveTypeName.DOUBLE).named(column.name());
            case TRUTH -> Types.optional(PrimitiveTypeName.BOOLEAN).named(column.name());
          });
    }
    MessageType type = schema.named("rows");
    ParquetWriter<Group> writer =
        ExampleParquetWriter.builder(new Target(file))
            .withConf(plain())
            .withType(type)
            .withCodecFactory(new Codecs())
            .withCompressionCodec(CompressionCodecName.SNAPPY)
            .withRowGroupSize(ROW_GROUP_BYTES)
            .build();
    return new Sink() {
      @Override
      public void add(List<?> cells) throws IOException {
        Group row = new SimpleGroup(type);
        for (int at = 0; at < cells.size(); at++) {
          Object cell = cells.get(at);
          switch (columns.get(at).type()) {
            case TEXT -> {
              if (cell instanceof String text) {
                row.add(at, text);
              }
            }
            case NUMBER -> {
              if (cell instanceof Integer number) {
                row.add(at, number);
              }
            }
            case FRACTION -> {
              if (cell instanceof Double number) {
                row.add(at, number);
              }
            }
            case TRUTH -> {
              if (cell instanceof Boolean truth) {
                row.add(at, truth);
              }
            }
          }
        }
        writer.write(row);
      }

      @Override
      public void close() throws IOException {
        writer.close();
      }
    };
  }

  /** A stream as the library wants it. */
  private record Target(OutputStream stream) implements OutputFile {
    @Override
    public PositionOutputStream create(long blockSizeHint) {
      return new PositionOutputStream() {
        private long position;

        @Override
        public long getPos() {
          return position;
        }

        @Override
        public void write(int one) throws IOException {
          stream.write(one);
          position++;
        }

        @Override
        public void write(byte[] bytes, int from, int length) throws IOException {
          stream.write(bytes, from, length);
          position += length;
        }

        @Override
        public void flush() throws IOException {
          stream.flush();
        }

        @Override
        public void close() throws IOException {
          stream.close();
        }
      };
    }

    @Override
    public PositionOutputStream createOrOverwrite(long blockSizeHint) {
      return create(blockSizeHint);
    }

    @Override
    public boolean supportsBlockSize() {
      return false;
    }

    @Override
    public long defaultBlockSize() {
      return 0;
    }
  }
}
