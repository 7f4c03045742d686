package everypart.analyzer.study;

import everypart.analyzer.coverage.Verdict;
import everypart.analyzer.study.agreement.Agreement;
import everypart.analyzer.study.statistics.ChiSquare;
import everypart.analyzer.study.statistics.Comparison;
import everypart.analyzer.study.statistics.CorrectedPrevalence;
import everypart.analyzer.study.statistics.DetectionRate;
import everypart.analyzer.study.statistics.Estimate;
import everypart.analyzer.study.statistics.Holm;
import everypart.analyzer.study.statistics.Interval;
import everypart.analyzer.study.statistics.Level;
import everypart.analyzer.study.statistics.PairedChange;
import everypart.analyzer.study.statistics.Proportion;
import everypart.analyzer.study.statistics.SignificanceTest;
import everypart.analyzer.study.statistics.Trend;
import everypart.lexicon.DemandKind;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * The figures of a study.
 *
 * @param level the level of all intervals
 * @param responses how many responses were judged
 * @param complete how many of them leave no demand open
 * @param byMeaning how many responses have sentences that were compared with parts in meaning
 * @param byOpenDemands how many responses leave so many demands open, from none upwards
 * @param prompts the counts of each prompt that has a response, by id
 * @param rates omission rates, by dimension and value
 * @param comparisons differences between groups
 * @param trends whether omission rises or falls with position and with length
 * @param coOmissions which demands are left open together
 * @param changes what became of demands from first to last draft; empty without drafts
 * @param draftWriters how many answers have two drafts or more
 * @param corrections rates corrected for the program's errors; empty without codes
 * @param notes what a reader should know about these figures
 */
