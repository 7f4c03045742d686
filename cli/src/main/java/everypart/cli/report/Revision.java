package everypart.cli.report;

import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.coverage.DemandCoverage;
import everypart.analyzer.coverage.PartCoverage;
import everypart.analyzer.coverage.Verdict;
import everypart.analyzer.text.Span;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;

/** What became of each demand from an earlier draft to a later one. */
public final class Revision {
  /** What became of a demand. */
  enum Change {
    /** Open before, addressed now. */
    CLOSED,
    /** More of it is found than before, and not yet all. */
    NEARER,
    /** Addressed before and now, and the words that answered it still stand. */
    KEPT,
    /** Addressed before and now, by other words: the old ones are gone. */
    CHANGED,
    /** Less of it is found than before. */
    LOST,
    /** Open before and now. */
    OPEN,
    /** It cannot be read from text. */
    UNCHECKED;

    String word() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  private static final Pattern WORD = Pattern.compile("[\\p{L}\\p{N}]+");

  /**
   * An answer still stands where so many of its pairs of neighbouring words do: a word put in or
   * mended breaks two pairs (common practice, no source).
   */
  private static final double STILL_STANDS = 0.6;

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
                change(earlier, earlier.parts().get(p).demands().get(d), now, demand)));
      }
    }
  }

  private static Change change(
      Coverage earlier, DemandCoverage before, Coverage now, DemandCoverage after) {
    if (before.verdict() == Verdict.UNCHECKED || after.verdict() == Verdict.UNCHECKED) {
      return Change.UNCHECKED;
    }
    boolean was = before.verdict() == Verdict.ADDRESSED;
    boolean is = after.verdict() == Verdict.ADDRESSED;
    if (was && is) {
      return stands(earlier, before, now) ? Change.KEPT : Change.CHANGED;
    }
    if (is) {
      return Change.CLOSED;
    }
    int gained = Integer.compare(level(after), level(before));
    return gained > 0 ? Change.NEARER : gained < 0 ? Change.LOST : Change.OPEN;
  }

  /** How much of a demand is found: its verdict first, then how many of those asked for. */
  private static int level(DemandCoverage demand) {
    return switch (demand.verdict()) {
      case ADDRESSED -> Integer.MAX_VALUE;
      case PARTLY -> 1 + demand.found();
      case MISSING, UNCHECKED -> 0;
    };
  }

  /** Tells whether words that answered a demand in the earlier draft stand in the later one. */
  private static boolean stands(Coverage earlier, DemandCoverage before, Coverage now) {
    if (before.evidence().isEmpty()) {
      return true; // there were no words to lose, as when a teacher decided
    }
    List<String> text = words(now.text());
    Set<String> pairs = new HashSet<>(text);
    for (int i = 0; i + 1 < text.size(); i++) {
      pairs.add(text.get(i) + " " + text.get(i + 1));
    }
    for (Span span : before.evidence()) {
      List<String> old = words(span.of(earlier.text()));
      long there = 0;
      int of = Math.max(1, old.size() - 1);
      for (int i = 0; i < of && !old.isEmpty(); i++) {
        String pair = old.size() == 1 ? old.get(0) : old.get(i) + " " + old.get(i + 1);
        there += pairs.contains(pair) ? 1 : 0;
      }
      if (there >= STILL_STANDS * of) {
        return true;
      }
    }
    return false;
  }

  private static List<String> words(String text) {
    return WORD.matcher(text.toLowerCase(Locale.ROOT)).results().map(MatchResult::group).toList();
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
    for (Change change : Change.values()) {
      if (change != Change.UNCHECKED) {
        say(Wording.of("change." + change.word()), change, said);
      }
    }
    return Wording.of(
        "change.sentence",
        "what",
        said.isEmpty() ? Wording.of("change.none") : String.join("; ", said));
  }

  private void say(String word, Change change, List<String> said) {
    List<String> names =
        items.stream().filter(item -> item.change() == change).map(Item::name).toList();
    if (!names.isEmpty()) {
      said.add(word + " " + String.join(", ", names));
    }
  }
}
