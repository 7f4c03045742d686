package everypart.cli.report;

import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.coverage.DemandCoverage;
import everypart.analyzer.coverage.PartCoverage;
import everypart.analyzer.coverage.Verdict;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** What became of each demand from an earlier draft to a later one. */
public final class Revision {
  /** What became of a demand. */
  enum Change {
    /** Open before, addressed now. */
    CLOSED,
    /** Addressed before and now. */
    KEPT,
    /** Addressed before, open now. */
    LOST,
    /** Open before and now. */
    OPEN,
    /** It cannot be read from text. */
    UNCHECKED;

    String word() {
      return name().toLowerCase(Locale.ROOT);
    }

    static Change of(Verdict before, Verdict now) {
      if (before == Verdict.UNCHECKED || now == Verdict.UNCHECKED) {
        return UNCHECKED;
      }
      boolean was = before == Verdict.ADDRESSED;
      boolean is = now == Verdict.ADDRESSED;
      return is ? (was ? KEPT : CLOSED) : (was ? LOST : OPEN);
    }
  }

  /**
   * A demand and what became of it.
   *
   * @param demand its running number in the part, from 1
   * @param name its short name, as in "b2 justify"
   * @param earlier the verdict on the earlier draft
   */
  record Item(String part, int demand, String name, Verdict earlier, Change change) {}

  private final List<Item> items = new ArrayList<>();

  /** Compares two drafts of one response to one prompt. */
  public Revision(Coverage earlier, Coverage now) {
    for (int p = 0; p < now.parts().size(); p++) {
      PartCoverage part = now.parts().get(p);
      String label = part.part().label();
      for (int d = 0; d < part.demands().size(); d++) {
        DemandCoverage demand = part.demands().get(d);
        Verdict before = earlier.parts().get(p).demands().get(d).verdict();
        items.add(
            new Item(
                label,
                d + 1,
                Words.code(now.prompt(), part.part(), d + 1) + " " + demand.demand().kind().word(),
                before,
                Change.of(before, demand.verdict())));
      }
    }
  }

  /** Returns the demands, in reading order. */
  List<Item> items() {
    return List.copyOf(items);
  }

  /** Tells whether there is a demand of which this became. */
  boolean has(Change change) {
    return items.stream().anyMatch(item -> item.change() == change);
  }

  /** Returns of how many demands this became. */
  long count(Change change) {
    return items.stream().filter(item -> item.change() == change).count();
  }

  /** Returns what became of the demands, one sentence without its stop. */
  String sentence() {
    List<String> said = new ArrayList<>();
    say("closed", Change.CLOSED, said);
    say("kept", Change.KEPT, said);
    say("lost", Change.LOST, said);
    say("still open", Change.OPEN, said);
    return "Since the earlier draft: " + (said.isEmpty() ? "no change" : String.join("; ", said));
  }

  private void say(String word, Change change, List<String> said) {
    List<String> names =
        items.stream().filter(item -> item.change() == change).map(Item::name).toList();
    if (!names.isEmpty()) {
      said.add(word + " " + String.join(", ", names));
    }
  }
}
