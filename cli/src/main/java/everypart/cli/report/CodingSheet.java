package everypart.cli.report;

import everypart.lexicon.DemandKind;
import java.util.List;
import java.util.Locale;

/**
 * A sheet of demands for a person to code, as CSV; {@code coder} and {@code code} are left empty.
 */
public final class CodingSheet {
  private CodingSheet() {}

  /** Returns the header. */
  public static String header() {
    return DemandsCsv.row(
        List.of(
            "response_id",
            "prompt_id",
            "part",
            "demand",
            "kind",
            "question",
            "text",
            "coder",
            "code",
            "weight"));
  }

  /** Returns one row. */
  public static String row(
      String responseId,
      String promptId,
      String part,
      int demand,
      DemandKind kind,
      String question,
      String text,
      double weight) {
    return DemandsCsv.row(
        List.of(
            responseId,
            promptId,
            part,
            String.valueOf(demand),
            kind.word(),
            question,
            text,
            "",
            "",
            String.format(Locale.ROOT, "%.6f", weight)));
  }
}
