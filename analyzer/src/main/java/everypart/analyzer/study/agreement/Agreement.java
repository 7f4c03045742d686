package everypart.analyzer.study.agreement;

import everypart.analyzer.study.statistics.DetectionRate;
import everypart.analyzer.study.statistics.Estimate;
import everypart.analyzer.study.statistics.Interval;
import everypart.analyzer.study.statistics.Level;
import everypart.analyzer.study.statistics.Method;
import everypart.lexicon.DemandKind;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * How far the program and people agree over a set of coded demands.
 *
 * <p>Codes are 1 (addressed) and 0 (missing). The program counts as having said 1 when its verdict
 * is addressed or partly; a demand that it left unchecked has no program code. Where several people
 * coded a demand, the truth is what most of them say, and a tie is left out.
 */
public final class Agreement {
  /** The name under which the program stands beside the coders. */
  public static final String PROGRAM = "program";

  /** The truth by majority. */
  public static final String MAJORITY = "majority";

  /**
   * With fewer coded demands than this on either side, missing or addressed, the correction of
   * prevalence is not to be relied on (common practice, no source).
   */
  public static final int ENOUGH_CODED = 30;

  /** Weights are written with six digits after the point. */
  private static final double SAME_WEIGHT = 1e-5;

  private static final List<String> CATEGORIES = List.of("missing", "addressed");

  private final List<CodedDemand> demands;
  private final Level level;
  private final int resamples;
  private final long seed;
  private final boolean drawn;
  private final Map<Stratum, Long> sizes;

  /** Whether demands stand for their strata by number, as drawn from them at random. */
  private final boolean sized;

  /**
   * Looks at coded demands of a set of unknown size, coded as they came.
   *
   * @param resamples of the bootstrap behind alpha's interval
   * @param seed of that bootstrap
   */
  public Agreement(Collection<CodedDemand> demands, Level level, int resamples, long seed) {
    this(demands, level, resamples, seed, false, Map.of());
  }

  /**
   * Looks at coded demands.
   *
   * @param resamples of the bootstrap behind alpha's interval
   * @param seed of that bootstrap
   * @param drawn whether they were drawn from strata, by {@link CodingSample}
   * @param sizes how many demands of the whole set are in each stratum; empty when not known
   */
  public Agreement(
      Collection<CodedDemand> demands,
      Level level,
      int resamples,
      long seed,
      boolean drawn,
      Map<Stratum, Long> sizes) {
    this.demands = List.copyOf(demands);
    this.level = level;
    this.resamples = resamples;
    this.seed = seed;
    this.drawn = drawn;
    this.sizes = Map.copyOf(sizes);
    this.sized = drawn && sized(this.demands, this.sizes);
  }

  /** Returns whether each demand weighs its stratum's size over the number coded in it. */
  private static boolean sized(List<CodedDemand> demands, Map<Stratum, Long> sizes) {
    Map<Stratum, Long> coded =
        demands.stream()
            .flatMap(demand -> demand.stratum().stream())
            .collect(Collectors.groupingBy(stratum -> stratum, Collectors.counting()));
    return demands.stream()
        .allMatch(
            demand ->
                demand.stratum().isEmpty()
                    || demand
                        .stratum()
                        .filter(sizes::containsKey)
                        .filter(
                            stratum ->
                                Math.abs(
                                        demand.weight()
                                                * coded.getOrDefault(stratum, 0L)
                                                / sizes.getOrDefault(stratum, 1L)
                                            - 1)
                                    < SAME_WEIGHT)
                        .isPresent());
  }

  /** Returns whether the demands were drawn from strata, so that figures are for the whole set. */
  public boolean drawn() {
    return drawn;
  }

