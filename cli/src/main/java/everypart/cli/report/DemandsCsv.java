package everypart.cli.report;

import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.coverage.DemandCoverage;
import everypart.analyzer.coverage.PartCoverage;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import org.apache.commons.csv.CSVFormat;

/**
 * One row a response and demand, for R, Python or a spreadsheet.
 *
 * <p>A cell that a spreadsheet would take as a formula gets an apostrophe before it (OWASP, "CSV
 * Injection").
 */
public final class DemandsCsv {
  /** What a row is about. */
  private record Row(Coverage coverage, PartCoverage part, int number, DemandCoverage demand) {}

  private static final List<Column<Row>> COLUMNS =
      List.of(
          new Column<>("response_id", row -> row.coverage().responseId()),
          new Column<>("prompt_id", row -> row.coverage().prompt().id()),
          new Column<>("part", row -> row.part().part().label()),
          new Column<>("demand", row -> String.valueOf(row.number())),
          new Column<>("kind", row -> row.demand().demand().kind().word()),
          new Column<>("verb", row -> row.demand().demand().verb()),
          new Column<>("about", row -> row.demand().demand().about()),
          new Column<>("count", row -> String.valueOf(row.demand().demand().count())),
          new Column<>("found", row -> String.valueOf(row.demand().found())),
          new Column<>("verdict", row -> row.demand().verdict().word()),
          new Column<>(
              "confidence", row -> String.format(Locale.ROOT, "%.3f", row.demand().confidence())),
          new Column<>("look", row -> row.demand().look() ? "1" : "0"),
          new Column<>(
              "quote",
              row ->
                  quotes(
                      row.demand().evidence().stream()
                          .map(span -> span.of(row.coverage().text()))
                          .toList())),
          new Column<>("why", row -> String.join("; ", row.demand().why())));

  private static final List<String> REVISED = List.of("earlier", "change");

  /** The column that says why a response is left out of a study's figures. */
  public static final String LEFT_OUT = "left_out";

  private final List<String> groups;
  private final boolean revised;
  private final boolean leavingOut;

  /**
   * Makes a renderer.
   *
   * @param groups the further columns of the responses, which become the last columns here
   */
  public DemandsCsv(List<String> groups) {
    this(groups, false, false);
  }

  /**
   * Returns the renderer of a study.
   *
   * @param groups the further columns of the responses
   * @param leavingOut whether one more column says why a response is left out of the figures
   */
  public static DemandsCsv ofStudy(List<String> groups, boolean leavingOut) {
    return new DemandsCsv(groups, false, leavingOut);
  }

  /**
   * Makes a renderer.
   *
   * @param revised whether two more columns say what an earlier draft had and what became of it
   */
  DemandsCsv(List<String> groups, boolean revised) {
    this(groups, revised, false);
  }

  private DemandsCsv(List<String> groups, boolean revised, boolean leavingOut) {
    this.groups = List.copyOf(groups);
    this.revised = revised;
    this.leavingOut = leavingOut;
  }

  /** Returns the names of the columns that every row has, before the groups. */
  public static List<String> columns() {
    return Column.heads(COLUMNS);
  }

  /** Returns the header. */
  public String header() {
    List<String> cells = new ArrayList<>(columns());
    cells.addAll(groups);
    if (revised) {
      cells.addAll(REVISED);
    }
    if (leavingOut) {
      cells.add(LEFT_OUT);
    }
    return row(cells);
  }

  /** Returns the rows of one response; {@code demand} counts from 1 within the part. */
  public String rows(Coverage coverage, Map<String, String> values) {
    return rows(coverage, values, Optional.empty(), Optional.empty());
  }

  /**
   * Returns the rows of one response of a study.
   *
   * @param leftOut why the figures do not count it; nothing when they do
   */
  public String rowsOf(Coverage coverage, Map<String, String> values, Optional<Exclusion> leftOut) {
    return rows(coverage, values, Optional.empty(), leftOut);
  }

  /**
   * Returns the rows of one response.
   *
   * @param revision what became of the demands since an earlier draft
   */
  String rows(Coverage coverage, Map<String, String> values, Optional<Revision> revision) {
    return rows(coverage, values, revision, Optional.empty());
  }

  private String rows(
      Coverage coverage,
      Map<String, String> values,
      Optional<Revision> revision,
      Optional<Exclusion> leftOut) {
    Iterator<Revision.Item> items = revision.map(Revision::items).orElse(List.of()).iterator();
    StringBuilder out = new StringBuilder();
    for (PartCoverage part : coverage.parts()) {
      int number = 1;
      for (DemandCoverage demand : part.demands()) {
        List<String> cells =
            new ArrayList<>(Column.cells(COLUMNS, new Row(coverage, part, number++, demand)));
        groups.forEach(name -> cells.add(values.getOrDefault(name, "")));
        if (items.hasNext()) {
          Revision.Item item = items.next();
          cells.add(item.earlier().word());
          cells.add(item.change().word());
        } else if (revised) {
          REVISED.forEach(column -> cells.add(""));
        }
        if (leavingOut) {
          cells.add(leftOut.map(Exclusion::word).orElse(""));
        }
        out.append(row(cells));
      }
    }
    return out.toString();
  }

  /** Returns the cell of the words that a verdict relies on. */
  public static String quotes(List<String> quotes) {
    return String.join(" | ", quotes.stream().map(Words::oneLine).toList());
  }

  /** Returns how each row of a response begins: its id and the comma after it. */
  public static String firstCell(String responseId) {
    String alone = row(List.of(responseId));
    return alone.substring(0, alone.length() - CSVFormat.RFC4180.getRecordSeparator().length())
        + ",";
  }

  /** Returns one row of CSV with its line end. */
  static String row(List<String> cells) {
    StringBuilder out = new StringBuilder();
    try {
      for (int i = 0; i < cells.size(); i++) {
        String cell = safe(cells.get(i));
        if (OTHER_SEPARATOR.matcher(cell).find()) {
          out.append(i == 0 ? "" : ",").append('"').append(cell.replace("\"", "\"\"")).append('"');
        } else {
          CSVFormat.RFC4180.print(cell, out, i == 0);
        }
      }
      CSVFormat.RFC4180.println(out);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return out.toString();
  }

  /** What stands between cells where the comma does not, so that a cell may be split at it. */
  private static final Pattern OTHER_SEPARATOR = Pattern.compile("[;\t|]");

  /**
   * A sign that begins a formula, ASCII or full-width, at the start of a cell or of what is one
   * where other separators are used ("CSV Injection", OWASP).
   */
  private static final Pattern FORMULA =
      Pattern.compile(
          "(?<=[;\t|\\n"
              + "\\r"
              + "])[ \u00a0]?(?=[=+@\uff1d\uff0b\uff0d\uff20-])|^(?=[=+@\uff1d\uff0b\uff0d\uff20"
              + "\t\r"
              + "-])");

  /** Returns a cell as it is written, with an apostrophe before what would be a formula. */
  static String safe(String cell) {
    return FORMULA.matcher(cell).replaceAll("$0'");
  }
}
