package everypart.analyzer.judge;

import everypart.analyzer.assign.Assignment;
import everypart.analyzer.assign.Bearing;
import everypart.analyzer.prompt.Demand;
import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Point;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.text.Span;
import everypart.analyzer.text.Text;
import everypart.analyzer.text.TextReader;
import everypart.lexicon.DemandKind;
import everypart.lexicon.Lexicon;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Judges by gates, then by learned weights of named features and of a reader's opinion: that of the
 * reader in the other jar, where it is at hand and asked, else that of the small one here.
 */
public final class LearnedJudge implements Judge {
  private static final String FEATURES = "weights-features.tsv";
  private static final String WITH_READER = "weights-reader.tsv";
  private static final String LACKS = "weights-lacks.tsv";

  /** The probability that stands for a gate that closed; docs/judge.md has what was measured. */
  private static final double GATED = 0.03;

  /** The probability from which a point found in the part's text is taken as an answer. */
  private static final double POINT = 0.9;

  /** A finding quotes at most so many pieces, or as many as were found. Chosen by eye. */
  private static final int MOST_EVIDENCE = 3;

  private static final String OPINION = "reader";
  private static final String SMALL_OPINION = "small reader";

  private final Answers answers;
  private final Reasons reasons = Reasons.bundled();
  private final Optional<Reader> reader;

  /** For verdicts of the small reader; there are none where the other is asked about all. */
  private final Weights alone;

  private final Weights withReader;
  private final Weights lacks = Weights.read(LACKS);

  /** The reader is asked where the features' confidence is below this. */
  private final double askBelow;

  /**
   * Makes the judge.
   *
   * @param reader is asked about every demand, or the share of them that it names, where there is
   *     one
   */
  public LearnedJudge(Lexicon lexicon, TextReader texts, Optional<Reader> reader) {
    this.answers = new Answers(lexicon, texts);
    this.reader = reader;
    double share = reader.map(Reader::share).orElse(0.0);
    this.withReader = Weights.read(share > 0 ? WITH_READER : FEATURES);
    this.alone = share < 1 && share > 0 ? Weights.read(FEATURES) : withReader;
    this.askBelow = share < 1 ? alone.leastSure(share) : 1;
  }

  @Override
  public String name() {
    if (reader.isEmpty()) {
      return "features";
    }
    long percent = Math.round(100 * reader.get().share());
    return "features and reader" + (percent < 100 ? " of the least sure " + percent + " %" : "");
  }

  @Override
  public List<List<Finding>> judge(Prompt prompt, Text text, Assignment assignment) {
    ResponseView view = answers.read(prompt, text, assignment);
    List<List<Finding>> findings = new ArrayList<>();
    for (Part part : prompt.parts()) {
      List<Finding> each = new ArrayList<>();
      if (part.demands().isEmpty()) {
        findings.add(each);
        continue;
      }
      Features.OfText told = view.text(part);
      for (int place = 0; place < part.demands().size(); place++) {
        each.add(new One(prompt, part, place, view, told).judge());
      }
      findings.add(each);
    }
    return findings;
  }

  /**
   * Returns what tells how much text bears on each part: the reader that is asked about every
   * demand, else the small one.
   */
  public Optional<Bearing> bearing() {
    return Optional.of(new DemandBearing(answers, reader.filter(r -> r.share() == 1)));
  }

  /** Looks for the points that the author listed for a demand, in the whole response. */
  public Map<Point, Optional<Span>> points(
      Prompt prompt, Text text, Assignment assignment, Part part, Demand demand) {
    return answers.points(prompt, text, assignment, part, demand);
  }

  /** One demand and the response. */
  private final class One {
    private final Prompt prompt;
    private final Part part;
    private final int place;
    private final ResponseView view;
    private final DemandKind kind;
    private final PartWords words;
    private final Answer own;
    private final Answer rest;

    private final Features.OfText told;
    private @Nullable Values features;

    One(Prompt prompt, Part part, int place, ResponseView view, Features.OfText told) {
      this.prompt = prompt;
      this.part = part;
      this.place = place;
      this.view = view;
      this.kind = part.demands().get(place).kind();
      this.words = view.words(part);
      this.told = told;
      this.own = told.answer();
      this.rest = told.rest();
    }

    Finding judge() {
      if (kind == DemandKind.REPRESENT) {
        return new Finding(0.5, false, 0, List.of(), List.of(reasons.addressed(kind)), true);
      }
      Optional<Gates.Closed> closed = Gates.closed(words, kind, own, view.whole());
      if (closed.isPresent()) {
        return new Finding(GATED, false, 0, List.of(), List.of(closed.get().in(reasons)), false);
      }
      Optional<Reader.Opinion> opinion = opinion();
      double probability = probability(opinion);
      boolean point = answers.hasPoint(part.demands().get(place), own);
      probability = point ? Math.max(POINT, probability) : probability;
      boolean addressed = probability >= used(opinion).setting("cut");
      return addressed ? addressed(probability, opinion, point) : missing(probability, opinion);
    }

