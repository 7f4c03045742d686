package everypart.parquet;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.cli.table.TypedTables;
import everypart.cli.table.TypedTables.CellType;
import everypart.cli.table.TypedTables.Column;
import everypart.cli.table.TypedTables.UnreadCodecException;
import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.apache.parquet.bytes.BytesInput;
import org.apache.parquet.compression.CompressionCodecFactory;
import org.apache.parquet.example.data.Group;
import org.apache.parquet.example.data.simple.SimpleGroup;
import org.apache.parquet.hadoop.ParquetWriter;
import org.apache.parquet.hadoop.example.ExampleParquetWriter;
import org.apache.parquet.hadoop.metadata.CompressionCodecName;
import org.apache.parquet.io.LocalOutputFile;
import org.apache.parquet.schema.MessageType;
import org.apache.parquet.schema.MessageTypeParser;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

final class ParquetTablesTest {
  @TempDir
  @SuppressWarnings("NullAway.Init")
  Path folder;

  private static List<@Nullable List<@Nullable String>> read(Path file) throws IOException {
    List<@Nullable List<@Nullable String>> all = new ArrayList<>();
    try (TypedTables.Rows rows = new ParquetTables().read(file)) {
      for (List<@Nullable String> row = rows.next(); row != null; row = rows.next()) {
        all.add(row);
      }
      assertNull(rows.next(), "there is nothing after the last row");
    }
    return all;
  }

  @Test
  void whatIsWrittenIsReadBack() throws IOException {
    Path file = folder.resolve("rows.parquet");
    List<Column> columns =
        List.of(
            new Column("id", CellType.TEXT),
            new Column("count", CellType.NUMBER),
            new Column("confidence", CellType.FRACTION),
            new Column("look", CellType.TRUTH));
    int rows = 5_000;
    try (TypedTables.Sink sink = new ParquetTables().write(Files.newOutputStream(file), columns)) {
      for (int row = 0; row < rows; row++) {
        sink.add(
            Arrays.asList(
                row % 3 == 0 ? null : "täuf \ud83c\udf0a" + row, row, row / 8.0, row % 2 == 0));
      }
    }
    List<@Nullable List<@Nullable String>> read = read(file);
    assertEquals(rows, read.size());
    for (int row = 0; row < rows; row++) {
      String half = row % 8 == 0 ? String.valueOf(row / 8) : String.valueOf(row / 8.0);
      assertEquals(
          Arrays.asList(
              row % 3 == 0 ? null : "täuf \ud83c\udf0a" + row,
              String.valueOf(row),
              half,
              String.valueOf(row % 2 == 0)),
          read.get(row));
    }
  }

  private Path typed(CompressionCodecName codec) throws IOException {
    MessageType schema =
        MessageTypeParser.parseMessageType(
            """
            message rows {
              required int64 whole;
              optional int32 day (DATE);
              required int64 when (TIMESTAMP(MICROS,true));
              required int64 local (TIMESTAMP(MILLIS,false));
              required int32 money (DECIMAL(9,2));
              required int32 unsigned (INTEGER(8,false));
              required float single;
              required double gap;
              required boolean truth;
              required binary text (UTF8);
              repeated binary many (UTF8);
              optional group pair { required int32 one; }
            }
            """);
    Path file = folder.resolve(codec + ".parquet");
    try (ParquetWriter<Group> writer =
        ExampleParquetWriter.builder(new LocalOutputFile(file))
            .withConf(ParquetTables.plain())
            .withType(schema)
            .withCodecFactory(new Codecs())
            .withCompressionCodec(codec)
            .build()) {
      Group row = new SimpleGroup(schema);
      row.append("whole", 1L << 60)
          .append("day", 20_521)
          .append("when", 1_773_044_130_000_001L)
          .append("local", 1_773_044_130_000L)
          .append("money", -1205)
          .append("unsigned", 255)
          .append("single", 0.1f)
          .append("gap", Double.NaN)
          .append("truth", true)
          .append("text", "words")
          .append("many", "a");
      writer.write(row);
    }
    return file;
  }

  @Test
  void typesAreReadAsTheirPlainWords() throws IOException {
    Path file = typed(CompressionCodecName.SNAPPY);
    try (TypedTables.Rows rows = new ParquetTables().read(file)) {
      assertEquals(List.of("many", "pair"), rows.nested());
      assertEquals(10, rows.columns().size());
    }
    assertEquals(
        List.of(
            Arrays.asList(
                "1152921504606846976",
                "2026-03-09",
                "2026-03-09T08:15:30.000001Z",
                "2026-03-09T08:15:30",
                "-12.05",
                "255",
                "0.1",
                null,
                "true",
                "words")),
        read(file));
  }

  /** Writes a response that claims to be packed by a codec. */
  static void packed(Path file, CompressionCodecName codec) throws IOException {
    MessageType schema =
        MessageTypeParser.parseMessageType(
            "message rows { required binary response_id (UTF8); required binary text (UTF8);"
                + " repeated binary many (UTF8); }");
    CompressionCodecFactory snappy = new Codecs();
    CompressionCodecFactory claims =
        new CompressionCodecFactory() {
          @Override
          public BytesInputCompressor getCompressor(CompressionCodecName name) {
            BytesInputCompressor by = snappy.getCompressor(CompressionCodecName.SNAPPY);
            return new BytesInputCompressor() {
              @Override
              public BytesInput compress(BytesInput bytes) throws IOException {
                return by.compress(bytes);
              }

              @Override
              public CompressionCodecName getCodecName() {
                return name;
              }

              @Override
              public void release() {}
            };
          }

          @Override
          public BytesInputDecompressor getDecompressor(CompressionCodecName name) {
            return snappy.getDecompressor(name);
          }

          @Override
          public void release() {}
        };
    try (ParquetWriter<Group> writer =
        ExampleParquetWriter.builder(new LocalOutputFile(file))
            .withConf(ParquetTables.plain())
            .withType(schema)
            .withCodecFactory(claims)
            .withCompressionCodec(codec)
            .build()) {
      writer.write(new SimpleGroup(schema).append("response_id", "r1").append("text", "words"));
    }
  }

  @Test
  void aCodecIsRefusedBeforeTheFirstRow() throws IOException {
    for (CompressionCodecName codec :
        List.of(CompressionCodecName.BROTLI, CompressionCodecName.LZO, CompressionCodecName.LZ4)) {
      Path file = folder.resolve(codec + ".parquet");
      packed(file, codec);
      UnreadCodecException refused =
          assertThrows(UnreadCodecException.class, () -> new ParquetTables().read(file));
      assertEquals("response_id", refused.column());
      assertEquals(codec.name(), refused.codec());
    }
  }

  @Test
  void aBrokenFileIsToldByOneKindOfError() throws IOException {
    Path whole = typed(CompressionCodecName.SNAPPY);
    byte[] bytes = Files.readAllBytes(whole);
    assertThrows(
        IOException.class,
        () -> read(Files.write(folder.resolve("no"), "no".getBytes(StandardCharsets.UTF_8))));
    int refused = 0;
    for (int at = 4; at < bytes.length; at += 7) {
      Path damaged = Files.write(folder.resolve("damaged"), bytes);
      try (RandomAccessFile file = new RandomAccessFile(damaged.toFile(), "rw")) {
        file.seek(at);
        file.write(bytes[at] ^ 0x5A);
      }
      try {
        read(damaged);
      } catch (IOException told) {
        refused++;
      }
    }
    assertTrue(refused > 20, "only " + refused + " damaged files were refused");
  }
}
