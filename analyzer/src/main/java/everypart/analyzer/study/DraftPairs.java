package everypart.analyzer.study;

import everypart.analyzer.coverage.Verdict;
import everypart.analyzer.study.statistics.ClusteredChange;
import everypart.analyzer.study.statistics.PairedChange;
import everypart.lexicon.DemandKind;
import java.io.Serializable;
import java.math.BigDecimal;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * The first and the last draft of each writer's answer to each prompt.
 *
 * <p>Drafts may come in any order, so what was missing in the earliest and the latest seen so far
 * is kept for each writer and prompt: some 200 bytes each.
 */
final class DraftPairs implements Serializable {
  private static final long serialVersionUID = 1L;

  /** With more writers and prompts than this the study stops, before memory does. */
  static final int MOST = 1_000_000;

  /**
   * A draft.
   *
   * @param twice whether another response claims to be the same draft
   */
  private record Draft(BigDecimal place, List<DemandRow> demands, boolean twice)
      implements Serializable {
    /** Returns the earlier (below 0) or the later (above 0) of two; of one and the same, doubt. */
    Draft against(Draft other, int sign) {
      int order = Integer.signum(place.compareTo(other.place)) * sign;
      return order == 0 ? new Draft(place, demands, true) : order > 0 ? this : other;
    }
  }

  private record Pair(String cluster, Draft first, Draft last) implements Serializable {
    Pair with(Pair other) {
      return new Pair(
          cluster.compareTo(other.cluster) <= 0 ? cluster : other.cluster,
          first.against(other.first, -1),
          last.against(other.last, 1));
    }

    boolean one() {
      return first.place().compareTo(last.place()) == 0;
    }

    boolean twice() {
      return first.twice() || last.twice();
    }
  }

  private final DraftOrder order;
  private final Map<String, Pair> pairs = new HashMap<>();
  private long unplaced;

  DraftPairs(StudyDesign.Drafts drafts) {
    this.order = new DraftOrder(drafts);
  }

  /** Takes a response that says nothing of its writer or draft. */
  void addUnplaced() {
    unplaced++;
  }

  /**
   * Takes a draft.
   *
   * @param cluster what the writer is in, which stays that of the first response seen
   */
  void add(String writer, String draft, String cluster, JudgedResponse response) {
    Draft own = new Draft(order.place(draft), response.demands(), false);
    pairs.merge(response.promptId() + "\n" + writer, new Pair(cluster, own, own), Pair::with);
    refuseTooMany();
  }

  /** Adds what another saw. */
  void merge(DraftPairs other) {
    order.merge(other.order);
    unplaced += other.unplaced;
    other.pairs.forEach((name, pair) -> pairs.merge(name, pair, Pair::with));
    refuseTooMany();
  }

  private void refuseTooMany() {
    if (pairs.size() > MOST) {
      throw new IllegalArgumentException(
          "more than " + MOST + " writers and prompts have drafts; run the study in pieces");
    }
  }

  /** Returns how many answers have a first and a last draft. */
  long compared() {
    return pairs.values().stream().filter(pair -> !pair.one() && !pair.twice()).count();
  }

  /** Returns how many answers are left out, since two responses claim to be the same draft. */
  long twice() {
    return pairs.values().stream().filter(Pair::twice).count();
  }

  /** Returns how many responses say nothing of their writer or draft. */
  long unplaced() {
    return unplaced;
  }

  /** Returns the values that tell drafts apart, first to last. */
  List<String> order() {
    return order.shown();
  }

  /** Returns the change between first and last draft: over all demands, and of each kind. */
  Map<Optional<DemandKind>, ClusteredChange> changes() {
    Map<String, EnumMap<DemandKind, long[]>> clusters = new TreeMap<>();
    for (Pair pair : pairs.values()) {
      if (pair.one() || pair.twice()) {
        continue;
      }
      EnumMap<DemandKind, long[]> counts =
          clusters.computeIfAbsent(pair.cluster(), name -> new EnumMap<>(DemandKind.class));
      List<DemandRow> last = pair.last().demands();
      for (int at = 0; at < last.size(); at++) {
        DemandRow before = pair.first().demands().get(at);
        DemandRow after = last.get(at);
        if (before.verdict() != Verdict.UNCHECKED && after.verdict() != Verdict.UNCHECKED) {
          boolean missingBefore = before.verdict() == Verdict.MISSING;
          boolean missingAfter = after.verdict() == Verdict.MISSING;
          counts
              .computeIfAbsent(before.kind(), kind -> new long[4])[
              (missingBefore ? 0 : 2) + (missingAfter ? 0 : 1)]++;
        }
      }
    }
    ClusteredChange all = new ClusteredChange();
    EnumMap<DemandKind, ClusteredChange> kinds = new EnumMap<>(DemandKind.class);
    for (EnumMap<DemandKind, long[]> cluster : clusters.values()) {
      long[] sums = new long[4];
      cluster.forEach(
          (kind, counts) -> {
            kinds.computeIfAbsent(kind, one -> new ClusteredChange()).add(change(counts));
            for (int at = 0; at < sums.length; at++) {
              sums[at] += counts[at];
            }
          });
      all.add(change(sums));
    }
    Map<Optional<DemandKind>, ClusteredChange> changes = new LinkedHashMap<>();
    changes.put(Optional.empty(), all);
    kinds.forEach((kind, change) -> changes.put(Optional.of(kind), change));
    return changes;
  }

  private static PairedChange change(long[] counts) {
    return new PairedChange(counts[0], counts[1], counts[2], counts[3]);
  }
}
