package everypart.cli.report;

import java.io.PrintWriter;
import java.util.Locale;

/**
 * How far a second judge agrees with a first on whether demands are addressed, as pooled counts;
 * ratios are derived last.
 *
 * <p>Kappa is Cohen's (J. Cohen, "A coefficient of agreement for nominal scales", Educational and
 * Psychological Measurement 20, 1960): (p - e) / (1 - e), p the share on which both agree, e the
 * share on which they would by chance.
 *
 * @param bothAddressed both say addressed
 * @param onlyFirst only the first says addressed
 * @param onlySecond only the second says addressed
 * @param bothMissing neither says addressed
 */
public record Agreement(long bothAddressed, long onlyFirst, long onlySecond, long bothMissing) {
  /** Nothing counted yet. */
  public static final Agreement NONE = new Agreement(0, 0, 0, 0);

  /** Returns the counts with one more pair of codes. */
  public Agreement with(boolean first, boolean second) {
    return new Agreement(
        bothAddressed + (first && second ? 1 : 0),
        onlyFirst + (first && !second ? 1 : 0),
        onlySecond + (!first && second ? 1 : 0),
        bothMissing + (!first && !second ? 1 : 0));
  }

  /** Returns the number of pairs. */
  public long count() {
    return bothAddressed + onlyFirst + onlySecond + bothMissing;
  }

  /** Returns Cohen's kappa; 1 where both always say the same one thing. */
  public double kappa() {
    double n = count();
    double same = (bothAddressed + bothMissing) / n;
    double first = (bothAddressed + onlyFirst) / n;
    double second = (bothAddressed + onlySecond) / n;
    double chance = first * second + (1 - first) * (1 - second);
    return chance == 1 ? 1 : (same - chance) / (1 - chance);
  }

  /** Writes the table's head. */
  public static void head(PrintWriter out) {
    out.printf(
        Locale.ROOT,
        "%-28s %6s %9s %7s %18s %15s%n",
        "",
        "n",
        "agreement",
        "kappa",
        "missing: precision",
        "missing: recall");
  }

  /** Writes a line of the table; a ratio of nothing is a dash. */
  public void line(String name, PrintWriter out) {
    out.printf(
        Locale.ROOT,
        "%-28s %6d %9s %7s %18s %15s%n",
        name,
        count(),
        count() == 0
            ? "-"
            : String.format(
                Locale.ROOT, "%.1f %%", 100.0 * (bothAddressed + bothMissing) / count()),
        count() == 0 ? "-" : String.format(Locale.ROOT, "%.3f", kappa()),
        ratio(bothMissing, bothMissing + onlyFirst),
        ratio(bothMissing, bothMissing + onlySecond));
  }

  private static String ratio(long part, long whole) {
    return whole == 0
        ? "-"
        : String.format(Locale.ROOT, "%.3f (%d/%d)", (double) part / whole, part, whole);
  }
}
