package everypart.analyzer.judge;

import everypart.analyzer.judge.WordClasses.Form;
import everypart.analyzer.judge.WordClasses.Stem;
import everypart.analyzer.prompt.Demand;
import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.Token;
import everypart.lexicon.AnswerForm;
import everypart.lexicon.Aspect;
import everypart.lexicon.ConceptMatch;
import everypart.lexicon.CueMatch;
import everypart.lexicon.CueType;
import everypart.lexicon.DemandKind;
import everypart.lexicon.Lexicon;
import everypart.lexicon.TokenRange;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Describes a demand and the text its part got by named numbers, each between 0 and about 1. What
 * they tell of a demand is learned, not written here.
 */
final class Features {
  private final Lexicon lexicon;
  private final WordClasses words;

  /** Each family of cues as it is found, and the name of its feature. */
  private final Map<String, String> families = new LinkedHashMap<>();

  /** The names of the features, in their order, once they were set: of a text, and of none. */
  private volatile Values.@Nullable Names names;

  private volatile Values.@Nullable Names namesOfNone;
  private volatile Values.@Nullable Names textNames;

  /**
   * What is told of the text of a part, whatever is demanded: made once for all its demands.
   *
   * @param answer the text that the part got
   * @param rest the rest of the response
   * @param said the words of substance in the text
   * @param weights for each clause the weight of its new words, the highest first
   * @param values the features of the text
   */
  record OfText(
      Answer answer, Answer rest, Set<String> said, List<Double> weights, Values values) {}

  Features(Lexicon lexicon, WordClasses words) {
    this.lexicon = lexicon;
    this.words = words;
    for (CueType type : CueType.values()) {
      for (String family : lexicon.cueFamilies(type)) {
        String found = type.word() + " " + family;
        families.put(found, "family " + found);
      }
    }
  }

  /** Returns what is told of the text of a part. */
  OfText of(PartWords part, Answer answer, Answer rest) {
    Values.Names known = textNames;
    Values values = known == null ? new Values() : new Values(known);
    int demands = part.part.demands().size();
    Set<String> said = new HashSet<>();
    List<Double> weights = new ArrayList<>();
    labels(values, answer, rest);
    size(values, answer, demands);
    newness(values, part, answer, demands, said, weights);
    cues(values, part, answer);
    roles(values, part, answer);
    classes(values, answer);
    numbers(values, part, answer);
    concepts(values, part, answer);
    if (known == null) {
      textNames = values.names();
    }
    return new OfText(answer, rest, said, weights, values);
  }

  /** Returns the features of a demand, by its place in the part. */
  Values of(PartWords part, int place, OfText text) {
    boolean none = text.answer().isEmpty();
    Values.Names known = none ? namesOfNone : names;
    Values values = known == null ? new Values() : new Values(known);
    values.setAll(part.frames.get(place));
    values.setAll(text.values());
    rest(values, part, place, text.rest(), none);
    newness(values, part, place, text);
    choices(values, part, place, text.answer(), part.part.demands().get(place));
    apart(values, text.answer());
    if (known == null) {
      share(values.names(), none);
    }
    return values;
  }

  private void share(Values.Names made, boolean none) {
    if (none) {
      namesOfNone = made;
    } else {
      names = made;
    }
  }

  /** Returns the features of a demand that no response changes. */
  static Values frame(List<Demand> all, int place, boolean several) {
    Demand demand = all.get(place);
    Values values = new Values();
    values.set("frame several parts", several);
    values.set("frame place", Math.min(place, 3) / 3.0);
    values.set("frame last", place == all.size() - 1);
    values.set("frame demands", Math.min(all.size(), 5) / 5.0);
    values.set("frame only", all.size() == 1);
    boolean same = false;
    for (int i = 0; i < place; i++) {
      same |= all.get(i).kind() == demand.kind();
    }
    values.set("frame kind again", same);
    for (DemandKind kind : DemandKind.values()) {
      values.set("frame before " + kind.word(), place > 0 && all.get(place - 1).kind() == kind);
      values.set(
          "frame after " + kind.word(),
          place + 1 < all.size() && all.get(place + 1).kind() == kind);
    }
    for (AnswerForm form : AnswerForm.values()) {
      values.set("frame form " + form.word(), demand.asking().form() == form);
    }
    for (Aspect aspect : Aspect.values()) {
      values.set(
          "frame aspect " + aspect.name().toLowerCase(Locale.ROOT),
          demand.asking().aspects().contains(aspect));
    }
    values.set("frame condition", demand.asking().condition().isPresent());
    values.set("frame count", Math.min(demand.count() - 1, 3) / 3.0);
    return values;
  }

