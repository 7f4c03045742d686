package everypart.analyzer.study;

import everypart.analyzer.coverage.Verdict;
import everypart.analyzer.study.statistics.PairedChange;
import everypart.lexicon.DemandKind;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * The first and the last draft of each writer's answer to each prompt.
 *
 * <p>Drafts may come in any order, so what was missing in the earliest and the latest seen so far
 * is kept for each writer and prompt: some 200 bytes each.
 */
final class DraftPairs {
  /** With more writers and prompts than this the study stops, before memory does. */
  static final int MOST = 1_000_000;

  /** Numbers in their own order, before words in theirs. */
  static final Comparator<String> ORDER =
      Comparator.comparing(DraftPairs::number).thenComparing(Comparator.naturalOrder());

  private record Draft(String name, List<DemandRow> demands) {}

  private record Pair(Draft first, Draft last) {
    boolean one() {
      return first.name().equals(last.name());
    }
  }

  private final Map<String, Pair> pairs = new HashMap<>();

  private static double number(String draft) {
    try {
      return Double.parseDouble(draft.strip());
    } catch (NumberFormatException noNumber) {
      return Double.POSITIVE_INFINITY;
    }
  }

  void add(String writer, String draft, JudgedResponse response) {
    Draft own = new Draft(draft, response.demands());
    pairs.merge(
        response.promptId() + "\n" + writer,
        new Pair(own, own),
        (seen, added) ->
            new Pair(
                ORDER.compare(draft, seen.first().name()) < 0 ? own : seen.first(),
                ORDER.compare(draft, seen.last().name()) > 0 ? own : seen.last()));
    if (pairs.size() > MOST) {
      throw new IllegalArgumentException(
          "more than " + MOST + " writers and prompts have drafts; run the study in pieces");
    }
  }

  long writers() {
    return pairs.values().stream().filter(pair -> !pair.one()).count();
  }

  /** Returns the change of each kind of demand between first and last draft. */
  Map<DemandKind, PairedChange> byKind() {
    EnumMap<DemandKind, long[]> counts = new EnumMap<>(DemandKind.class);
    for (Pair pair : pairs.values()) {
      if (pair.one()) {
        continue;
      }
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
    EnumMap<DemandKind, PairedChange> changes = new EnumMap<>(DemandKind.class);
    counts.forEach(
        (kind, one) -> changes.put(kind, new PairedChange(one[0], one[1], one[2], one[3])));
    return changes;
  }
}
