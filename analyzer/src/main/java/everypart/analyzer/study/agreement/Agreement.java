package everypart.analyzer.study.agreement;

import everypart.analyzer.study.statistics.DetectionRate;
import everypart.analyzer.study.statistics.Estimate;
import everypart.analyzer.study.statistics.Level;
import everypart.lexicon.DemandKind;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import java.util.function.Function;
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

  private static final List<String> CATEGORIES = List.of("missing", "addressed");

  private final List<CodedDemand> demands;
  private final Level level;
  private final int resamples;
  private final long seed;

  /**
   * Looks at coded demands.
   *
   * @param resamples of the bootstrap behind alpha's interval
   * @param seed of that bootstrap
   */
  public Agreement(Collection<CodedDemand> demands, Level level, int resamples, long seed) {
    this.demands = List.copyOf(demands);
    this.level = level;
    this.resamples = resamples;
    this.seed = seed;
  }

  /**
   * The agreement of two.
   *
   * @param first one side: a coder or the program
   * @param second the other: a coder, or the majority
   * @param table their codes
   * @param kappa Cohen's kappa
   * @param alpha Krippendorff's alpha
   * @param ac1 Gwet's AC1
   * @param missing how well the first found what the second calls missing
   */
  public record Pair(
      String first,
      String second,
      ConfusionTable table,
      Optional<ConfusionTable.Kappa> kappa,
      Optional<Estimate> alpha,
      Optional<Ratings.GwetAc1> ac1,
      MissingScore missing) {}

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
    if (coders.size() > 1) {
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

  private People people(List<CodedDemand> coded, int coders) {
    Ratings ratings = new Ratings(CATEGORIES.size());
    for (CodedDemand demand : coded) {
      int yes = (int) demand.codes().values().stream().filter(code -> code).count();
      ratings.add(demand.codes().size() - yes, yes);
    }
    return new People(
        coders, ratings.pairable(), ratings.alpha(level, resamples, seed), ratings.ac1(level));
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
    for (CodedDemand demand : coded) {
      Optional<Boolean> one = first.apply(demand);
      Optional<Boolean> other = second.apply(demand);
      if (one.isPresent() && other.isPresent()) {
        counts[one.get() ? 1 : 0][other.get() ? 1 : 0]++;
        int yes = (one.get() ? 1 : 0) + (other.get() ? 1 : 0);
        ratings.add(2 - yes, yes);
      }
    }
    ConfusionTable table = ConfusionTable.of(CATEGORIES, counts);
    return new Pair(
        firstName,
        secondName,
        table,
        table.kappa(level),
        ratings.alpha(level, resamples, seed),
        ratings.ac1(level),
        new MissingScore(counts[0][0], counts[0][1], counts[1][0], counts[1][1]));
  }

  private static List<String> coders(List<CodedDemand> demands) {
    TreeSet<String> names = new TreeSet<>();
    demands.forEach(demand -> names.addAll(demand.codes().keySet()));
    return List.copyOf(names);
  }
}