  /**
   * What the rest of the response says of the demand: the clause that shares most with its words.
   */
  private void rest(Values values, PartWords part, int place, Answer rest, boolean none) {
    Vocabulary asked = part.asked.get(place);
    double best = 0;
    Clause nearest = null;
    for (Clause clause : rest.clauses()) {
      double shared = 0;
      for (String word : clause.content()) {
        shared += asked.has(word) ? lexicon.weights().weight(word) : 0;
      }
      if (shared > best) {
        best = shared;
        nearest = clause;
      }
    }
    double fresh = 0;
    Set<CueType> types = new HashSet<>();
    if (nearest != null) {
      for (Clause clause : rest.clauses()) {
        if (clause.sentenceIndex() == nearest.sentenceIndex()) {
          for (String word : clause.content()) {
            fresh += part.all.has(word) ? 0 : lexicon.weights().weight(word);
          }
        }
      }
      for (Answer.Said said : rest.sentences()) {
        if (said.index() == nearest.sentenceIndex()) {
          said.cues().forEach(cue -> types.add(cue.type()));
        }
      }
    }
    for (String when : none ? List.of("rest ", "only rest ") : List.of("rest ")) {
      values.set(when + "clauses", log(rest.clauses().size(), 4));
      values.set(when + "asked words", log(best, 3));
      values.set(when + "new words beside them", log(fresh, 3));
      for (CueType type :
          List.of(
              CueType.CAUSE_EFFECT,
              CueType.PREDICTION,
              CueType.REASON,
              CueType.EVIDENCE,
              CueType.COMPARISON,
              CueType.DEFINITION,
              CueType.QUANTITY,
              CueType.JUDGEMENT,
              CueType.CHOICE,
              CueType.PROCEDURE)) {
        values.set(when + type.word(), types.contains(type));
      }
    }
  }

  /** Tells how much of the text is placed by the writer's own labels, here and in other parts. */
  private static void labels(Values values, Answer answer, Answer rest) {
    values.set("label own", answer.labelled());
    values.set("label rest", rest.labelled());
    values.set("label rest and none here", answer.isEmpty() ? rest.labelled() : 0);
    values.set("label here only", rest.labelled() == 0 ? answer.labelled() : 0);
  }

  private static void size(Values values, Answer answer, int demands) {
    int tokens = answer.clauses().stream().mapToInt(Clause::size).sum();
    values.set("size none", tokens == 0);
    values.set("size words", log(tokens, 5));
    values.set("size words a demand", log((double) tokens / demands, 5));
    values.set("size one word", tokens == 1);
    values.set("size to three", tokens > 0 && tokens <= 3);
    values.set("size to six", tokens > 0 && tokens <= 6);
    values.set("size clauses", log(answer.clauses().size(), 3));
    values.set("size clauses a demand", log((double) answer.clauses().size() / demands, 3));
    values.set("size sentences", log(answer.sentences().size(), 3));
    values.set("size fewer clauses than demands", answer.clauses().size() < demands);
  }

  private void newness(
      Values values,
      PartWords part,
      Answer answer,
      int demands,
      Set<String> said,
      List<Double> weights) {
    Set<String> fresh = new HashSet<>();
    Set<String> newToPart = new HashSet<>();
    double weight = 0;
    double best = 0;
    double bestWeight = 0;
    int clausesWithNew = 0;
    for (Clause clause : answer.clauses()) {
      double own = 0;
      double ownWeight = 0;
      for (String word : clause.content()) {
        said.add(word);
        if (!part.own.has(word)) {
          newToPart.add(word);
        }
        if (!part.all.has(word)) {
          own++;
          double rarity = lexicon.weights().weight(word);
          ownWeight += rarity;
          if (fresh.add(word)) {
            weight += rarity;
          }
        }
      }
      clausesWithNew += own > 0 ? 1 : 0;
      weights.add(ownWeight);
      best = Math.max(best, own);
      bestWeight = Math.max(bestWeight, ownWeight);
    }
    weights.sort((a, b) -> Double.compare(b, a));
    values.set("new none", fresh.isEmpty());
    values.set("new words", log(fresh.size(), 4));
    values.set("new words a demand", log((double) fresh.size() / demands, 4));
    values.set("new weight", log(weight, 4));
    values.set("new to the part", log(newToPart.size(), 4));
    values.set("new share", said.isEmpty() ? 0 : (double) fresh.size() / said.size());
    values.set(
        "new share to the part", said.isEmpty() ? 0 : (double) newToPart.size() / said.size());
    values.set("new in one clause", log(best, 3));
    values.set("new weight in one clause", log(bestWeight, 3));
    values.set("new weight behind the first", log(nth(weights, 1), 3));
    values.set("new weight behind all demands", log(nth(weights, demands - 1), 3));
    values.set("new clauses", log(clausesWithNew, 3));
    values.set("new clauses fewer than demands", clausesWithNew < demands);
    values.set("said nothing of substance", said.isEmpty());
    Set<String> runs = new HashSet<>();
    int handed = 0;
    for (Answer.Said sentence : answer.sentences()) {
      PartWords.addRuns(sentence.sentence(), runs);
      handed += part.copied.holds(sentence.sentence()) ? 1 : 0;
    }
    long copied = runs.stream().filter(part.runs::contains).count();
    values.set("copied runs", runs.isEmpty() ? 0 : (double) copied / runs.size());
    values.set(
        "copied sentences",
        answer.sentences().isEmpty() ? 0 : (double) handed / answer.sentences().size());
  }