  /**
   * The agreement of two.
   *
   * @param first one side: a coder or the program
   * @param second the other: a coder, or the majority
   * @param table their codes, as they are
   * @param agreement the share coded alike, with sampling weights, as all that follows
   * @param kappa Cohen's kappa
   * @param alpha Krippendorff's alpha
   * @param ac1 Gwet's AC1
   * @param missing how well the first found what the second calls missing
   * @param method how intervals are computed
   */
  public record Pair(
      String first,
      String second,
      ConfusionTable table,
      Optional<Estimate> agreement,
      Optional<ConfusionTable.Kappa> kappa,
      Optional<Estimate> alpha,
      Optional<Ratings.GwetAc1> ac1,
      Missing missing,
      Method method) {}

  /**
   * How well missing was found, with sampling weights.
   *
   * @param precision of those called missing, the share that is
   * @param recall of those missing, the share called so
   * @param specificity of those addressed, the share left alone
   * @param f1 the harmonic mean of precision and recall
   */
  public record Missing(
      Optional<Estimate> precision,
      Optional<Estimate> recall,
      Optional<Estimate> specificity,
      Optional<Estimate> f1) {}

  /**
   * The agreement of all people at once.
   *
   * @param coders how many people
   * @param demands how many demands at least two of them coded
   * @param alpha Krippendorff's alpha
   * @param ac1 Gwet's AC1
   */
  public record People(
      int coders, int demands, Optional<Estimate> alpha, Optional<Ratings.GwetAc1> ac1) {}

  /**
   * The figures over demands of one kind, or all.
   *
   * @param kind the kind; empty for all
   * @param coded how many demands have a code
   * @param tied how many of them have no majority
   * @param unchecked how many of them the program left unchecked
   * @param people the people among themselves; nothing with fewer than two
   * @param pairs program against majority, program against each coder, then each two coders
   */
  public record Section(
      Optional<DemandKind> kind,
      int coded,
      int tied,
      int unchecked,
      Optional<People> people,
      List<Pair> pairs) {
    /** Copies the pairs. */
    public Section {
      pairs = List.copyOf(pairs);
    }
  }

  /** Returns the figures over all demands, then over each kind that was coded. */
  public List<Section> sections() {
    List<Section> sections = new ArrayList<>();
    sections.add(section(Optional.empty(), coded().toList()));
    for (DemandKind kind : DemandKind.values()) {
      List<CodedDemand> own = coded().filter(demand -> demand.kind() == kind).toList();
      if (!own.isEmpty()) {
        sections.add(section(Optional.of(kind), own));
      }
    }
    return sections;
  }

  /** Returns the coders' names in order. */
  public List<String> coders() {
    return coders(demands);
  }

  /** Returns the demands on which the program and the majority differ, in the order given. */
  public List<CodedDemand> disagreements() {
    return coded()
        .filter(
            demand ->
                demand.program().isPresent()
                    && demand.majority().isPresent()
                    && !demand.program().equals(demand.majority()))
        .toList();
  }

  /** Returns whether verdicts are right as often as their confidence says. */
  public ReliabilityCurve reliability() {
    ReliabilityCurve curve = new ReliabilityCurve();
    for (CodedDemand demand : demands) {
      if (demand.program().isPresent() && demand.majority().isPresent()) {
        curve.add(demand.confidence(), demand.program().equals(demand.majority()));
      }
    }
    return curve;
  }

  /**
   * Returns how many of the missing demands the program calls missing, with sampling weights;
   * nothing when none is missing.
   */
  public Optional<DetectionRate> sensitivity(Optional<DemandKind> kind) {
    return rate(kind, false);
  }

  /**
   * Returns how many of the addressed demands the program does not call missing, with sampling
   * weights; nothing when none is addressed.
   */
  public Optional<DetectionRate> specificity(Optional<DemandKind> kind) {
    return rate(kind, true);
  }

  private Optional<DetectionRate> rate(Optional<DemandKind> kind, boolean truth) {
    double hits = 0;
    double total = 0;
    double squares = 0;
    for (CodedDemand demand : demands) {
      boolean counts = kind.isEmpty() || kind.get() == demand.kind();
      if (counts && demand.program().isPresent() && demand.majority().equals(Optional.of(truth))) {
        total += demand.weight();
        squares += demand.weight() * demand.weight();
        hits += demand.program().get() == truth ? demand.weight() : 0;
      }
    }
    return DetectionRate.weighted(hits, total, squares);
  }

