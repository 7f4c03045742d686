package everypart.cli.command;

import java.io.BufferedWriter;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.apache.commons.csv.CSVRecord;

/**
 * How the time of a study grows with its rows, in 512 MB of heap. A program, not a test:
 * docs/performance.md says how to run it.
 *
 * <p>The rows are those of the demo set over and over, each with an id of its own and one of 20,000
 * students. Each size is a run of the jar; the time of an empty run is taken off.
 */
final class StudyScale {
  private static final Path DEMO = Path.of("demo-data");

  private StudyScale() {}

  /** Runs the sizes given, in a folder given first. */
  public static void main(String[] arguments) throws Exception {
    Path folder = Files.createDirectories(Path.of(arguments[0]));
    List<Long> sizes = new ArrayList<>(List.of(0L));
    for (int i = 1; i < arguments.length; i++) {
      sizes.add(Long.parseLong(arguments[i]));
    }
    double start = 0;
    double first = 0;
    for (long size : sizes) {
      double seconds = run(folder, size);
      if (size == 0) {
        start = seconds;
        continue;
      }
      double each = (seconds - start) / size;
      first = first == 0 ? each : first;
      System.out.printf(
          Locale.ROOT,
          "%,d rows: %.1f s, %,.0f rows/s, time a row over that of the first size %.2f%n",
          size,
          seconds,
          size / seconds,
          each / first);
    }
  }

  private static double run(Path folder, long size) throws IOException, InterruptedException {
    Path rows = folder.resolve("rows.csv");
    write(rows, size);
    long begin = System.nanoTime();
    Process process =
        new ProcessBuilder(
                "java",
                "-Xmx512m",
                "-jar",
                "cli/target/everypart.jar",
                "study",
                "--prompts",
                DEMO.resolve("prompts").toString(),
                "--responses",
                rows.toString(),
                "--by",
                "class,first_language",
                "--cluster",
                "student",
                "--out",
                folder.resolve("out").toString())
            .inheritIO()
            .start();
    int status = process.waitFor();
    if (status != 0) {
      throw new IllegalStateException("the run of " + size + " rows ended with " + status);
    }
    return (System.nanoTime() - begin) / 1e9;
  }

  private static void write(Path file, long size) throws IOException {
    List<CSVRecord> demo;
    List<String> header;
    try (var parser =
        CSVFormat.RFC4180
            .builder()
            .setHeader()
            .setSkipHeaderRecord(true)
            .get()
            .parse(Files.newBufferedReader(DEMO.resolve("study.csv")))) {
      header = parser.getHeaderNames();
      demo = parser.getRecords();
    }
    int id = header.indexOf("response_id");
    int student = header.indexOf("student");
    try (BufferedWriter out = Files.newBufferedWriter(file, StandardCharsets.UTF_8);
        CSVPrinter printer = new CSVPrinter(out, CSVFormat.RFC4180)) {
      printer.printRecord(header);
      for (long row = 0; row < size; row++) {
        List<String> cells = new ArrayList<>(List.of(demo.get((int) (row % demo.size())).values()));
        cells.set(id, "r" + row);
        cells.set(student, "p" + (row * 7919 % 20_000));
        printer.printRecord(cells);
      }
    }
  }
}
