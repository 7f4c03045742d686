package everypart.analyzer.prompt;

import everypart.lexicon.DemandKind;
import everypart.lexicon.TaskMatch;
import everypart.lexicon.TaskRule;
import everypart.lexicon.TaskVerb;
import everypart.lexicon.TaskVerbs;
import everypart.lexicon.TokenRange;
import everypart.lexicon.WordLine;
import everypart.lexicon.WordSequence;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** Reads what kind of answer the words of a demand ask for. */
final class KindReader {
  private final AskedSentence at;
  private final TaskVerbs verbs;
  private final WordLine line;
  private final int size;
  private final Numbers numbers;
  private final List<Demand> demands;
  private final boolean supposedBefore;

  /**
   * Makes a reader.
   *
   * @param numbers what was counted and measured so far
   * @param demands those read before
   * @param supposedBefore whether the sentence before supposes a case
   */
  KindReader(AskedSentence at, Numbers numbers, List<Demand> demands, boolean supposedBefore) {
    this.at = at;
    this.verbs = at.verbs();
    this.line = at.line();
    this.size = at.size();
    this.numbers = numbers;
    this.demands = demands;
    this.supposedBefore = supposedBefore;
  }

  /**
   * Returns the kind.
   *
   * @param rule the rule that the demand was read by, when there is one
   * @param verb the verb that governs it
   */
  DemandKind kind(Optional<TaskRule> rule, Optional<TaskVerb> verb) {
    TaskRule.Reading reading = rule.map(TaskRule::reading).orElse(TaskRule.Reading.DEMAND);
    return switch (reading) {
      case FOLLOW_UP -> claimBefore() ? DemandKind.JUSTIFY : DemandKind.EXPLAIN;
      case AGAIN ->
          demands.isEmpty() ? DemandKind.IDENTIFY : demands.get(demands.size() - 1).kind();
      default ->
          rule.flatMap(TaskRule::kind)
              .orElseGet(() -> verb.map(TaskVerb::kind).orElse(DemandKind.IDENTIFY));
    };
  }

  /** Returns the rule that the words of a demand fall under, when one says more than the verb. */
  Optional<TaskMatch<TaskRule>> rule(Head head, int end, Optional<TaskVerb> verb) {
    return switch (head.form()) {
      case TRAILER ->
          head.rule()
              .map(rule -> new TaskMatch<>(rule, new TokenRange(head.from(), head.object())));
      case VERB ->
          head.verb()
              .flatMap(v -> verbs.object(v, line, head.object(), end, settings(head.object())));
      case INDIRECT ->
          verb.flatMap(v -> verbs.object(v, line, head.from(), end, settings(head.from())))
              .or(() -> verbs.question(line, head.from(), end, settings(head.from())));
      case QUESTION -> askedFor(head.from(), end);
      case YES_NO -> verbs.yesNo(line, head.from(), end, settings(head.from()));
    };
  }

  /** Reads a question; "do you think" is left out of it, which is about the rest. */
  private Optional<TaskMatch<TaskRule>> askedFor(int from, int end) {
    Set<TaskRule.Setting> settings = settings(from);
    for (int i = from + 1; i + 3 < Math.min(end, from + 8); i++) {
      if (at.is(i, "bareAux")
          && at.form(i + 1).equals("you")
          && at.is(i + 2, "thinking")
          && !at.form(from).equals("why")
          && !at.is(i + 3, "joinedPrep")) {
        WordLine rest = new WordLine(new Leaving(line, i, 3));
        TokenRange asked = new TokenRange(from, i);
        return verbs
            .question(rest, from, end - 3, settings)
            .map(match -> new TaskMatch<>(match.found(), asked));
      }
    }
    return verbs.question(line, from, end, settings);
  }

  private Set<TaskRule.Setting> settings(int from) {
    Set<TaskRule.Setting> settings = EnumSet.noneOf(TaskRule.Setting.class);
    if (supposedBefore || at.supposes()) {
      settings.add(TaskRule.Setting.SUPPOSED);
    }
    if (!demands.isEmpty()) {
      DemandKind last = demands.get(demands.size() - 1).kind();
      if (last == DemandKind.PROPOSE) {
        settings.add(TaskRule.Setting.PROPOSED);
      } else if (last == DemandKind.COMPARE) {
        settings.add(TaskRule.Setting.COMPARED);
      }
    }
    if (isNameIn(from + 1, from + 4)) {
      settings.add(TaskRule.Setting.NAMED);
    }
    if (numbers.areFigured()) {
      settings.add(TaskRule.Setting.FIGURED);
    }
    if (numbers.areMeasured()) {
      settings.add(TaskRule.Setting.MEASURED);
    }
    return settings;
  }

  private boolean isNameIn(int from, int to) {
    for (int i = from; i < Math.min(to, size); i++) {
      if (at.isCapital(i)) {
        return true;
      }
    }
    return false;
  }

  /** A run of words without some of them. */
  private record Leaving(WordSequence words, int at, int length) implements WordSequence {
    @Override
    public int size() {
      return words.size() - length;
    }

    @Override
    public String form(int i) {
      return words.form(i < at ? i : i + length);
    }

    @Override
    public String stem(int i) {
      return words.stem(i < at ? i : i + length);
    }
  }

  private boolean claimBefore() {
    for (int i = demands.size() - 1; i >= 0; i--) {
      DemandKind kind = demands.get(i).kind();
      if (Claims.KINDS.contains(kind)) {
        return true;
      }
      if (kind != DemandKind.JUSTIFY) {
        return false;
      }
    }
    return false;
  }
}
