package everypart.analyzer.study;

import everypart.analyzer.coverage.Verdict;
import everypart.analyzer.study.agreement.Agreement;
import everypart.analyzer.study.statistics.ClusteredChange;
import everypart.analyzer.study.statistics.ClusteredDifference;
import everypart.analyzer.study.statistics.ClusteredRate;
import everypart.analyzer.study.statistics.ClusteredTrend;
import everypart.analyzer.study.statistics.Comparison;
import everypart.analyzer.study.statistics.CorrectedPrevalence;
import everypart.analyzer.study.statistics.DetectionRate;
import everypart.analyzer.study.statistics.Estimate;
import everypart.analyzer.study.statistics.Holm;
import everypart.analyzer.study.statistics.Interval;
import everypart.analyzer.study.statistics.Level;
import everypart.analyzer.study.statistics.Method;
import everypart.analyzer.study.statistics.PairedChange;
import everypart.analyzer.study.statistics.Proportion;
import everypart.analyzer.study.statistics.SignificanceTest;
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
 * @param drafts what became of demands from first to last draft; nothing without drafts
 * @param levels how alike answers are within each level of clusters, over all demands
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
    Optional<Drafts> drafts,
    List<ClusterLevel> levels,
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
    levels = List.copyOf(levels);
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
   * @param method how the clustered interval is computed
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
      long clusters,
      Method method) {}

  /**
   * Two groups, or one group and all the others, side by side.
   *
   * @param column the group column
   * @param kind the kind of demand; empty for all
   * @param first one value
   * @param second the other value
   * @param rates their omission rates
   * @param difference first less second; nothing where nothing tells its uncertainty
   * @param oddsRatio first over second
   * @param test whether they differ, were each demand to stand alone
   * @param clusteredTest whether they differ, by the method named
   * @param method how difference, odds ratio and that test are computed
   * @param holm the test's probability after Holm's correction over its family: all pairs of the
   *     column over all demands, or all pairs of the column within kinds
   */
  public record GroupComparison(
      String column,
      Optional<DemandKind> kind,
      String first,
      String second,
      Comparison rates,
      Optional<Estimate> difference,
      Optional<Estimate> oddsRatio,
      Optional<SignificanceTest> test,
      Optional<SignificanceTest> clusteredTest,
      Method method,
      Optional<Double> holm) {}

  /**
   * A trend.
   *
   * @param dimension position or length
   * @param test whether the omission rate rises or falls; nothing when there is no spread
   * @param slope how much it changes from one step to the next, where clusters tell it
   * @param method how the test is computed
   */
  public record Effect(
      Dimension dimension,
      Optional<SignificanceTest> test,
      Optional<Estimate> slope,
      Method method) {}

  /**
   * A level of clusters.
   *
   * @param column the column that names them; "response" where none does
   * @param clusters how many there are, after pooling
   * @param designEffect how many times larger the variance of the omission rate is for them
   * @param likeness the correlation of demands within them, 0 to 1
   */
  public record ClusterLevel(
      String column, long clusters, Optional<Double> designEffect, Optional<Double> likeness) {}

  /**
   * What became of demands from first to last draft.
   *
   * @param answers how many answers have a first and a last draft
   * @param order the values that tell drafts apart, first to last
   * @param twice how many answers were left out, since two responses claim to be the same draft
   * @param unplaced how many responses say nothing of their writer or draft
   * @param changes over all demands, then of each kind
   */
  public record Drafts(
      long answers, List<String> order, long twice, long unplaced, List<Change> changes) {
    /** Copies the lists. */
    public Drafts {
      order = List.copyOf(order);
      changes = List.copyOf(changes);
    }
  }

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
   * @param test whether as many were opened as closed
   * @param method how change and test are computed
   * @param holm its probability after Holm's correction over kinds
   */
  public record Change(
      Optional<DemandKind> kind,
      PairedChange counts,
      Optional<Estimate> change,
      Optional<SignificanceTest> test,
      Method method,
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
      Optional<Drafts> drafts = tally.drafts().map(this::drafts);
      List<ClusterLevel> levels = levels();
      if (cells.values().stream().anyMatch(cell -> cell.byCluster().pooled())) {
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
          drafts,
          levels,
          agreement.map(this::corrections).orElse(List.of()),
          notes);
    }

    private Rate rate(StudyTally.Key key, Cell cell) {
      Optional<Proportion> missing = Proportion.of(cell.missing(), cell.checked());
      ClusteredRate clustered = cell.byCluster().rate();
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
          clustered.clusters(),
          clustered.method());
    }

    private static String name(StudyTally.Key key) {
      return switch (key.dimension()) {
        case LENGTH -> LengthBand.valueOf(key.name()).label();
        case POSITION -> String.valueOf(Integer.parseInt(key.name()));
        default -> key.name();
      };
    }

    private Effect trend(Dimension dimension) {
      List<Double> scores = new ArrayList<>();
      List<ClusterCounts> steps = new ArrayList<>();
      cells.forEach(
          (key, cell) -> {
            if (key.dimension() == dimension && cell.checked() > 0) {
              scores.add(
                  (double)
                      (dimension == Dimension.POSITION
                          ? Integer.parseInt(key.name())
                          : LengthBand.valueOf(key.name()).step()));
              steps.add(cell.byCluster());
            }
          });
      ClusteredTrend trend = new ClusteredTrend();
      for (long[][] cluster : ClusterCounts.side(steps)) {
        for (int step = 0; step < cluster.length; step++) {
          trend.add(scores.get(step), cluster[step][0], cluster[step][1]);
        }
        trend.endCluster();
      }
      return new Effect(dimension, trend.test(), trend.slope(level), trend.method());
    }

    private List<ClusterLevel> levels() {
      List<String> columns = tally.design().clusters();
      List<ClusterLevel> levels = new ArrayList<>();
      Cell all = cells.get(StudyTally.Key.of(Dimension.ALL, "all"));
      if (all != null) {
        levels.add(level(columns.isEmpty() ? "response" : columns.get(0), all.byCluster()));
      }
      if (columns.size() > 1) {
        levels.add(level(columns.get(1), tally.nesting().inner()));
        tally
            .nesting()
            .crossed()
            .ifPresent(
                one ->
                    notes.add(
                        String.format(
                            Locale.ROOT,
                            "%s \"%s\" is in more than one %s. Answers of two of these are then"
                                + " not apart, which the intervals do not allow for; name the"
                                + " widest column first, and leave out what crosses it.",
                            columns.get(1),
                            one,
                            columns.get(0))));
      }
      for (int at = 0; at < columns.size(); at++) {
        if (tally.unnamed(at) > 0) {
          notes.add(
              tally.unnamed(at)
                  + " responses have no "
                  + columns.get(at)
                  + "; each of them counts as one of its own.");
        }
      }
      return levels;
    }

    private static ClusterLevel level(String column, ClusterCounts counts) {
      ClusteredRate rate = counts.rate();
      return new ClusterLevel(column, rate.clusters(), rate.designEffect(), rate.likeness());
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
      List<long[][]> clusters =
          ClusterCounts.side(values.values().stream().map(Cell::byCluster).toList());
      if (names.size() > MOST_PAIRED_VALUES) {
        for (int one = 0; one < names.size(); one++) {
          ClusteredDifference rates = new ClusteredDifference();
          for (long[][] cluster : clusters) {
            long[] others = new long[2];
            for (int other = 0; other < cluster.length; other++) {
              others[0] += other == one ? 0 : cluster[other][0];
              others[1] += other == one ? 0 : cluster[other][1];
            }
            rates.add(cluster[one][0], cluster[one][1], others[0], others[1]);
          }
          pairs.add(compare(column, kind, names.get(one), "all others", rates));
        }
        return pairs;
      }
      for (int first = 0; first < names.size(); first++) {
        for (int second = first + 1; second < names.size(); second++) {
          ClusteredDifference rates = new ClusteredDifference();
          for (long[][] cluster : clusters) {
            rates.add(cluster[first][0], cluster[first][1], cluster[second][0], cluster[second][1]);
          }
          pairs.add(compare(column, kind, names.get(first), names.get(second), rates));
        }
      }
      return pairs;
    }

    private GroupComparison compare(
        String column,
        Optional<DemandKind> kind,
        String first,
        String second,
        ClusteredDifference rates) {
      return new GroupComparison(
          column,
          kind,
          first,
          second,
          rates.rates(),
          rates.difference(level),
          rates.oddsRatio(level),
          rates.rates().table().independence(),
          rates.test(),
          rates.method(),
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
                one.method(),
                probability(one).map(p -> holm)));
      }
      return corrected;
    }

    /** The test that takes demands to stand alone is not asked: it may be far off. */
    private static Optional<Double> probability(GroupComparison one) {
      return one.clusteredTest().map(SignificanceTest::p);
    }

    private Drafts drafts(DraftPairs pairs) {
      Map<Optional<DemandKind>, ClusteredChange> all = pairs.changes();
      List<Double> adjusted =
          Holm.adjust(
              all.entrySet().stream()
                  .filter(entry -> entry.getKey().isPresent())
                  .map(entry -> entry.getValue().test().map(SignificanceTest::p).orElse(1.0))
                  .toList());
      List<Change> changes = new ArrayList<>();
      all.forEach(
          (kind, one) -> {
            // The first is over all kinds, and in no family.
            int at = changes.size() - 1;
            changes.add(
                new Change(
                    kind,
                    one.counts(),
                    one.change(level),
                    one.test(),
                    one.method(),
                    kind.flatMap(unused -> one.test()).map(test -> adjusted.get(at))));
          });
      return new Drafts(pairs.compared(), pairs.order(), pairs.twice(), pairs.unplaced(), changes);
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
      double designEffect = Math.max(1, cell.byCluster().rate().designEffect().orElse(1.0));
      Optional<DetectionRate> sensitivity = agreement.sensitivity(kind);
      Optional<DetectionRate> specificity = agreement.specificity(kind);
      // Clustered demands are worth fewer than they count.
      Optional<Estimate> estimate =
          agreement
              .corrected(kind, designEffect)
              .or(
                  () ->
                      sensitivity.flatMap(
                          found ->
                              specificity.flatMap(
                                  left ->
                                      new CorrectedPrevalence(
                                              apparent.rate(),
                                              apparent.total() / designEffect,
                                              found,
                                              left)
                                          .estimate(level))));
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
