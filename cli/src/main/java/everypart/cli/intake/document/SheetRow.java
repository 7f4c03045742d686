package everypart.cli.intake.document;

import java.util.List;

/**
 * A row of a sheet that is not empty.
 *
 * @param number the row in a workbook, or the line in a text file, counted from 1
 * @param cells its cells; in a workbook at least as many as the first row has
 */
public record SheetRow(long number, List<String> cells) {
  /** Copies the cells. */
  public SheetRow {
    cells = List.copyOf(cells);
  }
}
