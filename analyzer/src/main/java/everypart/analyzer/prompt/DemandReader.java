package everypart.analyzer.prompt;

import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.Span;
import everypart.analyzer.text.Tagger;
import everypart.analyzer.text.Text;
import everypart.analyzer.text.TextReader;
import everypart.analyzer.text.Token;
import everypart.lexicon.DemandKind;
import everypart.lexicon.TaskMatch;
import everypart.lexicon.TaskRule;
import everypart.lexicon.TaskVerb;
import everypart.lexicon.TaskVerbs;
import everypart.lexicon.WordLine;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;

/**
 * Reads the demands of a stretch of wording, sentence by sentence, in steps: {@link HeadFinder}
 * finds where the asking clauses begin (the start of a clause, words such as "you should", a
 * question word or verb joined to another demand), each running on to the next; {@link KindReader}
 * tells by the rules of {@link TaskVerbs} what they ask for; {@link Counter} counts; {@link
 * DemandWording} words what they are about; {@link Ties} ties them together.
 */
final class DemandReader {
  private static final Set<DemandKind> UNCOUNTED =
      EnumSet.of(DemandKind.REPRESENT, DemandKind.EVALUATE);

  private final TaskVerbs verbs;
  private final TextReader texts;
  private final Tagger tagger = new Tagger();

  DemandReader(TaskVerbs verbs, TextReader texts) {
    this.verbs = verbs;
    this.texts = texts;
  }

  /**
   * What was read.
   *
   * @param demands the demands; spans count in the wording's text
   * @param remarks what was set aside
   * @param told the sentences that tell something and ask nothing
   */
  record DemandsRead(List<Demand> demands, List<Remark> remarks, List<Span> told) {}

  /**
   * Reads the demands of a stretch.
   *
   * @param wording the whole wording
   * @param from where the stretch begins
   * @param to where it ends
   * @param numbers how many of each thing the text before it names
   * @param items how many listed items follow the stretch, 0 when none
   */
  DemandsRead read(PlainWording wording, int from, int to, Numbers numbers, int items) {
    Text text = texts.read(wording.text().substring(from, to));
    return new Stretch(wording, from, numbers, items).read(text);
  }

  /** Takes in the numbers of a sentence of the text before the first part. */
  void learn(Sentence sentence, PlainWording wording, Numbers numbers) {
    BitSet closed = new BitSet();
    for (int i = 0; i < sentence.size(); i++) {
      Token token = sentence.tokens().get(i);
      closed.set(i, wording.isQuiet(token.start(), token.end()));
    }
    numbers.learn(new WordLine(sentence), closed);
  }

  /**
   * Reads a stretch in which no demand was found once more, for a command whose verb the lexicon
   * does not know ("Transcribe the sequence."). Tags tell a command from a statement.
   */
  Optional<Demand> byUnknownVerb(PlainWording wording, int from, int to) {
    Text text = texts.read(wording.text().substring(from, to));
    for (Sentence sentence : text.sentences()) {
      Token first = sentence.tokens().get(0);
      boolean candidate =
          sentence.size() > 2
              && first.isWord()
              && !wording.isQuiet(from + first.start(), from + first.end())
              && !verbs.isAside(new WordLine(sentence), 0)
              && !verbs.isOpening(first.form())
              && verbs.verb(first.form()).isEmpty();
      if (candidate && isCommand(tagger.tags(text, sentence), first.form())) {
        return Optional.of(
            new Demand(
                DemandKind.IDENTIFY,
                first.form(),
                1,
                new Span(from + first.start(), from + sentence.end()),
                About.of(new AskedSentence(verbs, sentence, wording, from), 1, sentence.size()),
                List.of(),
                Sayings.of("why.unknownVerb", first.form())));
      }
    }
    return Optional.empty();
  }

  /**
   * Returns the sentence of a stretch without demands that a person should look at: a question,
   * else one that speaks to the writer or holds a task verb, else the last.
   */
  Span likeliest(PlainWording wording, int from, int to) {
    Text text = texts.read(wording.text().substring(from, to));
    Span best = new Span(from, to);
    int most = -1;
    for (Sentence sentence : text.sentences()) {
      int signs = signs(sentence);
      if (signs >= most) {
        most = signs;
        best = new Span(from + sentence.start(), from + sentence.end());
      }
    }
    return best;
  }

  private int signs(Sentence sentence) {
    WordLine line = new WordLine(sentence);
    int signs = 0;
    for (int i = 0; i < line.size(); i++) {
      String form = line.form(i);
      if (form.startsWith("?")) {
        return 2;
      }
      if (form.equals("you") || form.equals("your") || verbs.verbAt(line, i).isPresent()) {
        signs = 1;
      }
    }
    return signs;
  }

  private static boolean isCommand(List<String> tags, String form) {
    return tags.get(0).equals("VERB")
        && !form.endsWith("ed")
        && !form.endsWith("ing")
        && tags.stream().skip(1).noneMatch(tag -> tag.equals("AUX"));
  }