    private Optional<Reader.Opinion> opinion() {
      if (reader.isEmpty()) {
        return Optional.empty();
      }
      if (reader.get().share() < 1) {
        double first = probability(Optional.empty());
        if (Math.max(first, 1 - first) >= askBelow) {
          return Optional.empty();
        }
      }
      return Optional.of(
          reader
              .get()
              .read(
                  DemandText.of(prompt, part, place),
                  view.pieceTexts(part, true),
                  view.pieceTexts(part, false)));
    }

    private Weights used(Optional<Reader.Opinion> opinion) {
      return opinion.isPresent() ? withReader : alone;
    }

    private boolean look(double confidence, Optional<Reader.Opinion> opinion) {
      return confidence < used(opinion).setting("look-below");
    }

    private Values features() {
      if (features == null) {
        features = answers.features().of(words, place, told);
      }
      return features;
    }

    private Reader.Opinion small() {
      return view.smallOpinions(part).get(place);
    }

    private double probability(Optional<Reader.Opinion> opinion) {
      Values values = features();
      return opinion
          .map(o -> withReader.probability(values, kind, OPINION, o.logOdds()))
          .orElseGet(() -> alone.probability(values, kind, SMALL_OPINION, small().logOdds()));
    }

    private Finding addressed(double probability, Optional<Reader.Opinion> opinion, boolean point) {
      List<Clause> bearing = bearing(opinion.orElseGet(this::small));
      List<Clause> ordered = new ArrayList<>(bearing);
      ordered.sort(Comparator.comparingInt(clause -> clause.span().start()));
      int wanted = part.demands().get(place).count();
      List<Clause> quoted = List.of(bearing.get(0));
      int found = 1;
      List<String> why = new ArrayList<>();
      why.add(point ? reasons.other("point") : reasons.addressed(kind));
      if (wanted > 1) {
        Counting.Count count = Counting.count(ordered, wanted, words.asked.get(place));
        found = Math.max(1, Math.min(wanted, count.different().size()));
        quoted = count.different().isEmpty() ? quoted : count.different();
        why.add(found + " of " + wanted + " found");
      }
      if (kind == DemandKind.PROPOSE && Design.isAskedFor(part)) {
        why.addAll(Design.report(own.clauses()));
      }
      if (quoted.stream().noneMatch(own.clauses()::contains)) {
        why.add(reasons.other("elsewhere"));
      }
      List<Span> spans =
          quoted.stream().map(Clause::span).limit(Math.max(MOST_EVIDENCE, found)).toList();
      return new Finding(probability, true, found, spans, why, look(probability, opinion));
    }

    /** Returns the clauses that a reader takes for evidence, the surest first, at least one. */
    private List<Clause> bearing(Reader.Opinion opinion) {
      List<Clause> all = new ArrayList<>(own.clauses());
      all.addAll(rest.clauses());
      List<Integer> order = new ArrayList<>();
      for (int i = 0; i < all.size(); i++) {
        if (!view.isBareLabel(all.get(i))) {
          order.add(i);
        }
      }
      if (order.isEmpty()) {
        return all.subList(0, 1);
      }
      order.sort(Comparator.comparingDouble((Integer i) -> -opinion.evidence().get(i)));
      List<Clause> bearing = new ArrayList<>();
      for (int i : order) {
        if (bearing.isEmpty() || opinion.evidence().get(i) > 0) {
          bearing.add(all.get(i));
        }
      }
      return bearing;
    }

    private Finding missing(double probability, Optional<Reader.Opinion> opinion) {
      Lack lack = lack(opinion);
      List<String> why = new ArrayList<>(List.of(reasons.missing(lack)));
      if (lack != Lack.NOTHING) {
        nearest(opinion)
            .ifPresent(
                clause -> why.add(reasons.other("nearest") + " \"" + view.text(clause) + "\""));
      }
      return new Finding(probability, false, 0, List.of(), why, look(1 - probability, opinion));
    }

    private Optional<Clause> nearest(Optional<Reader.Opinion> opinion) {
      if (opinion.isPresent()) {
        return bearing(opinion.get()).stream()
            .filter(clause -> !view.isBareLabel(clause))
            .findFirst();
      }
      return own.clauses().stream()
          .filter(clause -> !view.isBareLabel(clause))
          .max(
              Comparator.comparingLong(
                  clause -> clause.content().stream().filter(words.asked.get(place)::has).count()));
    }

    private Lack lack(Optional<Reader.Opinion> opinion) {
      if (own.isEmpty() && prompt.parts().size() > 1) {
        return Lack.NOTHING;
      }
      Map<Lack, Double> scores = new EnumMap<>(Lack.class);
      double[] sums = opinion.isPresent() ? new double[0] : lacks.sums(features());
      for (Lack lack : Lack.values()) {
        if (reasons.fits(lack, kind)) {
          double score =
              opinion.isPresent()
                  ? opinion.get().lacks().get(Reader.LACKS.indexOf(lack.word()))
                  : sums[lacks.column(lack.word())]
                      + lacks.weight("base " + kind.word(), lack.word());
          scores.put(lack, score);
        }
      }
      return scores.entrySet().stream().max(Map.Entry.comparingByValue()).orElseThrow().getKey();
    }
  }
}
