package everypart.cli.report;

import everypart.analyzer.prompt.Demand;
import everypart.analyzer.study.agreement.Stratum;
import everypart.lexicon.DemandKind;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.apache.commons.compress.archivers.zip.ZipArchiveEntry;
import org.apache.commons.compress.archivers.zip.ZipFile;
import org.apache.commons.compress.utils.SeekableInMemoryByteChannel;
import org.dhatim.fastexcel.Workbook;
import org.dhatim.fastexcel.Worksheet;

/**
 * A sheet of demands for a person to code, as CSV or as a workbook; {@code coder} and {@code code}
 * are left empty. It does not show the program's verdicts.
 */
public final class CodingSheet {
  /** A line, and who is to fill it in. */
  private record Filled(Line line, String coder) {}

  /** A column, and how wide it is in a workbook, in characters. */
  private record Wide(Column<Filled> column, int width) {
    static Wide of(String head, int width, Function<Line, String> value) {
      return new Wide(new Column<>(head, filled -> value.apply(filled.line())), width);
    }
  }

  private static final List<Wide> WIDE =
      List.of(
          Wide.of("response_id", 14, Line::responseId),
          Wide.of("prompt_id", 14, Line::promptId),
          Wide.of("part", 6, Line::part),
          Wide.of("demand", 8, line -> String.valueOf(line.demand())),
          Wide.of("kind", 11, line -> line.kind().word()),
          Wide.of("asks", 32, Line::asks),
          Wide.of("question", 45, Line::question),
          Wide.of("text", 90, Line::text),
          new Wide(new Column<>("coder", Filled::coder), 12),
          Wide.of("code", 8, line -> ""),
          Wide.of("codes", 24, Line::codes),
          Wide.of("sample", 14, Line::sample));

  private static final List<Column<Filled>> SHEET = WIDE.stream().map(Wide::column).toList();
  private static final List<String> COLUMNS = Column.heads(SHEET);

  private static final int ASKS = COLUMNS.indexOf("asks");
  private static final int TEXT = COLUMNS.indexOf("text");
  private static final int CODER = COLUMNS.indexOf("coder");
  private static final int CODE = COLUMNS.indexOf("code");
  private static final int CODES = COLUMNS.indexOf("codes");

  /** A cell of a workbook holds no more. */
  private static final int LONGEST = 32_767;

  /** The earliest time that a zip file knows. */
  private static final LocalDateTime EPOCH = LocalDateTime.of(1980, 1, 1, 0, 0);

  private static final String TO_FILL = "FFF4CC";

  private CodingSheet() {}

  /**
   * A demand to code.
   *
   * @param responseId names the response
   * @param promptId names the prompt
   * @param part the part's label
   * @param demand the demand's running number in its part, from 1
   * @param kind its kind
   * @param asks what it asks for, in a few words; empty when the prompts were not given
   * @param question the part's wording; empty when the prompts were not given
   * @param text the response; empty when the responses were not given
   * @param codes what coders who differ have said; empty on a sheet to code
   * @param sample the name of the sample it was drawn in
   */
  public record Line(
      String responseId,
      String promptId,
      String part,
      int demand,
      DemandKind kind,
      String asks,
      String question,
      String text,
      String codes,
      String sample) {
    private List<String> cells(String coder) {
      return Column.cells(SHEET, new Filled(this, coder));
    }
  }

  private static final List<Column<DesignLine>> DESIGN =
      List.of(
          new Column<>("sample", DesignLine::sample),
          new Column<>("response_id", DesignLine::responseId),
          new Column<>("prompt_id", DesignLine::promptId),
          new Column<>("part", DesignLine::part),
          new Column<>("demand", line -> String.valueOf(line.demand())),
          new Column<>("kind", line -> line.stratum().kind().word()),
          new Column<>("missing", line -> line.stratum().missing() ? "1" : "0"),
          new Column<>("unsure", line -> line.stratum().unsure() ? "1" : "0"),
          new Column<>("stratum_size", line -> String.valueOf(line.size())),
          new Column<>("drawn", line -> String.valueOf(line.drawn())),
          new Column<>("weight", line -> String.format(Locale.ROOT, "%.6f", line.weight())));

