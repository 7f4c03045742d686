package everypart.analyzer.study.agreement;

import everypart.analyzer.study.statistics.Estimate;
import everypart.analyzer.study.statistics.Level;
import everypart.analyzer.study.statistics.Method;
import everypart.analyzer.study.statistics.Proportion;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Supplier;

/**
 * The coefficients of agreement as functions of sums, for items with weights, strata and clusters.
 *
 * <p>The coefficients are those of {@link ConfusionTable} and {@link Ratings}, where their sources
 * stand; with equal weights their values are the same. Where each item stands alone, intervals are
 * those of the two classes too.
 */
final class PairFigures {
  private static final int FIRST_MISSING = 4;
  private static final int SECOND_MISSING = 5;
  private static final int SECOND_ADDRESSED = 6;
  private static final int ALL = 7;
  private static final int ALIKE = 8;
  private static final int EITHER_MISSING = 9;

  private PairFigures() {}

  /** Returns what a pair of codes adds: the four cells of the table, then its margins. */
  static double[] pair(boolean first, boolean second) {
    double[] values = new double[10];
    values[(first ? 2 : 0) + (second ? 1 : 0)] = 1;
    values[FIRST_MISSING] = first ? 0 : 1;
    values[SECOND_MISSING] = second ? 0 : 1;
    values[SECOND_ADDRESSED] = second ? 1 : 0;
    values[ALL] = 1;
    values[ALIKE] = first == second ? 1 : 0;
    values[EITHER_MISSING] = first && second ? 0 : 1;
    return values;
  }

  /** Returns what any number of codes of an item adds. */
  static double[] ratings(int no, int yes) {
    double coders = no + yes;
    boolean paired = coders >= 2;
    double alike = (double) no * no + (double) yes * yes;
    return new double[] {
      paired ? 1 : 0,
      paired ? no : 0,
      paired ? yes : 0,
      paired ? (coders * coders - alike) / (coders - 1) : 0,
      1,
      yes / coders,
      paired ? (alike - coders) / (coders * (coders - 1)) : 0
    };
  }

  static double alphaOfRatings(double[] sums) {
    double total = sums[1] + sums[2];
    double expected = total * total - sums[1] * sums[1] - sums[2] * sums[2];
    return expected <= 0 ? Double.NaN : 1 - (total - 1) * sums[3] / expected;
  }

  static double ac1OfRatings(double[] sums) {
    double share = sums[5] / sums[4];
    double chance = 2 * share * (1 - share);
    return (sums[6] / sums[0] - chance) / (1 - chance);
  }

  private static double alpha(double[] sums) {
    double differing = sums[1] + sums[2];
    return alphaOfRatings(
        new double[] {sums[ALL], 2 * sums[0] + differing, 2 * sums[3] + differing, 2 * differing});
  }

  private static double ac1(double[] sums) {
    double share = (2 * sums[3] + sums[1] + sums[2]) / (2 * sums[ALL]);
    return ac1OfRatings(
        new double[] {sums[ALL], 0, 0, 0, sums[ALL], share * sums[ALL], sums[ALIKE]});
  }

  private static double kappa(double[] sums) {
    double all = sums[ALL];
    double first = (sums[0] + sums[1]) / all;
    double second = (sums[0] + sums[2]) / all;
    double chance = first * second + (1 - first) * (1 - second);
    return 1 - chance < 1e-12 ? Double.NaN : (sums[ALIKE] / all - chance) / (1 - chance);
  }

  private static double f1(double[] sums) {
    return 2 * sums[0] / (2 * sums[0] + sums[1] + sums[2]);
  }

  static Optional<Estimate> coefficient(
      SampledFigures figures, SampledFigures.Figure figure, Level level) {
    return figures.result(figure).map(found -> found.interval(level, -1, 1));
  }

  static Optional<Ratings.GwetAc1> ac1(
      SampledFigures figures, SampledFigures.Figure figure, Level level) {
    return figures
        .result(figure)
        .map(
            found ->
                new Ratings.GwetAc1(found.interval(level, -1, 1), Math.sqrt(found.variance())));
  }

  /**
   * Returns the figures of a pair.
   *
   * @param alphaAlone alpha where each item stands alone
   */
  static Agreement.Pair of(
      String first,
      String second,
      ConfusionTable table,
      Ratings ratings,
      List<SampledFigures.Item> items,
      Level level,
      Supplier<Optional<Estimate>> alphaAlone) {
    if (items.isEmpty()) {
      return new Agreement.Pair(
          first,
          second,
          table,
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          new Agreement.Missing(
              Optional.empty(), Optional.empty(), Optional.empty(), Optional.empty()),
          new Method(Method.Name.NONE, 0, Optional.empty(), Optional.empty()));
    }
    SampledFigures figures = new SampledFigures(items);
    boolean alone = figures.plain();
    Optional<SampledFigures.Result> alike = figures.result(sums -> sums[ALIKE] / sums[ALL]);
    Method method =
        method(
            figures,
            alone ? Optional.empty() : alike.map(SampledFigures.Result::degreesOfFreedom),
            Math.min(figures.worth(EITHER_MISSING), figures.worth(3)),
            Method.FEWEST_FOR_RATE);
    return new Agreement.Pair(
        first,
        second,
        table,
        share(figures, ALIKE, ALL, alone, level),
        alone
            ? table.kappa(level)
            : figures
                .result(PairFigures::kappa)
                .map(
                    found ->
                        new ConfusionTable.Kappa(
                            found.interval(level, -1, 1), Math.sqrt(found.variance()))),
        alone ? alphaAlone.get() : coefficient(figures, PairFigures::alpha, level),
        alone ? ratings.ac1(level) : ac1(figures, PairFigures::ac1, level),
        new Agreement.Missing(
            share(figures, 0, FIRST_MISSING, alone, level),
            share(figures, 0, SECOND_MISSING, alone, level),
            share(figures, 3, SECOND_ADDRESSED, alone, level),
            figures.result(PairFigures::f1).map(found -> found.interval(level, 0, 1))),
        method);
  }

  /** Returns a share; where items stand alone, with Wilson's interval on the counts. */
  private static Optional<Estimate> share(
      SampledFigures figures, int part, int whole, boolean alone, Level level) {
    if (!alone) {
      return figures.share(part, whole, level);
    }
    return Proportion.of(Math.round(figures.sum(part)), Math.round(figures.sum(whole)))
        .map(found -> new Estimate(found.rate(), found.wilson(level)));
  }

  /** Returns how intervals are computed, and a warning where they cannot be relied on. */
  static Method method(
      SampledFigures figures, Optional<Double> degreesOfFreedom, double worth, double enough) {
    Method.Name name =
        figures.plain()
            ? Method.Name.ALONE
            : degreesOfFreedom.isPresent() ? Method.Name.CLUSTERED : Method.Name.NONE;
    Optional<String> warning =
        worth < enough
            ? Optional.of(
                String.format(
                    Locale.ROOT,
                    "What tells these figures comes from too few responses or clusters (worth %.1f,"
                        + " %.0f are needed): intervals may not keep their level.",
                    worth,
                    enough))
            : Optional.empty();
    return new Method(name, figures.clusters(), degreesOfFreedom, warning);
  }
}