  private Stream<CodedDemand> coded() {
    return demands.stream().filter(demand -> !demand.codes().isEmpty());
  }

  private Section section(Optional<DemandKind> kind, List<CodedDemand> coded) {
    List<String> coders = coders(coded);
    List<Pair> pairs = new ArrayList<>();
    if (coders.size() > 1 || coded.stream().anyMatch(Agreement::settled)) {
      pairs.add(pair(coded, PROGRAM, CodedDemand::program, MAJORITY, CodedDemand::majority));
    }
    for (String coder : coders) {
      pairs.add(pair(coded, PROGRAM, CodedDemand::program, coder, by(coder)));
    }
    for (int first = 0; first < coders.size(); first++) {
      for (int second = first + 1; second < coders.size(); second++) {
        pairs.add(
            pair(
                coded,
                coders.get(first),
                by(coders.get(first)),
                coders.get(second),
                by(coders.get(second))));
      }
    }
    return new Section(
        kind,
        coded.size(),
        (int) coded.stream().filter(demand -> demand.majority().isEmpty()).count(),
        (int) coded.stream().filter(demand -> demand.program().isEmpty()).count(),
        coders.size() > 1 ? Optional.of(people(coded, coders.size())) : Optional.empty(),
        pairs);
  }

  private static boolean settled(CodedDemand demand) {
    return demand.codes().containsKey(CodedDemand.SETTLED);
  }

  private People people(List<CodedDemand> coded, int coders) {
    Ratings ratings = new Ratings(CATEGORIES.size());
    List<SampledFigures.Item> items = new ArrayList<>();
    for (CodedDemand demand : coded) {
      Map<String, Boolean> codes = new TreeMap<>(demand.codes());
      codes.remove(CodedDemand.SETTLED);
      int yes = (int) codes.values().stream().filter(code -> code).count();
      int no = codes.size() - yes;
      ratings.add(no, yes);
      if (!codes.isEmpty()) {
        items.add(item(demand, PairFigures.ratings(no, yes)));
      }
    }
    Optional<SampledFigures> figures =
        items.isEmpty() ? Optional.empty() : Optional.of(new SampledFigures(items));
    if (figures.isEmpty() || figures.get().plain()) {
      return new People(
          coders, ratings.pairable(), ratings.alpha(level, resamples, seed), ratings.ac1(level));
    }
    return new People(
        coders,
        ratings.pairable(),
        PairFigures.ALPHA_OF_RATINGS
            .of(figures.get(), PairFigures.ALL_RATED, level)
            .map(PairFigures.Found::estimate),
        PairFigures.AC1_OF_RATINGS
            .of(figures.get(), PairFigures.ALL_RATED, level)
            .map(PairFigures.Found::ac1));
  }

  private SampledFigures.Item item(CodedDemand demand, double... values) {
    Optional<Stratum> stratum = drawn ? demand.stratum() : Optional.empty();
    return new SampledFigures.Item(
        demand.weight(),
        new SampledFigures.Place(
            stratum.map(Stratum::toString).orElse(""),
            stratum.map(one -> one.missing() + " " + one.unsure()).orElse(""),
            stratum.map(one -> String.valueOf(one.missing())).orElse(""),
            sized ? stratum.map(sizes::get) : Optional.empty()),
        demand.cluster(),
        values);
  }

  private static Function<CodedDemand, Optional<Boolean>> by(String coder) {
    return demand -> Optional.ofNullable(demand.codes().get(coder));
  }