  private static void newness(Values values, PartWords part, int place, OfText text) {
    Vocabulary asked = part.asked.get(place);
    int askedSaid = 0;
    for (String word : text.said()) {
      askedSaid += asked.has(word) ? 1 : 0;
    }
    values.set("new weight behind the demands before", log(nth(text.weights(), place), 3));
    values.set("said asked words", log(askedSaid, 3));
    values.set(
        "said share of the asked words",
        asked.words().isEmpty() ? 0 : Math.min(1, (double) askedSaid / asked.words().size()));
  }

  private static double nth(List<Double> sorted, int n) {
    return n < sorted.size() ? sorted.get(n) : 0;
  }

  private void cues(Values values, PartWords part, Answer answer) {
    Map<CueType, Integer> types = new EnumMap<>(CueType.class);
    Set<String> said = new HashSet<>();
    int denied = 0;
    double causeNew = 0;
    double effectNew = 0;
    boolean bothNew = false;
    boolean causeOld = false;
    for (Answer.Said sentence : answer.sentences()) {
      for (CueMatch cue : sentence.cues()) {
        types.merge(cue.type(), 1, Integer::sum);
        said.add(cue.type().word() + " " + cue.family());
        denied += cue.negated() ? 1 : 0;
        if (cue.type() == CueType.CAUSE_EFFECT) {
          double cause = cue.cause().map(at -> fresh(part, sentence, at)).orElse(0.0);
          double effect = cue.effect().map(at -> fresh(part, sentence, at)).orElse(0.0);
          causeNew = Math.max(causeNew, cause);
          effectNew = Math.max(effectNew, effect);
          bothNew |= cause > 0 && effect > 0;
          causeOld |= cue.cause().isPresent() && cause == 0;
        }
      }
    }
    for (CueType type : CueType.values()) {
      int n = types.getOrDefault(type, 0);
      values.set("cue " + type.word(), n > 0);
      values.set("cue " + type.word() + " number", log(n, 2));
    }
    families.forEach((found, name) -> values.set(name, said.contains(found)));
    values.set("cue denied", denied > 0);
    values.set("cause new", log(causeNew, 3));
    values.set("effect new", log(effectNew, 3));
    values.set("cause and effect new", bothNew);
    values.set("cause handed back", causeOld && causeNew == 0);
  }

  private double fresh(PartWords part, Answer.Said said, TokenRange at) {
    double weight = 0;
    for (int i = at.from(); i < at.to(); i++) {
      Token token = said.sentence().tokens().get(i);
      if (words.isContent(token)
          && !words.is(token, Stem.EMPTY)
          && !part.all.has(words.key(token))) {
        weight += lexicon.weights().weight(words.key(token));
      }
    }
    return weight;
  }

  private static void roles(Values values, PartWords part, Answer answer) {
    for (Clause.Role role : Clause.Role.values()) {
      boolean any = false;
      int fresh = 0;
      for (Clause clause : answer.clauses()) {
        if (clause.role() == role) {
          any = true;
          int own = 0;
          for (String word : clause.content()) {
            own += part.all.has(word) ? 0 : 1;
          }
          fresh = Math.max(fresh, own);
        }
      }
      String name = role.name().toLowerCase(Locale.ROOT);
      values.set("role " + name, any);
      values.set("role " + name + " new", log(fresh, 3));
      values.set("role " + name + " with nothing new", any && fresh == 0);
    }
    values.set("text breaks off", answer.clauses().stream().anyMatch(Clause::cut));
  }

