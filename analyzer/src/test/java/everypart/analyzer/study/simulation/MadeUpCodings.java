package everypart.analyzer.study.simulation;

import everypart.analyzer.coverage.Verdict;
import everypart.analyzer.study.agreement.Agreement;
import everypart.analyzer.study.agreement.CodedDemand;
import everypart.analyzer.study.agreement.CodingSample;
import everypart.analyzer.study.agreement.Stratum;
import everypart.analyzer.study.statistics.ClusteredRate;
import everypart.analyzer.study.statistics.Estimate;
import everypart.analyzer.study.statistics.Level;
import everypart.lexicon.DemandKind;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;

/**
 * Draws made-up sets of responses that a program judges with errors, has a part of them coded, and
 * counts for each figure of agreement how often its interval holds the truth. Of a sample drawn
 * from strata that is what coding the whole set would give; of whole responses, whose set is not
 * known, what coding without end would give; of the corrected rate, always the writers' rate. A
 * study in which the report warns is counted apart.
 */
final class MadeUpCodings {
  private static final Level LEVEL = Level.DEFAULT;
  private static final long SEED = 20_261_129;
  private static final int DEMANDS = 4;
  private static final double UNSURE = 0.25;

  /** How demands to code are chosen. */
  enum Scheme {
    /** As {@code --sample} draws them: from strata, unsure ones three times over. */
    STRATA,
    /** All demands of some responses. */
    RESPONSES
  }

  /**
   * A set and what is coded of it.
   *
   * @param responses with four demands each
   * @param rate the share missing
   * @param likeness the correlation of a response's demands
   * @param coded how many demands are coded
   * @param errors how often the program errs where it is sure; where it is not, six times as often
   * @param scheme how they are chosen
   */
  record Design(
      int responses, double rate, double likeness, int coded, double errors, Scheme scheme) {
    @Override
    public String toString() {
      return String.format(
          Locale.ROOT,
          "%d | %.2f | %.1f | %d | %.2f | %s",
          responses,
          rate,
          likeness,
          coded,
          errors,
          scheme == Scheme.STRATA ? "strata" : "whole responses");
    }
  }

  /** How a figure fared. */
  static final class Count {
    private int studies;
    private int warned;
    private int held;
    private double width;

    private void add(Optional<Estimate> found, double truth, boolean warns) {
      studies++;
      if (warns || found.isEmpty()) {
        warned++;
      } else {
        held += found.get().interval().contains(truth) ? 1 : 0;
        width += found.get().interval().high() - found.get().interval().low();
      }
    }

    double warned() {
      return (double) warned / studies;
    }

    double coverage() {
      return (double) held / (studies - warned);
    }

    double width() {
      return width / (studies - warned);
    }

    /** Returns whether the figure keeps its level, or is warned of in at least half the studies. */
    boolean sound() {
      double slack = 3 * Math.sqrt(0.95 * 0.05 / Math.max(1, studies - warned));
      return warned() >= 0.5 || (coverage() > 0.93 - slack && coverage() < 0.97 + slack);
    }
  }

  private final SplittableRandom random;
  private final Design design;

  private MadeUpCodings(Design design) {
    this.random = new SplittableRandom(SEED + design.toString().hashCode());
    this.design = design;
  }

  /** Prints the table: {@code MadeUpCodings [STUDIES]}. */
  public static void main(String[] words) {
    int studies = words.length > 0 ? Integer.parseInt(words[0]) : 400;
    System.out.println(
        "responses | rate | correlation | coded | errors | chosen | figure | holds | width |"
            + " warned");
    int unsound = 0;
    int cells = 0;
    for (Scheme scheme : Scheme.values()) {
      for (double rate : new double[] {0.05, 0.2, 0.5}) {
        for (double likeness : new double[] {0, 0.3}) {
          for (int coded : new int[] {100, 200, 400}) {
            for (double errors : new double[] {0.03, 0.08}) {
              Design one = new Design(800, rate, likeness, coded, errors, scheme);
              for (Map.Entry<String, Count> figure : run(one, studies).entrySet()) {
                Count count = figure.getValue();
                cells++;
                unsound += count.sound() ? 0 : 1;
                System.out.printf(
                    Locale.ROOT,
                    "%s | %s | %.3f | %.3f | %.2f%s%n",
                    one,
                    figure.getKey(),
                    count.coverage(),
                    count.width(),
                    count.warned(),
                    count.sound() ? "" : " !");
              }
            }
          }
        }
      }
    }
    System.out.println(
        unsound + " of " + cells + " cells neither keep their level nor are warned of");
  }

  /** Draws sets of a design. */
  static Map<String, Count> run(Design design, int studies) {
    MadeUpCodings made = new MadeUpCodings(design);
    Map<String, Count> counts = new LinkedHashMap<>();
    for (int study = 0; study < studies; study++) {
      made.study(study, counts);
    }
    return counts;
  }