  /**
   * A demand that was drawn, with what it was drawn from. It is not for coders: it tells what the
   * program said.
   *
   * @param sample the name of the sample
   * @param responseId names the response
   * @param promptId names the prompt
   * @param part the part's label
   * @param demand the demand's running number in its part, from 1
   * @param stratum the stratum it was drawn from
   * @param size how many demands are in that
   * @param drawn how many were drawn from it
   * @param weight how many demands of the set it stands for
   */
  public record DesignLine(
      String sample,
      String responseId,
      String promptId,
      String part,
      int demand,
      Stratum stratum,
      long size,
      int drawn,
      double weight) {}

  /** Returns the lines of the design file, the header first. */
  public static List<String> design(List<DesignLine> lines) {
    List<String> rows = new ArrayList<>();
    rows.add(DemandsCsv.row(Column.heads(DESIGN)));
    for (DesignLine line : lines) {
      rows.add(DemandsCsv.row(Column.cells(DESIGN, line)));
    }
    return rows;
  }

  /** Returns what a demand asks for in a few words. */
  public static String asks(Demand demand) {
    return Words.demand(demand);
  }

  /**
   * Returns the sheet as CSV.
   *
   * @param coder who is to fill it in; empty when that is not known
   */
  public static String csv(List<Line> lines, String coder) {
    StringBuilder sheet = new StringBuilder(DemandsCsv.row(COLUMNS));
    lines.forEach(line -> sheet.append(DemandsCsv.row(line.cells(coder))));
    return sheet.toString();
  }

  /**
   * Returns the sheet as a workbook (.xlsx): the columns to fill in are coloured, that for the code
   * takes 1 and 0 only, and the header stays in view. A text past what a cell holds is cut.
   *
   * @param coder who is to fill it in; empty when that is not known
   */
  public static byte[] workbook(List<Line> lines, String coder) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (Workbook book = new Workbook(bytes, "everypart", null)) {
      Worksheet sheet = book.newWorksheet("demands");
      for (int column = 0; column < COLUMNS.size(); column++) {
        sheet.value(0, column, COLUMNS.get(column));
        sheet.width(column, WIDE.get(column).width());
      }
      sheet.range(0, 0, 0, COLUMNS.size() - 1).style().bold().fillColor("E4E9EE").set();
      sheet.freezePane(0, 1);
      for (int at = 0; at < lines.size(); at++) {
        int row = at + 1;
        List<String> cells = lines.get(at).cells(coder);
        for (int column = 0; column < cells.size(); column++) {
          String cell = cells.get(column);
          if (!cell.isEmpty()) {
            sheet.value(row, column, cell.substring(0, Math.min(cell.length(), LONGEST)));
          }
        }
        sheet.range(row, 0, row, CODES + 1).style().verticalAlignment("top").set();
        sheet.range(row, ASKS, row, TEXT).style().verticalAlignment("top").wrapText(true).set();
        sheet
            .range(row, CODER, row, CODE)
            .style()
            .verticalAlignment("top")
            .fillColor(TO_FILL)
            .set();
      }
      if (!lines.isEmpty()) {
        sheet
            .range(1, CODE, lines.size(), CODE)
            .validateWithListByFormula("\"1,0\"")
            .allowBlank(true)
            .showErrorMessage(true)
            .errorTitle("code")
            .error(Wording.of("coding.code"));
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return undated(bytes.toByteArray());
  }

  /** Takes the time of writing out of a workbook, so that the same demands give the same bytes. */
  private static byte[] undated(byte[] book) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    // The writer's zip has the sizes behind the entries only, which a stream reader cannot follow.
    try (ZipFile from =
            ZipFile.builder().setSeekableByteChannel(new SeekableInMemoryByteChannel(book)).get();
        ZipOutputStream to = new ZipOutputStream(bytes)) {
      for (ZipArchiveEntry entry : Collections.list(from.getEntriesInPhysicalOrder())) {
        byte[] content = from.getInputStream(entry).readAllBytes();
        if (entry.getName().equals("docProps/core.xml")) {
          content =
              new String(content, StandardCharsets.UTF_8)
                  .replaceFirst("<dcterms:created.*</dcterms:created>", "")
                  .getBytes(StandardCharsets.UTF_8);
        }
        ZipEntry undated = new ZipEntry(entry.getName());
        undated.setTimeLocal(EPOCH);
        to.putNextEntry(undated);
        to.write(content);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return bytes.toByteArray();
  }
}