  private static void classes(Values values, Answer answer) {
    long any = 0;
    long first = answer.isEmpty() ? 0 : answer.clauses().get(0).classes();
    for (Clause clause : answer.clauses()) {
      any |= clause.classes();
    }
    for (Form form : Form.values()) {
      if (form != Form.FUNCTION) {
        values.set(
            "word " + form.name().toLowerCase(Locale.ROOT), (any & WordClasses.bit(form)) != 0);
      }
    }
    for (Stem stem : Stem.values()) {
      values.set(
          "stem " + stem.name().toLowerCase(Locale.ROOT), (any & WordClasses.bit(stem)) != 0);
      values.set(
          "stem first " + stem.name().toLowerCase(Locale.ROOT),
          (first & WordClasses.bit(stem)) != 0);
    }
    boolean oneWay =
        ((any & WordClasses.bit(Stem.UP)) != 0) != ((any & WordClasses.bit(Stem.DOWN)) != 0);
    values.set("stem one direction", oneWay);
  }

  private static void numbers(Values values, PartWords part, Answer answer) {
    Set<String> all = new HashSet<>();
    boolean equals = false;
    for (Answer.Said said : answer.sentences()) {
      for (NumberWords.Numeral found : NumberWords.find(said.sentence().tokens())) {
        all.add(found.value());
        equals |= found.afterEquals();
      }
    }
    long old = all.stream().filter(part.numbers::contains).count();
    values.set("number", !all.isEmpty());
    values.set("number new", all.size() > old);
    values.set("number of the prompt", log((double) old, 2));
    values.set("number after equals", equals);
    values.set("number prompt has some", !part.numbers.isEmpty());
  }

  private void choices(Values values, PartWords part, int place, Answer answer, Demand demand) {
    boolean yesNo = false;
    boolean opens = false;
    for (int i = 0; i < answer.sentences().size(); i++) {
      Sentence sentence = answer.sentences().get(i).sentence();
      if (sentence.size() > 0) {
        Token first = sentence.tokens().get(0);
        boolean is = words.is(first, Form.YES) || words.is(first, Form.NO);
        yesNo |= is;
        opens |= is && i == 0;
      }
    }
    values.set("choice says yes or no", yesNo);
    values.set(
        "choice yes or no where asked", yesNo && demand.asking().form() == AnswerForm.YES_NO);
    values.set("choice opens with it", opens);
    int named = 0;
    boolean inMain = false;
    for (Set<String> option : part.options.get(place)) {
      boolean is = false;
      for (Clause clause : answer.clauses()) {
        boolean holds = !option.isEmpty() && clause.content().containsAll(option);
        is |= holds;
        inMain |= holds && !clause.isMarked();
      }
      named += is ? 1 : 0;
    }
    values.set("choice names one option", named == 1);
    values.set("choice names several", named > 1);
    values.set("choice names none of several", named == 0 && !part.options.get(place).isEmpty());
    values.set("choice in its main clause", inMain);
  }

  /**
   * Tells whether the text shares no word with the prompt. Alone that says little; together with
   * other features it is a sign that the text is about something else.
   */
  private static void apart(Values values, Answer answer) {
    boolean apart = values.get("new share") == 1;
    boolean longer = apart && values.get("size to six") == 0;
    boolean one = answer.sentences().size() == 1;
    boolean unrelated =
        values.get("concept of the prompt") == 0 && values.get("concept new and related") == 0;
    values.set("apart", longer);
    values.set("apart in one sentence", longer && one);
    values.set("apart and unrelated", longer && unrelated);
    values.set("apart and unrelated in one sentence", apart && unrelated && one);
    values.set("apart, longer and unrelated in one sentence", longer && unrelated && one);
    values.set("apart without a concept", longer && values.get("concept new") == 0);
    values.set("apart new weight", apart ? values.get("new weight") : 0);
    values.set("apart without a number", longer && values.get("number of the prompt") == 0);
  }

  private void concepts(Values values, PartWords part, Answer answer) {
    Set<String> named = new HashSet<>();
    for (Answer.Said said : answer.sentences()) {
      for (ConceptMatch match : said.concepts()) {
        named.add(match.concept());
      }
    }
    int old = 0;
    int related = 0;
    for (String name : named) {
      if (part.concepts.contains(name)) {
        old++;
      } else if (part.isRelated(name, lexicon)) {
        related++;
      }
    }
    values.set("concept", !named.isEmpty());
    values.set("concept new", log(named.size() - old, 3));
    values.set("concept of the prompt", log(old, 3));
    values.set("concept new and related", log(related, 2));
  }

  /** Returns log(1 + n), 1 at e^scale - 1. */
  private static double log(double n, double scale) {
    return Math.log1p(Math.max(0, n)) / scale;
  }
}