  private Pair pair(
      List<CodedDemand> coded,
      String firstName,
      Function<CodedDemand, Optional<Boolean>> first,
      String secondName,
      Function<CodedDemand, Optional<Boolean>> second) {
    long[][] counts = new long[2][2];
    Ratings ratings = new Ratings(CATEGORIES.size());
    List<SampledFigures.Item> items = new ArrayList<>();
    for (CodedDemand demand : coded) {
      Optional<Boolean> one = first.apply(demand);
      Optional<Boolean> other = second.apply(demand);
      if (one.isPresent() && other.isPresent()) {
        counts[one.get() ? 1 : 0][other.get() ? 1 : 0]++;
        int yes = (one.get() ? 1 : 0) + (other.get() ? 1 : 0);
        ratings.add(2 - yes, yes);
        items.add(item(demand, PairFigures.pair(one.get(), other.get())));
      }
    }
    return PairFigures.of(
        firstName,
        secondName,
        ConfusionTable.of(CATEGORIES, counts),
        ratings,
        items,
        level,
        () -> ratings.alpha(level, resamples, seed));
  }

  /**
   * The program's errors in one group of responses.
   *
   * @param value the group
   * @param coded how many of its demands have a majority and a verdict
   * @param overlooked of those missing, the share not called so
   * @param falseAlarms of those addressed, the share called missing
   * @param tilt by how much the program's omission rate is above people's: below 0, too few are
   *     called missing
   */
  public record GroupErrors(
      String value,
      long coded,
      Optional<Estimate> overlooked,
      Optional<Estimate> falseAlarms,
      Optional<Estimate> tilt) {}

  /**
   * By how much the program tilts the difference of two groups.
   *
   * @param first one group
   * @param second the other
   * @param tilt what the program adds to the difference of their omission rates, first less second
   * @param method how the interval is computed
   * @param warning in words, where a difference of the groups may be the program's; empty where the
   *     codes show none
   */
  public record GroupTilt(
      String first,
      String second,
      Optional<Estimate> tilt,
      Method method,
      Optional<String> warning) {}

  /** A tilt that cannot be told to be smaller than this is warned of; no source. */
  static final double SMALL_TILT = 0.05;

  private static final int MOST_GROUPS = 6;

  private List<CodedDemand> judgedByBoth(String column) {
    return demands.stream()
        .filter(demand -> demand.program().isPresent() && demand.majority().isPresent())
        .filter(demand -> !demand.groups().getOrDefault(column, "").isEmpty())
        .toList();
  }

  private static List<String> values(List<CodedDemand> both, String column) {
    return List.copyOf(
        new TreeSet<>(
            both.stream().map(demand -> demand.groups().getOrDefault(column, "")).toList()));
  }

  /** Returns the program's errors in each group that a column of the responses names. */
  public List<GroupErrors> errorsBy(String column) {
    List<CodedDemand> both = judgedByBoth(column);
    List<GroupErrors> errors = new ArrayList<>();
    for (String value : values(both, column)) {
      List<SampledFigures.Item> items = new ArrayList<>();
      for (CodedDemand demand : both) {
        if (value.equals(demand.groups().get(column))) {
          items.add(item(demand, errors(demand)));
        }
      }
      SampledFigures figures = new SampledFigures(items);
      errors.add(
          new GroupErrors(
              value,
              items.size(),
              figures.share(0, 1, level),
              figures.share(2, 3, level),
              figures
                  .result(sums -> (sums[2] - sums[0]) / sums[4])
                  .map(found -> found.interval(level, -1, 1))));
    }
    return errors;
  }

  /** Overlooked, missing, false alarm, addressed, all. */
  private static double[] errors(CodedDemand demand) {
    boolean program = demand.program().orElseThrow();
    boolean truth = demand.majority().orElseThrow();
    return new double[] {
      program && !truth ? 1 : 0, truth ? 0 : 1, !program && truth ? 1 : 0, truth ? 1 : 0, 1
    };
  }

  /** Returns, for each two groups (up to six), what the program adds to their difference. */
  public List<GroupTilt> tiltsBy(String column) {
    List<CodedDemand> both = judgedByBoth(column);
    List<String> values = values(both, column);
    List<GroupTilt> tilts = new ArrayList<>();
    for (int first = 0; first < Math.min(MOST_GROUPS, values.size()); first++) {
      for (int second = first + 1; second < Math.min(MOST_GROUPS, values.size()); second++) {
        tilts.add(tilt(both, column, values.get(first), values.get(second)));
      }
    }
    return tilts;
  }

