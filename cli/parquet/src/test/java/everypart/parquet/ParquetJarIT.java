package everypart.parquet;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.cli.table.TypedTables;
import everypart.cli.table.TypedTables.CellType;
import everypart.cli.table.TypedTables.Column;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.jar.JarFile;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.apache.parquet.hadoop.metadata.CompressionCodecName;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Both jars as a user runs them, in a folder of their own. */
final class ParquetJarIT {
  private static final Path BUILT = Path.of("..", "target");
  private static final Path DEMO = Path.of("..", "..", "demo-data").toAbsolutePath().normalize();

  @TempDir
  @SuppressWarnings("NullAway.Init")
  Path folder;

  private record Ended(int status, String err) {}

  @BeforeEach
  void installTheProgram() throws IOException {
    Files.copy(BUILT.resolve("everypart.jar"), folder.resolve("everypart.jar"));
  }

  private void installTheSecondJar() throws IOException {
    Files.copy(BUILT.resolve("everypart-parquet.jar"), folder.resolve("everypart-parquet.jar"));
  }

  private Ended study(Path responses, String out, String... more)
      throws IOException, InterruptedException {
    Path err = Files.createTempFile(folder, "err", "");
    List<String> words =
        new ArrayList<>(
            List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-jar",
                folder.resolve("everypart.jar").toString(),
                "study",
                "--prompts",
                DEMO.resolve("prompts").toString(),
                "--responses",
                responses.toString(),
                "--out",
                folder.resolve(out).toString()));
    words.addAll(List.of(more));
    int status = new ProcessBuilder(words).redirectError(err.toFile()).start().waitFor();
    return new Ended(status, Files.readString(err));
  }

  private static List<CSVRecord> csv(Path file) throws IOException {
    try (var rows = CSVFormat.RFC4180.parse(Files.newBufferedReader(file))) {
      return rows.getRecords();
    }
  }

  /** Writes the demo responses as Parquet. */
  private Path responses() throws IOException {
    List<CSVRecord> rows = csv(DEMO.resolve("study.csv"));
    List<Column> columns =
        rows.get(0).stream().map(name -> new Column(name, CellType.TEXT)).toList();
    Path file = folder.resolve("answers.parquet");
    try (TypedTables.Sink sink = new ParquetTables().write(Files.newOutputStream(file), columns)) {
      for (CSVRecord row : rows.subList(1, rows.size())) {
        sink.add(row.toList());
      }
    }
    return file;
  }

  @Tag("slow")
  @Test
  void parquetInAndOutGivesWhatCsvGives() throws IOException, InterruptedException {
    installTheSecondJar();
    Ended fromCsv = study(DEMO.resolve("study.csv"), "csv", "--parquet");
    assertEquals(0, fromCsv.status(), fromCsv.err());
    Ended fromParquet = study(responses(), "parquet", "--parquet");
    assertEquals(0, fromParquet.status(), fromParquet.err());
    for (String name : List.of("results.jsonl", "demands.csv", "demands.parquet")) {
      assertEquals(
          -1,
          Files.mismatch(
              folder.resolve("csv").resolve(name), folder.resolve("parquet").resolve(name)),
          name);
    }
    List<CSVRecord> expected = csv(folder.resolve("csv/demands.csv"));
    try (TypedTables.Rows rows = new ParquetTables().read(folder.resolve("csv/demands.parquet"))) {
      List<String> names = expected.get(0).toList();
      assertEquals(names, rows.columns());
      for (CSVRecord row : expected.subList(1, expected.size())) {
        List<@Nullable String> cells = Objects.requireNonNull(rows.next());
        for (int at = 0; at < names.size(); at++) {
          assertEquals(
              plain(names.get(at), row.get(at)), cells.get(at), names.get(at) + " of " + row);
        }
      }
      assertEquals(null, rows.next());
    }
    Ended resumed = study(folder.resolve("answers.parquet"), "parquet", "--parquet", "--resume");
    assertTrue(resumed.err().contains("nothing was left to do"), resumed.err());
  }

  /** Returns a cell of demands.csv as the typed table has it. */
  private static String plain(String column, String cell) {
    return switch (column) {
      case "look" -> cell.equals("1") ? "true" : "false";
      case "confidence" -> cell.replaceFirst("0+$", "").replaceFirst("[.]$", "");
      default -> cell.matches("(?s)'[=+@-].*") ? cell.substring(1) : cell;
    };
  }

  @Test
  void withoutTheSecondJarItSaysWhatIsMissingAndWhere() throws IOException, InterruptedException {
    Ended in = study(responses(), "in");
    assertEquals(3, in.status(), in.err());
    assertTrue(in.err().contains(folder.resolve("everypart-parquet.jar").toString()), in.err());
    assertEquals(1, in.err().lines().count(), in.err());
    Ended out = study(DEMO.resolve("study.csv"), "out", "--parquet");
    assertEquals(2, out.status(), out.err());
    assertTrue(out.err().contains("--parquet needs a jar of its own"), out.err());
    assertFalse(Files.exists(folder.resolve("out")));
  }

  @Test
  void aFileThatIsNoParquetCostsOneSentence() throws IOException, InterruptedException {
    installTheSecondJar();
    Path wrong = Files.writeString(folder.resolve("wrong.parquet"), "response_id,text\nr1,words\n");
    Ended ended = study(wrong, "wrong");
    assertEquals(3, ended.status(), ended.err());
    assertEquals(1, ended.err().lines().count(), ended.err());
    assertTrue(ended.err().contains("no Parquet file"), ended.err());
  }

  /**
   * Writes the demo responses as a folder of parts, as programs leave it that share the writing.
   */
  private Path parts(int each) throws IOException {
    List<CSVRecord> rows = csv(DEMO.resolve("study.csv"));
    List<Column> columns =
        rows.get(0).stream().map(name -> new Column(name, CellType.TEXT)).toList();
    Path parts = Files.createDirectory(folder.resolve("parts"));
    for (int from = 1, part = 0; from < rows.size(); from += each, part++) {
      Path file = parts.resolve(String.format(Locale.ROOT, "part-%05d.snappy.parquet", part));
      try (TypedTables.Sink sink =
          new ParquetTables().write(Files.newOutputStream(file), columns)) {
        for (CSVRecord row : rows.subList(from, Math.min(rows.size(), from + each))) {
          sink.add(row.toList());
        }
      }
    }
    Files.writeString(parts.resolve("_SUCCESS"), "");
    Files.writeString(parts.resolve("._SUCCESS.crc"), "");
    Files.writeString(parts.resolve(".part-00000.snappy.parquet.crc"), "crc");
    Files.writeString(parts.resolve("_temporary.parquet"), "no table");
    return parts;
  }

  @Test
  void aFolderOfPartsIsOneTable() throws IOException, InterruptedException {
    installTheSecondJar();
    Path parts = parts(7);
    assertEquals(0, study(DEMO.resolve("study.csv"), "csv").status());
    Ended ended = study(parts, "whole");
    assertEquals(0, ended.status(), ended.err());
    for (String name : List.of("results.jsonl", "demands.csv")) {
      assertEquals(
          -1,
          Files.mismatch(
              folder.resolve("csv").resolve(name), folder.resolve("whole").resolve(name)),
          name);
    }
    Ended resumed = study(parts, "whole", "--resume");
    assertTrue(resumed.err().contains("nothing was left to do"), resumed.err());
    Files.delete(parts.resolve("part-00001.snappy.parquet"));
    Ended changed = study(parts, "whole", "--resume");
    assertEquals(2, changed.status(), changed.err());
    assertTrue(changed.err().contains("has changed"), changed.err());
  }

  @Test
  void aFolderThatIsNoTableCostsOneSentence() throws IOException, InterruptedException {
    installTheSecondJar();
    Path parts = parts(30);
    List<Column> other = List.of(new Column("response_id", CellType.TEXT));
    new ParquetTables()
        .write(Files.newOutputStream(parts.resolve("part-9.parquet")), other)
        .close();
    said(study(parts, "other"), "part-9.parquet: this part has other columns (response_id) than");
    Files.writeString(parts.resolve("part-9.parquet"), "no table");
    said(study(parts, "broken"), "part-9.parquet: this is no Parquet file");
    Files.delete(parts.resolve("part-9.parquet"));
    Files.createDirectory(parts.resolve("class=west"));
    said(study(parts, "by"), "a folder for each value of a column (class=west)");
    said(
        study(Files.createDirectory(folder.resolve("empty.parquet")), "empty"),
        "there is no file in this folder whose name ends with .parquet");
  }

  private static void said(Ended ended, String words) {
    assertEquals(3, ended.status(), ended.err());
    assertEquals(1, ended.err().lines().count(), ended.err());
    assertTrue(ended.err().contains(words), ended.err());
  }

  @Test
  void aCodecThatIsNotReadIsNamedWithItsColumn() throws IOException, InterruptedException {
    installTheSecondJar();
    Path file = folder.resolve("packed.parquet");
    ParquetTablesTest.packed(file, CompressionCodecName.BROTLI);
    said(
        study(file, "packed"),
        "packed.parquet: the column \"response_id\" is packed with Brotli, which is not read");
  }

  @Test
  void theJarIsLightAndHoldsLicences() throws IOException {
    long megabytes = Files.size(BUILT.resolve("everypart-parquet.jar")) >> 20;
    assertTrue(megabytes < 12, megabytes + " MB");
    try (JarFile jar = new JarFile(BUILT.resolve("everypart-parquet.jar").toFile())) {
      for (String name :
          List.of(
              "README.txt",
              "license.txt",
              "BSD-3-Clause.txt",
              "parquet-hadoop-jar/META-INF/LICENSE",
              "parquet-hadoop-jar/META-INF/NOTICE",
              "hadoop-client-api-jar/META-INF/NOTICE.txt")) {
        assertNotNull(jar.getEntry("META-INF/licenses/" + name), name);
      }
      assertTrue(
          jar.stream().noneMatch(entry -> entry.getName().matches(".*[.](so|dll|dylib|jnilib)")));
      assertEquals(
          List.of(),
          jar.stream()
              .filter(entry -> entry.getName().startsWith("org/apache/hadoop/ipc"))
              .toList());
    }
  }
}