public record StudySummary(
    Level level,
    long responses,
    long complete,
    long byMeaning,
    List<Long> byOpenDemands,
    List<PromptCounts> prompts,
    List<Rate> rates,
    List<GroupComparison> comparisons,
    List<Effect> trends,
    List<CoOmission> coOmissions,
    List<Change> changes,
    long draftWriters,
    List<Correction> corrections,
    List<String> notes) {
  /** Copies the lists. */
  public StudySummary {
    byOpenDemands = List.copyOf(byOpenDemands);
    prompts = List.copyOf(prompts);
    rates = List.copyOf(rates);
    comparisons = List.copyOf(comparisons);
    trends = List.copyOf(trends);
    coOmissions = List.copyOf(coOmissions);
    changes = List.copyOf(changes);
    corrections = List.copyOf(corrections);
    notes = List.copyOf(notes);
  }

  /**
   * The counts of one prompt.
   *
   * @param promptId names the prompt
   * @param verdicts how many responses got each verdict over all their parts
   * @param demands the counts of each demand, in reading order
   */
  public record PromptCounts(
      String promptId, Map<Verdict, Long> verdicts, List<DemandCounts> demands) {
    /** Returns how many responses there are. */
    public long responses() {
      return verdicts.values().stream().mapToLong(Long::longValue).sum();
    }
  }

  /**
   * The counts of one demand.
   *
   * @param part the part's label
   * @param number the demand's running number within its part, from 1
   * @param kind its kind
   * @param verb its task verb or question form
   * @param verdicts how many responses got each verdict on it
   * @param look how many verdicts on it ask for a person's eye
   */
  public record DemandCounts(
      String part,
      int number,
      DemandKind kind,
      String verb,
      Map<Verdict, Long> verdicts,
      long look) {}

  /**
   * An omission rate: missing demands over checked ones.
   *
   * @param dimension what is counted by
   * @param name the value, or the column where the value is of a group
   * @param value the value of the group, or the demand's number within its part
   * @param kind the kind, where it is told apart
   * @param verdicts how many demands got each verdict
   * @param look how many verdicts ask for a person's eye
   * @param missing missing over checked; nothing when none was checked
   * @param wilson its interval when demands stand alone
   * @param clustered its interval when demands of a cluster resemble each other
   * @param designEffect how many times larger the variance is for that
   * @param clusters how many clusters have a checked demand, after pooling
   */
  public record Rate(
      Dimension dimension,
      String name,
      String value,
      String kind,
      Map<Verdict, Long> verdicts,
      long look,
      Optional<Proportion> missing,
      Optional<Interval> wilson,
      Optional<Interval> clustered,
      Optional<Double> designEffect,
      long clusters) {}

  /**
   * Two groups, or one group and all the others, side by side.
   *
   * @param column the group column
   * @param kind the kind of demand; empty for all
   * @param first one value
   * @param second the other value
   * @param rates their omission rates
   * @param difference first less second
   * @param oddsRatio first over second
   * @param test whether they differ
   * @param holm the test's probability after Holm's correction over its family: all pairs of the
   *     column over all demands, or all pairs of the column within kinds
   */
  public record GroupComparison(
      String column,
      Optional<DemandKind> kind,
      String first,
      String second,
      Comparison rates,
      Estimate difference,
      Optional<Estimate> oddsRatio,
      Optional<SignificanceTest> test,
      Optional<SignificanceTest> clusteredTest,
      Optional<Double> holm) {}

  /**
   * A trend.
   *
   * @param dimension position or length
   * @param test whether the omission rate rises or falls; nothing when there is no spread
   */
  public record Effect(Dimension dimension, Optional<SignificanceTest> test) {}

  /**
   * Two kinds, or two demands of a prompt, and how often they are left open together.
   *
   * @param prompt the prompt; empty for kinds
   * @param first one
   * @param second the other
   * @param both responses that leave both open
   * @param onlyFirst responses that leave only the first open
   * @param onlySecond responses that leave only the second open
   * @param neither responses that leave neither open
   * @param phi their correlation
   * @param lift how many times more often both are open than if they had nothing to do with each
   *     other
   */
  public record CoOmission(
      String prompt,
      String first,
      String second,
      long both,
      long onlyFirst,
      long onlySecond,
      long neither,
      Optional<Double> phi,
      Optional<Double> lift) {}

  /**
   * What became of demands from first to last draft.
   *
   * @param kind the kind; empty for all
   * @param counts missing in both, in the first only, in the last only, in neither
   * @param change the omission rate of the last draft less that of the first
   * @param test McNemar's
   * @param holm its probability after Holm's correction over kinds
   */
  public record Change(
      Optional<DemandKind> kind,
      PairedChange counts,
      Optional<Estimate> change,
      Optional<SignificanceTest> test,
      Optional<Double> holm) {}

  /**
   * A rate corrected for the program's errors.
   *
   * @param kind the kind; empty for all
   * @param apparent the rate as counted
   * @param sensitivity how many missing demands the program calls missing
   * @param specificity how many others it does not
   * @param corrected the rate and its interval; nothing when the program does no better than chance
   *     on the coded demands
   * @param statement why the figure is not to be relied on; empty when the coded sample is large
   *     enough
   */
  public record Correction(
      Optional<DemandKind> kind,
      Proportion apparent,
      Optional<DetectionRate> sensitivity,
      Optional<DetectionRate> specificity,
      Optional<Estimate> corrected,
      Optional<String> statement) {}

  /**
   * Returns the figures of a tally.
   *
   * @param agreement coded demands to correct by, when there are any
   */
  public static StudySummary of(StudyTally tally, Level level, Optional<Agreement> agreement) {
    return new Draft(tally, level).summary(agreement);
  }

  /** The summary while it is being computed. */
  private static final class Draft {
    private final StudyTally tally;
    private final Level level;
    private final Map<StudyTally.Key, Cell> cells;
    private final List<String> notes = new ArrayList<>();

    Draft(StudyTally tally, Level level) {
      this.tally = tally;
      this.level = level;
      this.cells = tally.cells();
    }

    StudySummary summary(Optional<Agreement> agreement) {
      List<GroupComparison> comparisons = new ArrayList<>();
      for (String column : tally.design().by()) {
        comparisons.addAll(compare(column));
      }
      if (cells.values().stream().anyMatch(Cell::pooled)) {
        notes.add(
            "More than "
                + ClusterCounts.LIMIT
                + " clusters: they were pooled at random into "
                + ClusterCounts.POOLS
                + " for the intervals.");
      }
      List<CoOmission> pairs = new ArrayList<>();
      tally.forEachPair(
          (prompt, first, second, table) ->
              pairs.add(
                  new CoOmission(
                      prompt,
                      first,
                      second,
                      table.both(),
                      table.first(),
                      table.second(),
                      table.neither(),
                      table.phi(),
                      table.lift())));
      return new StudySummary(
          level,
          tally.responses(),
          tally.complete(),
          tally.byMeaning(),
          tally.byOpenDemands(),
          tally.byPrompt(),
          cells.entrySet().stream().map(entry -> rate(entry.getKey(), entry.getValue())).toList(),
          comparisons,
          List.of(trend(Dimension.POSITION), trend(Dimension.LENGTH)),
          pairs,
          tally.design().draft().isPresent() ? changes() : List.of(),
          tally.drafts().writers(),
          agreement.map(this::corrections).orElse(List.of()),
          notes);
    }

    private Rate rate(StudyTally.Key key, Cell cell) {
      Optional<Proportion> missing = Proportion.of(cell.missing(), cell.checked());
      var clustered = cell.clustered();
      return new Rate(
          key.dimension(),
          name(key),
          key.value(),
          key.kind(),
          cell.verdicts(),
          cell.look(),
          missing,
          missing.map(proportion -> proportion.wilson(level)),
          clustered.interval(level),
          clustered.designEffect(),
          clustered.clusters());
    }

    private static String name(StudyTally.Key key) {
      return switch (key.dimension()) {
        case LENGTH -> LengthBand.valueOf(key.name()).label();
        case POSITION -> String.valueOf(Integer.parseInt(key.name()));
        default -> key.name();
      };
    }

    private Effect trend(Dimension dimension) {
      List<Trend.Step> steps = new ArrayList<>();
      cells.forEach(
          (key, cell) -> {
            if (key.dimension() == dimension && cell.checked() > 0) {
              double score =
                  dimension == Dimension.POSITION
                      ? Integer.parseInt(key.name())
                      : LengthBand.valueOf(key.name()).step();
              steps.add(new Trend.Step(score, new Proportion(cell.missing(), cell.checked())));
            }
          });
      return new Effect(dimension, steps.isEmpty() ? Optional.empty() : Trend.test(steps));
    }

    private List<GroupComparison> compare(String column) {
      Map<String, Cell> all = new TreeMap<>();
      Map<DemandKind, Map<String, Cell>> byKind = new EnumMap<>(DemandKind.class);
      cells.forEach(
          (key, cell) -> {
            if (!key.name().equals(column) || cell.checked() == 0) {
              return;
            }
            if (key.dimension() == Dimension.GROUP) {
              all.put(key.value(), cell);
            } else if (key.dimension() == Dimension.GROUP_KIND) {
              byKind
                  .computeIfAbsent(DemandKind.of(key.kind()), kind -> new TreeMap<>())
                  .put(key.value(), cell);
            }
          });
      List<GroupComparison> overall = new ArrayList<>(pairs(column, Optional.empty(), all));
      List<GroupComparison> within = new ArrayList<>();
      byKind.forEach((kind, values) -> within.addAll(pairs(column, Optional.of(kind), values)));
      List<GroupComparison> comparisons = new ArrayList<>(corrected(overall));
      comparisons.addAll(corrected(within));
      return comparisons;
    }

    /** Up to so many values each is compared with each; beyond, each with all the others. */
    private static final int MOST_PAIRED_VALUES = 6;

    private List<GroupComparison> pairs(
        String column, Optional<DemandKind> kind, Map<String, Cell> values) {
      List<GroupComparison> pairs = new ArrayList<>();
      List<String> names = List.copyOf(values.keySet());
      if (names.size() > MOST_PAIRED_VALUES) {
        long missing = values.values().stream().mapToLong(Cell::missing).sum();
        long checked = values.values().stream().mapToLong(Cell::checked).sum();
        values.forEach(
            (name, cell) ->
                pairs.add(
                    compare(
                        column,
                        kind,
                        name,
                        "all others",
                        new Comparison(
                            new Proportion(cell.missing(), cell.checked()),
                            new Proportion(missing - cell.missing(), checked - cell.checked())),
                        Optional.empty())));
        return pairs;
      }
      for (int first = 0; first < names.size(); first++) {
        for (int second = first + 1; second < names.size(); second++) {
          Cell one = values.get(names.get(first));
          Cell other = values.get(names.get(second));
          if (one != null && other != null) {
            pairs.add(
                compare(
                    column,
                    kind,
                    names.get(first),
                    names.get(second),
                    new Comparison(
                        new Proportion(one.missing(), one.checked()),
                        new Proportion(other.missing(), other.checked())),
                    clusteredTest(one, other)));
          }
        }
      }
      return pairs;
    }

    private static Optional<SignificanceTest> clusteredTest(Cell one, Cell other) {
      return ChiSquare.clustered(
          new Proportion(one.missing(), one.checked()),
          one.clustered().designEffect().orElse(1.0),
          new Proportion(other.missing(), other.checked()),
          other.clustered().designEffect().orElse(1.0));
    }

    private GroupComparison compare(
        String column,
        Optional<DemandKind> kind,
        String first,
        String second,
        Comparison rates,
        Optional<SignificanceTest> clusteredTest) {
      return new GroupComparison(
          column,
          kind,
          first,
          second,
          rates,
          rates.riskDifference(level),
          rates.table().oddsRatio(level),
          rates.table().independence(),
          clusteredTest,
          Optional.empty());
    }

    private static List<GroupComparison> corrected(List<GroupComparison> family) {
      List<Double> probabilities =
          family.stream().map(one -> probability(one).orElse(1.0)).toList();
      List<Double> adjusted = Holm.adjust(probabilities);
      List<GroupComparison> corrected = new ArrayList<>();
      for (int at = 0; at < family.size(); at++) {
        GroupComparison one = family.get(at);
        double holm = adjusted.get(at);
        corrected.add(
            new GroupComparison(
                one.column(),
                one.kind(),
                one.first(),
                one.second(),
                one.rates(),
                one.difference(),
                one.oddsRatio(),
                one.test(),
                one.clusteredTest(),
                probability(one).map(p -> holm)));
      }
      return corrected;
    }

    /** The test that heeds clusters goes first, for it is the one that can be relied on. */
    private static Optional<Double> probability(GroupComparison one) {
      return one.clusteredTest().or(one::test).map(SignificanceTest::p);
    }

    private List<Change> changes() {
      Map<DemandKind, PairedChange> byKind = tally.drafts().byKind();
      long[] sums = new long[4];
      byKind
          .values()
          .forEach(
              one -> {
                sums[0] += one.both();
                sums[1] += one.before();
                sums[2] += one.after();
                sums[3] += one.neither();
              });
      PairedChange all = new PairedChange(sums[0], sums[1], sums[2], sums[3]);
      List<Change> changes = new ArrayList<>();
      changes.add(
          new Change(Optional.empty(), all, all.change(level), all.test(), Optional.empty()));
      List<Double> adjusted =
          Holm.adjust(
              byKind.values().stream()
                  .map(one -> one.test().map(SignificanceTest::p).orElse(1.0))
                  .toList());
      int at = 0;
      for (Map.Entry<DemandKind, PairedChange> entry : byKind.entrySet()) {
        PairedChange one = entry.getValue();
        double holm = adjusted.get(at++);
        changes.add(
            new Change(
                Optional.of(entry.getKey()),
                one,
                one.change(level),
                one.test(),
                one.test().map(test -> holm)));
      }
      return changes;
    }

    private List<Correction> corrections(Agreement agreement) {
      List<Correction> corrections = new ArrayList<>();
      cells.forEach(
          (key, cell) -> {
            boolean all = key.dimension() == Dimension.ALL;
            if ((all || key.dimension() == Dimension.KIND) && cell.checked() > 0) {
              Optional<DemandKind> kind =
                  all ? Optional.empty() : Optional.of(DemandKind.of(key.name()));
              corrections.add(correction(kind, cell, agreement));
            }
          });
      return corrections;
    }

    private Correction correction(Optional<DemandKind> kind, Cell cell, Agreement agreement) {
      Proportion apparent = new Proportion(cell.missing(), cell.checked());
      // Clustered demands are worth fewer than they count.
      double size = apparent.total() / Math.max(1, cell.clustered().designEffect().orElse(1.0));
      Optional<DetectionRate> sensitivity = agreement.sensitivity(kind);
      Optional<DetectionRate> specificity = agreement.specificity(kind);
      Optional<Estimate> estimate =
          sensitivity.flatMap(
              found ->
                  specificity.flatMap(
                      left ->
                          new CorrectedPrevalence(apparent.rate(), size, found, left)
                              .estimate(level)));
      return new Correction(
          kind,
          apparent,
          sensitivity,
          specificity,
          estimate,
          statement(sensitivity, specificity, estimate));
    }

    private static Optional<String> statement(
        Optional<DetectionRate> sensitivity,
        Optional<DetectionRate> specificity,
        Optional<Estimate> estimate) {
      double missing = sensitivity.map(DetectionRate::size).orElse(0.0);
      double addressed = specificity.map(DetectionRate::size).orElse(0.0);
      if (missing < Agreement.ENOUGH_CODED || addressed < Agreement.ENOUGH_CODED) {
        return Optional.of(
            String.format(
                Locale.ROOT,
                "The coded sample is too small: it is worth %.0f missing and %.0f addressed demands,"
                    + " and at least %d of each are needed; code more before relying on this figure.",
                missing,
                addressed,
                Agreement.ENOUGH_CODED));
      }
      return estimate.isPresent()
          ? Optional.empty()
          : Optional.of(
              "On the coded demands the program does no better than chance, so no correction can be"
                  + " made; use people's codes instead.");
    }
  }
}
