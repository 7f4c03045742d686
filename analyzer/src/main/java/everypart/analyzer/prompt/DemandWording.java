package everypart.analyzer.prompt;

import everypart.analyzer.text.Span;
import everypart.lexicon.AnswerForm;
import everypart.lexicon.DemandKind;
import everypart.lexicon.TaskMatch;
import everypart.lexicon.TaskRule;
import everypart.lexicon.TaskVerb;
import everypart.lexicon.TaskVerbs;
import everypart.lexicon.WordLine;
import java.util.List;
import java.util.Optional;

/** Words a demand that was read: what it is about, why it was read, and how it asks. */
final class DemandWording {
  private final AskedSentence at;
  private final TaskVerbs verbs;
  private final WordLine line;
  private final int size;
  private final int start;
  private final List<Head> heads;
  private final List<Demand> demands;

  DemandWording(AskedSentence at, List<Head> heads, List<Demand> demands) {
    this.at = at;
    this.verbs = at.verbs();
    this.line = at.line();
    this.size = at.size();
    this.start = at.start();
    this.heads = heads;
    this.demands = demands;
  }

  /** Returns a demand in words. */
  Demand demand(
      Head head,
      int end,
      DemandKind kind,
      Optional<TaskMatch<TaskRule>> match,
      Optional<TaskVerb> verb,
      Counter.Count count) {
    String name = name(head, match);
    return new Demand(
            kind,
            name,
            count.number(),
            at.span(head.from(), end),
            about(head, end, kind),
            List.of(),
            why(head, spoken(head, name, match), match.map(TaskMatch::found), verb))
        .worded(
            asking(head, end, kind, count.source())
                .withOther(other(kind, match.map(TaskMatch::found), count)));
  }

  /** The other reading: of the kind by the rule, of the count where a mere list was counted. */
  private static Optional<Asking.OtherReading> other(
      DemandKind kind, Optional<TaskRule> rule, Counter.Count count) {
    Optional<DemandKind> or = rule.flatMap(TaskRule::or).filter(other -> other != kind);
    if (or.isEmpty() && count.source() == CountSource.JOINED) {
      return Optional.of(new Asking.OtherReading(kind, 1));
    }
    return or.map(other -> new Asking.OtherReading(other, count.number()));
  }

  private Asking asking(Head head, int end, DemandKind kind, CountSource counted) {
    int from = head.topic();
    List<Span> options = Options.in(at, from, end).spans(at);
    AnswerForm form = Asking.of(kind).form();
    if (head.form() == Head.Opening.YES_NO) {
      form = AnswerForm.YES_NO;
    } else if (from < end) {
      form = verbs.answerForm(line, from, end).orElse(form);
    }
    List<String> choices =
        form == AnswerForm.OPEN ? List.of() : options.stream().map(at::raw).toList();
    Asking asking =
        Asking.of(
            choices.isEmpty() ? form : AnswerForm.OPTION,
            choices,
            condition(head, end),
            verbs.aspects(line, head.from(), end),
            counted);
    return options.size() > 1 && isEither(head.from(), from)
        ? asking.withAlternatives(options.subList(1, options.size()))
        : asking;
  }

  private boolean isEither(int from, int object) {
    for (int i = from; i <= Math.min(object, size - 1); i++) {
      if (line.form(i).equals("either")) {
        return true;
      }
    }
    return false;
  }

  /** The case that a demand supposes, before or behind its words. */
  private Optional<Span> condition(Head head, int end) {
    if (head.equals(heads.get(0))
        && head.from() > start
        && verbs.isIn("condition", line.form(start))) {
      return Optional.of(at.span(start, at.trimEnd(start, head.from())));
    }
    for (int i = head.from() + 1; i < end; i++) {
      if (verbs.isIn("supposing", line.form(i))
          && !(line.form(i).equals("if") && i == head.object())) {
        int last = end;
        while (last > i + 1 && !at.token(last - 1).isWord()) {
          last--;
        }
        return Optional.of(at.span(i, last));
      }
    }
    return Optional.empty();
  }

  private String about(Head head, int end, DemandKind kind) {
    String about = About.of(at, head.topic(), end);
    boolean pointsBack =
        about.isEmpty() || (kind == DemandKind.JUSTIFY && About.isOwnAnswer(verbs, about));
    if (pointsBack && !demands.isEmpty()) {
      return demands.get(demands.size() - 1).about();
    }
    if (head.equals(heads.get(0))
        && at.isOpening()
        && head.from() > start
        && verbs.isIn("condition", line.form(start))) {
      String condition = About.condition(at, start, head.from());
      return condition.isEmpty() ? about : about + ", " + condition;
    }
    return about;
  }

  private String name(Head head, Optional<TaskMatch<TaskRule>> match) {
    if (head.form() == Head.Opening.VERB) {
      return head.verb().map(TaskVerb::form).orElse("");
    }
    if (head.form() == Head.Opening.TRAILER) {
      return at.words(head.from(), Math.min(head.object(), head.from() + 4));
    }
    int to = head.from() + 1;
    if (match.isPresent() && match.get().range().length() <= 4) {
      to = Math.max(to, match.get().range().to());
    } else if (verbs.isIn("aux", at.form(to))
        || verbs.isIn("beforeQuestionWord", line.form(head.from()))) {
      to = Math.min(size, to + 1);
    }
    while (to > head.from() + 1 && !at.token(to - 1).isWord()) {
      to--;
    }
    return at.words(head.from(), to);
  }

  /** Returns the words a rule was matched by, as in "how would ... affect". */
  private String spoken(Head head, String name, Optional<TaskMatch<TaskRule>> match) {
    if (head.form() == Head.Opening.VERB || match.isEmpty() || match.get().range().length() <= 4) {
      return name;
    }
    int last = Math.min(match.get().range().to(), size) - 1;
    while (last > head.from() && !at.token(last).isWord()) {
      last--;
    }
    return name + " ... " + at.words(last, last + 1);
  }

  private String why(Head head, String name, Optional<TaskRule> rule, Optional<TaskVerb> verb) {
    String asks =
        rule.map(TaskRule::why)
            .filter(why -> !why.isEmpty())
            .or(() -> verb.filter(v -> head.form() == Head.Opening.VERB).map(TaskVerb::why))
            .orElse(Sayings.of("why.fact"));
    return Sayings.of(asks.startsWith("asks") ? "why.asks" : "why.says", name, asks);
  }
}
