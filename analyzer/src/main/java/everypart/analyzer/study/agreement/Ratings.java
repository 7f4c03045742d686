package everypart.analyzer.study.agreement;

import everypart.analyzer.study.statistics.Estimate;
import everypart.analyzer.study.statistics.Interval;
import everypart.analyzer.study.statistics.Level;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.stream.IntStream;

/**
 * Items coded by any number of coders on a nominal scale, with codes missing here and there.
 *
 * <p>Only how many coders gave each item each code matters to the coefficients here.
 */
public final class Ratings {
  private final int categories;
  private final List<int[]> items = new ArrayList<>();

  /** Makes an empty set over so many codes. */
  public Ratings(int categories) {
    this.categories = categories;
  }

  /**
   * Adds an item.
   *
   * @param counts how many coders gave it each code
   * @throws IllegalArgumentException when there is not one count a code
   */
  public void add(int... counts) {
    if (counts.length != categories || Arrays.stream(counts).anyMatch(count -> count < 0)) {
      throw new IllegalArgumentException(
          "an item needs " + categories + " counts, not " + Arrays.toString(counts));
    }
    items.add(counts.clone());
  }

  /** Returns how many items at least two coders coded. */
  public int pairable() {
    return (int) items.stream().filter(item -> sum(item) >= 2).count();
  }

  /**
   * Returns Krippendorff's alpha for nominal data; nothing when no item has two codes or when all
   * codes are the same.
   *
   * <p>Krippendorff K (2011) Computing Krippendorff's alpha-reliability. Items with fewer than two
   * codes do not count.
   */
  public Optional<Double> alpha() {
    int[] each = new int[items.size()];
    Arrays.fill(each, 1);
    return alpha(each);
  }

  /**
   * Returns alpha with a percentile bootstrap interval over items: Efron B (1979) Bootstrap
   * methods: another look at the jackknife. Annals of Statistics 7:1-26. A resample in which alpha
   * is not defined, because all its codes are the same, counts as full agreement.
   *
   * @param resamples how many resamples
   * @param seed of the random numbers; the same seed gives the same interval
   */
  public Optional<Estimate> alpha(Level level, int resamples, long seed) {
    Optional<Double> alpha = alpha();
    if (alpha.isEmpty()) {
      return Optional.empty();
    }
    var random = new SplittableRandom(seed);
    double[] values = new double[resamples];
    int[] drawn = new int[items.size()];
    for (int sample = 0; sample < resamples; sample++) {
      Arrays.fill(drawn, 0);
      for (int draw = 0; draw < drawn.length; draw++) {
        drawn[random.nextInt(drawn.length)]++;
      }
      values[sample] = alpha(drawn).orElse(1.0);
    }
    Arrays.sort(values);
    double tail = (1 - level.value()) / 2;
    double low = values[(int) Math.floor(tail * (resamples - 1))];
    double high = values[(int) Math.ceil((1 - tail) * (resamples - 1))];
    return Optional.of(new Estimate(alpha.get(), new Interval(low, high)));
  }

  private Optional<Double> alpha(int[] times) {
    double[] values = new double[categories];
    double total = 0;
    double disagreement = 0;
    for (int at = 0; at < items.size(); at++) {
      int[] item = items.get(at);
      int coders = sum(item);
      if (coders < 2 || times[at] == 0) {
        continue;
      }
      total += (double) times[at] * coders;
      double alike = 0;
      for (int category = 0; category < categories; category++) {
        values[category] += (double) times[at] * item[category];
        alike += (double) item[category] * item[category];
      }
      disagreement += times[at] * ((double) coders * coders - alike) / (coders - 1);
    }
    double expected = total * total - Arrays.stream(values).map(value -> value * value).sum();
    return expected > 0 ? Optional.of(1 - (total - 1) * disagreement / expected) : Optional.empty();
  }

  /**
   * Returns Gwet's AC1 with its interval; nothing when no item has two codes.
   *
   * <p>AC1 does not fall when one code is rare, as kappa does (Feinstein AR, Cicchetti DV (1990)
   * High agreement but low kappa. J Clinical Epidemiology 43:543-549). Gwet KL (2008) Computing
   * inter-rater reliability and its variance in the presence of high agreement. British J
   * Mathematical and Statistical Psychology 61:29-48; with missing codes, Gwet KL (2014) Handbook
   * of Inter-Rater Reliability, 4th ed., chapters 2 and 5. The interval uses Student's t on the
   * number of items less one.
   */
  public Optional<GwetAc1> ac1(Level level) {
    List<int[]> coded = items.stream().filter(item -> sum(item) > 0).toList();
    int paired = pairable();
    if (paired == 0 || coded.size() < 2 || categories < 2) {
      return Optional.empty();
    }
    int size = coded.size();
    double[] prevalence = new double[categories];
    for (int[] item : coded) {
      for (int category = 0; category < categories; category++) {
        prevalence[category] += (double) item[category] / sum(item) / size;
      }
    }
    double chance =
        Arrays.stream(prevalence).map(share -> share * (1 - share)).sum() / (categories - 1);
    double observed = coded.stream().mapToDouble(Ratings::pairsAlike).sum() / paired;
    double value = (observed - chance) / (1 - chance);
    double squares = 0;
    for (int[] item : coded) {
      double ownChance =
          IntStream.range(0, categories)
                  .mapToDouble(at -> (double) item[at] / sum(item) * (1 - prevalence[at]))
                  .sum()
              / (categories - 1);
      double own =
          sum(item) < 2 ? 0 : (double) size / paired * (pairsAlike(item) - chance) / (1 - chance);
      double influence = own - 2 * (1 - value) * (ownChance - chance) / (1 - chance);
      squares += (influence - value) * (influence - value);
    }
    double error = Math.sqrt(squares / size / (size - 1.0));
    double half = level.studentQuantile(size - 1.0) * error;
    Interval interval = new Interval(Math.max(-1, value - half), Math.min(1, value + half));
    return Optional.of(new GwetAc1(new Estimate(value, interval), error));
  }

  private static double pairsAlike(int[] item) {
    double coders = sum(item);
    return coders < 2
        ? 0
        : Arrays.stream(item).mapToDouble(count -> (double) count * (count - 1)).sum()
            / (coders * (coders - 1));
  }

  private static int sum(int[] item) {
    return Arrays.stream(item).sum();
  }

  /**
   * Gwet's AC1.
   *
   * @param estimate the coefficient and its interval
   * @param standardError over items, for these coders
   */
  public record GwetAc1(Estimate estimate, double standardError) {}
}
