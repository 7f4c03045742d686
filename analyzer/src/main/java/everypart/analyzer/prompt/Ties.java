package everypart.analyzer.prompt;

import everypart.analyzer.text.Span;
import everypart.lexicon.DemandKind;
import everypart.lexicon.TaskVerb;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/**
 * Ties the demands of a stretch together: alternatives, branches of the writer's own answer, one
 * that only counts or repeats what the one before asked.
 */
final class Ties {
  private static final String ONE_OF_TWO = "; of the alternatives one is enough";
  private static final String ONE_BRANCH =
      "; only the branch that fits the writer's own answer is asked for";

  private final List<Demand> demands = new ArrayList<>();
  private final List<Boolean> branches = new ArrayList<>();

  /**
   * Tells whether a trailer only adds to the ground that the demand before asks for ("support your
   * answer with two reasons"), and lets it say how many.
   */
  boolean repeatsGround(Head head, DemandKind kind, int place, Counter.Count count) {
    int last = demands.size() - 1;
    boolean repeats =
        kind == DemandKind.JUSTIFY
            && head.form() == Head.Form.TRAILER
            && place > 0
            && last >= 0
            && demands.get(last).kind() == DemandKind.JUSTIFY;
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
    if (branch && last >= 0 && branches.get(last) && demands.get(last).kind() == demand.kind()) {
      demands.set(last, alternative(demands.get(last).saying(ONE_BRANCH), demand));
      return;
    }
    if (last >= 0
        && demands.get(last).kind() == demand.kind()
        && demand.count() > 1
        && demands.get(last).count() == 1
        && onlyCounts(at, head)) {
      demands.set(last, demands.get(last).times(demand.count(), demand.asking().counted(), ""));
      return;
    }
    boolean other = last >= 0 && (isAlternative(at, head) || (branch && branches.get(last)));
    if (other && demands.get(last).kind() == demand.kind()) {
      demands.set(last, alternative(demands.get(last).saying(ONE_OF_TWO), demand));
      return;
    }
    branches.add(branch);
    if (mayBeLeft) {
      demands.add(demand.as(Standing.OPTIONAL, "; it may be left out"));
    } else if (other) {
      demands.add(demand.as(Standing.ALTERNATIVE, "; it may take the place of the one before"));
    } else {
      demands.add(isEither(at, head, demand) ? demand.saying(ONE_OF_TWO) : demand);
    }
  }

  private static Demand alternative(Demand demand, Demand other) {
    List<Span> others = new ArrayList<>(demand.asking().alternatives());
    others.add(other.span());
    return demand.worded(demand.asking().withAlternatives(others));
  }

  /** "Write about three differences" says how many of what was asked before. */
  private static boolean onlyCounts(AskedSentence at, Head head) {
    String verb = head.verb().map(TaskVerb::form).orElse("");
    return Set.of("write about", "mention", "include", "consider", "talk about", "discuss")
            .contains(verb)
        && at.size() - head.object() <= 5;
  }

  /** "Describe either the coast or the hills". */
  private static boolean isEither(AskedSentence at, Head head, Demand demand) {
    if (head.form() != Head.Form.VERB) {
      return false;
    }
    boolean either = false;
    for (int i = head.from(); i < at.size(); i++) {
      if (at.span(i, i + 1).start() >= demand.span().end()) {
        return false;
      }
      either |= at.form(i).equals("either");
      if (either && at.form(i).equals("or")) {
        return true;
      }
    }
    return false;
  }

  private static boolean isAlternative(AskedSentence at, Head head) {
    return head.from() > at.start() && at.form(head.from() - 1).equals("or");
  }

  /** "If you predicted a fall, explain ...": one of the branches of the writer's own answer. */
  private static boolean inOwnBranch(AskedSentence at, int from) {
    for (int i = from - 1; i >= 0; i--) {
      if (at.form(i).equals(";")) {
        return false;
      }
      if (at.form(i).equals("if") && i + 1 < at.size()) {
        return Set.of("you", "your", "yes", "no", "not", "so").contains(at.form(i + 1));
      }
    }
    return false;
  }

  /**
   * "How does it get there? Explain.", "What do you see? Describe it.", "Why is it so? Explain your
   * reasoning." and "Is it right? Give your view." ask once.
   */
  boolean saysAgain(AskedSentence at, Head head, int end, DemandKind kind) {
    if (demands.isEmpty() || head.form() != Head.Form.VERB || head.from() > at.start()) {
      return false;
    }
    DemandKind last = demands.get(demands.size() - 1).kind();
    boolean own =
        at.is(head.object(), "writersOwn")
            && (head.object() + 2 >= end || !at.token(head.object() + 2).isWord());
    if (own && kind == DemandKind.EVALUATE && last == kind) {
      return true;
    }
    if (own && kind == DemandKind.JUSTIFY && last == DemandKind.EXPLAIN) {
      return head.isIn("explaining");
    }
    boolean bare = true;
    for (int i = head.object(); i < end; i++) {
      bare &= !at.token(i).isWord() || at.form(i).equals("it");
    }
    return bare && (kind == DemandKind.DESCRIBE || last == kind);
  }
}