  /** The reading of one stretch. */
  private final class Stretch {
    private final PlainWording wording;
    private final int offset;
    private final Numbers numbers;
    private final int itemsAfter;
    private final Ties ties = new Ties();
    private final List<Remark> remarks = new ArrayList<>();
    private final List<Span> told = new ArrayList<>();
    private boolean supposedBefore;
    private boolean listAnnounced;
    private boolean optional;

    Stretch(PlainWording wording, int offset, Numbers numbers, int itemsAfter) {
      this.wording = wording;
      this.offset = offset;
      this.numbers = numbers;
      this.itemsAfter = itemsAfter;
    }

    DemandsRead read(Text text) {
      List<Sentence> sentences = Sentences.joined(text, offset, wording);
      int[] bullets = Sentences.bulletsAfter(verbs, sentences);
      for (int i = 0; i < sentences.size(); i++) {
        read(
            new AskedSentence(verbs, sentences.get(i), wording, offset),
            bullets[i] > 0 ? bullets[i] : itemsAfter);
      }
      return new DemandsRead(List.copyOf(ties.demands()), List.copyOf(remarks), List.copyOf(told));
    }

    /**
     * Reads a sentence.
     *
     * @param items how many listed items follow it
     */
    private void read(AskedSentence at, int items) {
      numbers.learn(at.line(), at.closed());
      boolean inPassing = findOptional(at);
      if (at.start() >= at.size()) {
        return;
      }
      HeadFinder finder = new HeadFinder(at, ties.demands(), listAnnounced);
      List<Head> heads = finder.find();
      KindReader kinds = new KindReader(at, numbers, ties.demands(), supposedBefore);
      DemandWording words = new DemandWording(at, heads, ties.demands());
      Optional<TaskVerb> verb = Optional.empty();
      for (int h = 0; h < heads.size(); h++) {
        Head head = heads.get(h);
        int end = at.trimEnd(head.object(), startOf(heads, h + 1, at.size()));
        if (sharesObject(at, heads, h)) {
          Head next = heads.get(h + 1);
          head = Head.of(head.verb().orElseThrow(), head.from(), next.object());
          end = at.trimEnd(next.object(), startOf(heads, h + 2, at.size()));
        }
        if (head.form() == Head.Opening.VERB) {
          verb = head.verb();
        }
        Optional<TaskMatch<TaskRule>> match = kinds.rule(head, end, verb);
        Optional<TaskRule> rule = match.map(TaskMatch::found);
        if (rule.map(r -> r.reading() == TaskRule.Reading.SET_ASIDE).orElse(false)) {
          setAside(at);
          continue;
        }
        DemandKind kind = kinds.kind(rule, verb);
        if (ties.saysAgain(at, head, end, kind)) {
          continue;
        }
        Counter.Count count =
            new Counter(at, numbers, ties.demands(), kind, head, end, items).count(rule);
        if (ties.repeatsGround(head, kind, count)) {
          continue;
        }
        boolean ordering = verb.map(v -> v.group().equals("ordering")).orElse(false);
        boolean one = UNCOUNTED.contains(kind) || head.form() == Head.Opening.YES_NO || ordering;
        Demand demand = words.demand(head, end, kind, match, verb, one ? Counter.Count.ONE : count);
        ties.add(at, head, demand, optional || inPassing);
      }
      if (heads.isEmpty() && at.isAside()) {
        setAside(at);
      } else {
        directions(at);
      }
      if (heads.isEmpty() && !at.isAside()) {
        told.add(at.whole());
      }
      supposedBefore = at.supposes();
      listAnnounced = at.announcesList() || listAnnounced;
    }

    private int startOf(List<Head> heads, int place, int end) {
      return place < heads.size() ? heads.get(place).from() : end;
    }

    /** "Name and briefly explain the two laws": one object for both verbs. */
    private boolean sharesObject(AskedSentence at, List<Head> heads, int h) {
      return h + 1 < heads.size()
          && heads.get(h + 1).form() == Head.Opening.VERB
          && at.is(heads.get(h).object(), "join");
    }

    /** Looks for "bonus:", "(optional)" and the like, which may hold for the rest of the part. */
    private boolean findOptional(AskedSentence at) {
      for (int i = 0; i < at.size(); i++) {
        OptionalInt end = verbs.optional(at.line(), i);
        if (end.isPresent()) {
          optional |= at.form(i).equals("(") || at.form(end.getAsInt() - 1).equals(":");
          return true;
        }
      }
      return false;
    }

    /**
     * Remarks on words such as "use the graph": they are no demand, but the author should see them.
     */
    private void directions(AskedSentence at) {
      for (int i = at.start(); i < at.size(); i++) {
        OptionalInt end = verbs.direction(at.line(), i);
        if (end.isPresent()) {
          remarks.add(
              new Remark(
                  Remark.Kind.SET_ASIDE,
                  at.span(i, at.trimEnd(i, end.getAsInt())),
                  Sayings.of("remark.direction")));
          return;
        }
      }
    }

    private void setAside(AskedSentence at) {
      remarks.add(new Remark(Remark.Kind.SET_ASIDE, at.whole(), Sayings.of("remark.instruction")));
    }
  }
}