  private void study(int study, Map<String, Count> counts) {
    List<CodedDemand> set = set();
    Truth truth = design.scheme() == Scheme.STRATA ? Truth.of(set) : Truth.of(design);
    Agreement drawn = draw(set, study);
    Agreement.Pair pair = drawn.sections().get(0).pairs().get(0);
    boolean warns = pair.method().warning().isPresent();
    add(counts, "agreement", pair.agreement(), truth.alike(), warns);
    add(counts, "kappa", pair.kappa().map(one -> one.estimate()), truth.kappa(), warns);
    add(counts, "alpha", pair.alpha(), truth.alpha(), warns);
    add(counts, "AC1", pair.ac1().map(one -> one.estimate()), truth.ac1(), warns);
    add(counts, "precision", pair.missing().precision(), truth.found() / truth.called(), warns);
    add(counts, "recall", pair.missing().recall(), truth.found() / truth.missing(), warns);
    add(
        counts,
        "F1",
        pair.missing().f1(),
        2 * truth.found() / (truth.called() + truth.missing()),
        warns);
    if (design.scheme() == Scheme.STRATA) {
      ClusteredRate called = new ClusteredRate();
      for (int at = 0; at < set.size(); at += DEMANDS) {
        called.add(
            set.subList(at, at + DEMANDS).stream()
                .filter(demand -> demand.verdict() == Verdict.MISSING)
                .count(),
            DEMANDS);
      }
      add(
          counts,
          "corrected rate",
          drawn.corrected(Optional.empty(), called.designEffect().orElse(1.0)),
          design.rate(),
          false);
    }
  }

  /**
   * What coding the whole set would give, as shares of it.
   *
   * @param found missing and called so
   * @param called called missing
   * @param missing missing
   */
  private record Truth(double found, double called, double missing) {
    /** What a set without end would give. */
    static Truth of(Design design) {
      double wrong = UNSURE * 6 * design.errors() + (1 - UNSURE) * design.errors();
      double found = design.rate() * (1 - wrong);
      return new Truth(found, found + (1 - design.rate()) * wrong, design.rate());
    }

    static Truth of(List<CodedDemand> set) {
      double found = 0;
      double called = 0;
      double missing = 0;
      for (CodedDemand demand : set) {
        boolean truly = demand.majority().equals(Optional.of(false));
        boolean so = demand.verdict() == Verdict.MISSING;
        found += truly && so ? 1 : 0;
        called += so ? 1 : 0;
        missing += truly ? 1 : 0;
      }
      return new Truth(found / set.size(), called / set.size(), missing / set.size());
    }

    double alike() {
      return 1 - called - missing + 2 * found;
    }

    double kappa() {
      double chance = called * missing + (1 - called) * (1 - missing);
      return (alike() - chance) / (1 - chance);
    }

    /** Without the correction for a small number of codes, which a whole set does not need. */
    double alpha() {
      double mean = (called + missing) / 2;
      return 1 - (1 - alike()) / (2 * mean * (1 - mean));
    }

    double ac1() {
      double mean = (called + missing) / 2;
      double chance = 2 * mean * (1 - mean);
      return (alike() - chance) / (1 - chance);
    }
  }

  private static void add(
      Map<String, Count> counts,
      String figure,
      Optional<Estimate> found,
      double truth,
      boolean warns) {
    counts.computeIfAbsent(figure, one -> new Count()).add(found, truth, warns);
  }

  private List<CodedDemand> set() {
    MadeUpStudies clusters = new MadeUpStudies(random.nextLong());
    MadeUpStudies.Design own =
        new MadeUpStudies.Design(design.responses(), design.rate(), design.likeness(), 1);
    List<CodedDemand> set = new ArrayList<>();
    for (int response = 0; response < design.responses(); response++) {
      double rate = clusters.own(own);
      for (int demand = 1; demand <= DEMANDS; demand++) {
        boolean missing = random.nextDouble() < rate;
        boolean unsure = random.nextDouble() < UNSURE;
        boolean wrong = random.nextDouble() < (unsure ? 6 * design.errors() : design.errors());
        set.add(
            new CodedDemand(
                "r" + response,
                "p",
                "a",
                demand,
                demand % 2 == 0 ? DemandKind.EXPLAIN : DemandKind.DESCRIBE,
                missing != wrong ? Verdict.MISSING : Verdict.ADDRESSED,
                0.8,
                unsure,
                Map.of("coder", !missing),
                1,
                "r" + response,
                Map.of()));
      }
    }
    return set;
  }

  private Agreement draw(List<CodedDemand> set, long seed) {
    if (design.scheme() == Scheme.RESPONSES) {
      return new Agreement(set.subList(0, design.coded()), LEVEL, 10, 1);
    }
    CodingSample<CodedDemand> sample = new CodingSample<>(design.coded(), seed);
    for (CodedDemand one : set) {
      sample.offer(one.responseId() + one.demand(), one.kind(), one.verdict(), one.look(), one);
    }
    Map<Stratum, Long> sizes = new HashMap<>(sample.sizes());
    List<CodedDemand> drawn =
        sample.draw().stream().map(one -> one.item().weighing(one.weight())).toList();
    return new Agreement(drawn, LEVEL, 10, 1, true, sizes);
  }
}
