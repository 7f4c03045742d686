package everypart.analyzer.prompt;

import everypart.analyzer.text.Span;
import everypart.lexicon.DemandKind;
import java.util.ArrayList;
import java.util.List;

/**
 * Ties the demands of a stretch together: alternatives, branches of the writer's own answer, one
 * that only counts or repeats what the one before asked.
 */
final class Ties {
  private final List<Demand> demands = new ArrayList<>();
  private final List<Boolean> branches = new ArrayList<>();

  /**
   * Tells whether a trailer only adds to the ground that the demand before asks for ("support your
   * answer with two reasons"), and lets it say how many.
   */
  boolean repeatsGround(Head head, DemandKind kind, Counter.Count count) {
    int last = demands.size() - 1;
    boolean repeats =
        head.form() == Head.Opening.TRAILER
            && kind == DemandKind.JUSTIFY
            && last >= 0
            && demands.get(last).kind() == kind;
    if (repeats && count.number() > 1) {
      demands.set(last, demands.get(last).times(count.number(), count.source(), ""));
    }
    return repeats;
  }

  /** Returns the demands so far, as they grow. */
  List<Demand> demands() {
    return demands;
  }

  /**
   * Takes in a demand.
   *
   * @param mayBeLeft whether it may be left out
   */
  void add(AskedSentence at, Head head, Demand demand, boolean mayBeLeft) {
    boolean branch = inOwnBranch(at, head.from());
    int last = demands.size() - 1;
    boolean same = last >= 0 && demands.get(last).kind() == demand.kind();
    boolean bothBranches = branch && last >= 0 && branches.get(last);
    boolean other = bothBranches || (last >= 0 && at.form(head.from() - 1).equals("or"));
    if (same && demand.count() > 1 && !at.isBullet() && onlyCounts(at, head)) {
      demands.set(last, demands.get(last).times(demand.count(), demand.asking().counted(), ""));
      return;
    }
    if (other && same) {
      Demand first =
          demands.get(last).saying(Sayings.of(bothBranches ? "why.oneBranch" : "why.oneOfTwo"));
      demands.set(last, alternative(first, demand));
      return;
    }
    branches.add(branch);
    if (mayBeLeft) {
      demands.add(demand.as(Standing.OPTIONAL, Sayings.of("why.optional")));
    } else if (other) {
      demands.add(demand.as(Standing.ALTERNATIVE, Sayings.of("why.alternative")));
    } else {
      boolean either = !demand.asking().alternatives().isEmpty();
      demands.add(either ? demand.saying(Sayings.of("why.oneOfTwo")) : demand);
    }
  }

  private static Demand alternative(Demand demand, Demand other) {
    List<Span> others = new ArrayList<>(demand.asking().alternatives());
    others.add(other.span());
    return demand.worded(demand.asking().withAlternatives(others));
  }

  /** "Write about three differences" says how many of what was asked before. */
  private static boolean onlyCounts(AskedSentence at, Head head) {
    return head.verb().map(verb -> at.verbs().isIn("countingOnly", verb.form())).orElse(false);
  }

  /** "If you predicted a fall, explain ...": one of the branches of the writer's own answer. */
  private static boolean inOwnBranch(AskedSentence at, int from) {
    for (int i = from - 1; i >= 0; i--) {
      if (at.form(i).equals("if")) {
        return at.is(i + 1, "ownBranch");
      }
    }
    return false;
  }

  /**
   * "How does it get there? Explain.", "What do you see? Describe it.", "Why is it so? Explain your
   * reasoning." and "Is it right? Give your view." ask once.
   */
  boolean saysAgain(AskedSentence at, Head head, int end, DemandKind kind) {
    if (demands.isEmpty() || head.form() != Head.Opening.VERB || head.from() > at.start()) {
      return false;
    }
    DemandKind last = demands.get(demands.size() - 1).kind();
    boolean own = at.is(head.object(), "writersOwn");
    if (own
        && ((kind == DemandKind.EVALUATE && last == kind)
            || (kind == DemandKind.JUSTIFY && last == DemandKind.EXPLAIN))) {
      return true;
    }
    boolean bare = true;
    for (int i = head.object(); i < end; i++) {
      bare &= !at.token(i).isWord() || at.form(i).equals("it");
    }
    return bare && (kind == DemandKind.DESCRIBE || last == kind);
  }
}