  private GroupTilt tilt(List<CodedDemand> both, String column, String first, String second) {
    List<SampledFigures.Item> items = new ArrayList<>();
    for (CodedDemand demand : both) {
      String value = demand.groups().getOrDefault(column, "");
      double[] errors = errors(demand);
      double tilt = errors[2] - errors[0];
      double wrong = errors[2] + errors[0];
      if (value.equals(first)) {
        items.add(item(demand, tilt, 1, 0, 0, wrong));
      } else if (value.equals(second)) {
        items.add(item(demand, 0, 0, tilt, 1, wrong));
      }
    }
    SampledFigures figures = new SampledFigures(items);
    Optional<SampledFigures.Result> result =
        figures.result(sums -> sums[0] / sums[1] - sums[2] / sums[3]);
    Optional<Estimate> estimate = result.map(found -> found.interval(level, -1, 1));
    Method method =
        PairFigures.method(
            figures,
            result.map(SampledFigures.Result::degreesOfFreedom),
            figures.worth(4),
            Method.FEWEST_FOR_DIFFERENCE);
    return new GroupTilt(first, second, estimate, method, warning(first, second, estimate));
  }

  private static Optional<String> warning(
      String first, String second, Optional<Estimate> estimate) {
    if (estimate.isEmpty()) {
      return Optional.of(
          "The codes cannot tell whether the program reads "
              + first
              + " and "
              + second
              + " alike; a difference between them may be the program's.");
    }
    Interval interval = estimate.get().interval();
    if (!interval.contains(0)) {
      return Optional.of(
          String.format(
              Locale.ROOT,
              "The program reads %s and %s differently: it adds %.1f points (%.1f to %.1f) to the"
                  + " difference of their omission rates. Use people's codes or the corrected"
                  + " rates.",
              first,
              second,
              100 * estimate.get().value(),
              100 * interval.low(),
              100 * interval.high()));
    }
    if (interval.low() < -SMALL_TILT || interval.high() > SMALL_TILT) {
      return Optional.of(
          String.format(
              Locale.ROOT,
              "Too little is coded to tell whether the program reads %s and %s alike: it may add"
                  + " from %.1f to %.1f points to the difference of their omission rates.",
              first,
              second,
              100 * interval.low(),
              100 * interval.high()));
    }
    return Optional.empty();
  }

  /**
   * Returns the share of demands that people would call missing, over the whole set; nothing when
   * the set's strata are not known, or too little of them is coded.
   *
   * @param designEffect of the set's clusters
   */
  public Optional<Estimate> corrected(Optional<DemandKind> kind, double designEffect) {
    Map<Stratum, Long> own = new TreeMap<>();
    sizes.forEach(
        (stratum, size) -> {
          if (kind.isEmpty() || kind.get() == stratum.kind()) {
            own.put(stratum, size);
          }
        });
    StratifiedRate rate = new StratifiedRate(own);
    for (CodedDemand demand : demands) {
      Optional<Boolean> truth = demand.majority();
      if (truth.isPresent() && demand.stratum().isPresent()) {
        rate.add(demand.stratum().get(), !truth.get(), demand.cluster());
      }
    }
    return rate.estimate(designEffect, sized, level);
  }

  /** Returns the demands on which coders differ and nobody has settled, in the order given. */
  public List<CodedDemand> unsettled() {
    return demands.stream().filter(CodedDemand::unsettled).toList();
  }

  private static List<String> coders(List<CodedDemand> demands) {
    TreeSet<String> names = new TreeSet<>();
    demands.forEach(demand -> names.addAll(demand.codes().keySet()));
    names.remove(CodedDemand.SETTLED);
    return List.copyOf(names);
  }
}
