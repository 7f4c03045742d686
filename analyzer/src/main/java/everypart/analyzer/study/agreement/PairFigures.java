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
 * those of the two classes too; else they are of score type: Wilson's interval for the share that
 * differs, at the effective size that the coefficient's linearised variance gives, over the share
 * that would differ by chance. A few items that differ tell much about how low a coefficient may be
 * and little about how high, which an interval to both sides alike forgets.
 */
final class PairFigures {
  private static final int FIRST_MISSING = 4;
  private static final int SECOND_MISSING = 5;
  private static final int SECOND_ADDRESSED = 6;
  private static final int ALL = 7;
  private static final int ALIKE = 8;
  private static final int EITHER_MISSING = 9;

  /**
   * What one of a pair calls missing should come from so many clusters' worth, or there is a
   * warning; chosen on made-up studies, no source.
   */
  private static final double FEWEST_ON_A_SIDE = 5;

  /** Counts all items in the sums of {@link #ratings}. */
  static final int ALL_RATED = 4;

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

  /**
   * A coefficient: 1 less the share that differs over the share that would differ by chance.
   *
   * @param value the coefficient as a function of sums
   * @param chance that share by chance as a function of sums
   */
  record Coefficient(SampledFigures.Figure value, SampledFigures.Figure chance) {
    /** Returns the coefficient with its interval; nothing where it cannot be had. */
    Optional<Found> of(SampledFigures figures, int all, Level level) {
      return figures
          .result(value)
          .map(
              found ->
                  new Found(
                      found.corrected(chance.of(figures.sums()), figures.worth(all), level),
                      Math.sqrt(found.variance())));
    }
  }

  /** A coefficient with its interval and standard error. */
  record Found(Estimate estimate, double standardError) {
    Ratings.GwetAc1 ac1() {
      return new Ratings.GwetAc1(estimate, standardError);
    }
  }

  static final Coefficient ALPHA_OF_RATINGS =
      new Coefficient(PairFigures::alphaOfRatings, PairFigures::alphasChanceOfRatings);
  static final Coefficient AC1_OF_RATINGS =
      new Coefficient(PairFigures::ac1OfRatings, PairFigures::ac1sChanceOfRatings);
  private static final Coefficient ALPHA =
      new Coefficient(
          sums -> alphaOfRatings(ratingsOfPair(sums)),
          sums -> alphasChanceOfRatings(ratingsOfPair(sums)));
  private static final Coefficient AC1 =
      new Coefficient(
          sums -> ac1OfRatings(ratingsOfPair(sums)),
          sums -> ac1sChanceOfRatings(ratingsOfPair(sums)));
  private static final Coefficient KAPPA =
      new Coefficient(PairFigures::kappa, sums -> 1 - kappasChance(sums));

  private static double alphaOfRatings(double[] sums) {
    double total = sums[1] + sums[2];
    double chance = alphasChanceOfRatings(sums);
    return chance <= 0 ? Double.NaN : 1 - sums[3] / total / chance;
  }

  private static double alphasChanceOfRatings(double[] sums) {
    double total = sums[1] + sums[2];
    return (total * total - sums[1] * sums[1] - sums[2] * sums[2]) / (total * (total - 1));
  }

  private static double ac1OfRatings(double[] sums) {
    double differ = 1 - sums[6] / sums[0];
    return 1 - differ / ac1sChanceOfRatings(sums);
  }

  private static double ac1sChanceOfRatings(double[] sums) {
    double share = sums[5] / sums[4];
    return 1 - 2 * share * (1 - share);
  }

  /** Returns the sums of {@link #ratings} for pairs of codes. */
  private static double[] ratingsOfPair(double[] sums) {
    double differing = sums[1] + sums[2];
    double share = (2 * sums[3] + differing) / (2 * sums[ALL]);
    return new double[] {
      sums[ALL],
      2 * sums[0] + differing,
      2 * sums[3] + differing,
      2 * differing,
      sums[ALL],
      share * sums[ALL],
      sums[ALIKE]
    };
  }

  private static double kappa(double[] sums) {
    double chance = kappasChance(sums);
    return 1 - chance < 1e-12 ? Double.NaN : (sums[ALIKE] / sums[ALL] - chance) / (1 - chance);
  }

  private static double kappasChance(double[] sums) {
    double all = sums[ALL];
    double first = (sums[0] + sums[1]) / all;
    double second = (sums[0] + sums[2]) / all;
    return first * second + (1 - first) * (1 - second);
  }

  private static double f1(double[] sums) {
    return 2 * sums[0] / (2 * sums[0] + sums[1] + sums[2]);
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
    double side = Math.min(figures.worth(FIRST_MISSING), figures.worth(SECOND_MISSING));
    if (side < FEWEST_ON_A_SIDE && method.warning().isEmpty()) {
      method =
          new Method(
              method.name(),
              method.clusters(),
              method.degreesOfFreedom(),
              warning(side, FEWEST_ON_A_SIDE));
    }
    return new Agreement.Pair(
        first,
        second,
        table,
        share(figures, ALIKE, ALL, alone, level),
        alone
            ? table.kappa(level)
            : KAPPA
                .of(figures, ALL, level)
                .map(found -> new ConfusionTable.Kappa(found.estimate(), found.standardError())),
        alone ? alphaAlone.get() : ALPHA.of(figures, ALL, level).map(Found::estimate),
        alone ? ratings.ac1(level) : AC1.of(figures, ALL, level).map(Found::ac1),
        new Agreement.Missing(
            share(figures, 0, FIRST_MISSING, alone, level),
            share(figures, 0, SECOND_MISSING, alone, level),
            share(figures, 3, SECOND_ADDRESSED, alone, level),
            figures.share(PairFigures::f1, EITHER_MISSING, level)),
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
    Optional<String> warning = worth < enough ? warning(worth, enough) : Optional.empty();
    return new Method(name, figures.clusters(), degreesOfFreedom, warning);
  }

  private static Optional<String> warning(double worth, double enough) {
    return Optional.of(
        String.format(
            Locale.ROOT,
            "What tells these figures comes from too few responses or clusters (worth %.1f, %.0f"
                + " are needed): intervals may not keep their level.",
            worth,
            enough));
  }
}
