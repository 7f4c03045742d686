package everypart.analyzer.points;

import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.coverage.CoverageAnalyzer;
import everypart.analyzer.coverage.DemandCoverage;
import everypart.analyzer.coverage.PartCoverage;
import everypart.analyzer.prompt.Point;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.Span;
import everypart.analyzer.text.Tagger;
import everypart.analyzer.text.Text;
import everypart.analyzer.text.Token;
import everypart.lexicon.Concept;
import everypart.lexicon.ConceptMatch;
import everypart.lexicon.DemandKind;
import everypart.lexicon.Language;
import everypart.lexicon.Lexicon;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;

/**
 * Proposes points from a model answer: the concepts and noun phrases that it names and the question
 * does not, the rarest in general English first. Words that the prompt already holds come later,
 * those of the part itself not at all.
 *
 * <p>The model answer is read as a response is: its labels, or else its words, say which part each
 * sentence answers, and the evidence found for a demand says which sentences answer that. Rareness
 * is the weight of {@link everypart.lexicon.WordWeights}. One proposer serves all threads.
 */
public final class PointProposer {
  /** So many points are proposed for a demand at most. Chosen by eye. */
  private static final int MOST = 6;

  /** What words that the prompt already holds, outside the part, keep of their weight. */
  private static final double GIVEN = 0.5;

  private static final Pattern LABEL =
      Pattern.compile("^\\(?(?:[a-z]|[ivx]{2,4}|\\d{1,2})[).:]\\s+");
  private static final Set<String> NOUNS = Set.of("NOUN", "PROPN");

  /** Nouns that point at something else, and so are no point by themselves. */
  private static final Set<String> EMPTY_NOUNS = Language.english().words("empty_noun");

  private final Lexicon lexicon;
  private final CoverageAnalyzer analyzer;
  private final Tagger tagger = new Tagger();

  /** Makes a proposer. */
  public PointProposer(Lexicon lexicon, CoverageAnalyzer analyzer) {
    this.lexicon = lexicon;
    this.analyzer = analyzer;
  }

  /** A phrase of the model answer. */
  private record RankedPhrase(Point point, Set<String> stems, double rareness, int at) {}

  /** Proposes points for each demand of a prompt. */
  public Proposals propose(Prompt prompt, String modelAnswer) {
    Coverage coverage = analyzer.analyze(prompt, "model answer", modelAnswer);
    Text text = analyzer.texts().read(modelAnswer);
    Set<String> given = stems(prompt.text());
    List<Proposals.ForPart> parts = new ArrayList<>();
    for (PartCoverage part : coverage.parts()) {
      List<Sentence> own = coverage.assignment().of(part.part().label());
      Set<String> asked = stems(part.part().text());
      List<List<Point>> points = new ArrayList<>();
      for (int i = 0; i < part.demands().size(); i++) {
        points.add(
            points(text, part.demands().get(i), sentences(part, i, own, text), asked, given));
      }
      StringBuilder words = new StringBuilder();
      for (Sentence sentence : own) {
        words.append(words.isEmpty() ? "" : " ").append(sentence.span().of(modelAnswer).strip());
      }
      String answer = LABEL.matcher(words).replaceFirst("");
      parts.add(new Proposals.ForPart(part.part().label(), answer, points));
    }
    return new Proposals(parts);
  }

  private Set<String> stems(String words) {
    Set<String> stems = new HashSet<>();
    for (Sentence sentence : analyzer.texts().read(words).sentences()) {
      sentence.tokens().forEach(token -> stems.add(token.stem()));
    }
    return stems;
  }

  /**
   * Returns the sentences that answer a demand: those with evidence for it, and those of its part
   * that hold none for any demand; all of the part's when no evidence was found.
   */
  private static List<Sentence> sentences(
      PartCoverage part, int place, List<Sentence> own, Text text) {
    List<Span> evidence = part.demands().get(place).evidence();
    List<Sentence> found =
        text.sentences().stream().filter(sentence -> touches(sentence, evidence)).toList();
    if (found.isEmpty() || part.demands().size() == 1) {
      return own.isEmpty() ? found : own;
    }
    List<Sentence> all = new ArrayList<>(found);
    for (Sentence sentence : own) {
      boolean taken =
          part.demands().stream().anyMatch(demand -> touches(sentence, demand.evidence()));
      if (!taken) {
        all.add(sentence);
      }
    }
    return all;
  }

  private static boolean touches(Sentence sentence, List<Span> spans) {
    return spans.stream().anyMatch(span -> span.overlaps(sentence.span()));
  }

  private List<Point> points(
      Text text,
      DemandCoverage demand,
      List<Sentence> sentences,
      Set<String> asked,
      Set<String> given) {
    Map<Set<String>, RankedPhrase> candidates = new LinkedHashMap<>();
    for (Sentence sentence : sentences) {
      if (demand.demand().kind() == DemandKind.CALCULATE) {
        values(text, sentence, candidates);
      } else if (demand.demand().kind() != DemandKind.REPRESENT) {
        List<Span> named = concepts(text, sentence, asked, given, candidates);
        phrases(text, sentence, asked, given, named, candidates);
      }
    }
    return candidates.values().stream()
        .sorted(
            Comparator.comparingDouble((RankedPhrase one) -> -one.rareness())
                .thenComparingInt(RankedPhrase::at))
        .limit(MOST)
        .map(RankedPhrase::point)
        .toList();
  }

  /**
   * Adds the values of a calculation with the word behind each; the last one, its result, leads.
   */
  private static void values(
      Text text, Sentence sentence, Map<Set<String>, RankedPhrase> candidates) {
    List<Token> tokens = sentence.tokens();
    for (int i = 0; i < tokens.size(); i++) {
      if (tokens.get(i).isNumber()) {
        boolean unit = i + 1 < tokens.size() && tokens.get(i + 1).isWord();
        String value = tokens.get(i).span().of(text.raw());
        List<String> phrases = new ArrayList<>();
        if (unit) {
          phrases.add(value + " " + tokens.get(i + 1).span().of(text.raw()));
        }
        phrases.add(value);
        int at = tokens.get(i).start();
        candidates.put(Set.of(value), new RankedPhrase(new Point(phrases), Set.of(value), at, at));
      }
    }
  }

  private List<Span> concepts(
      Text text,
      Sentence sentence,
      Set<String> asked,
      Set<String> given,
      Map<Set<String>, RankedPhrase> candidates) {
    List<Span> named = new ArrayList<>();
    for (ConceptMatch match : lexicon.concepts(sentence)) {
      Span at = sentence.span(match.at());
      named.add(at);
      List<Token> tokens = sentence.tokens().subList(match.at().from(), match.at().to());
      if (isAsked(tokens, asked)) {
        continue;
      }
      Set<String> phrases = new LinkedHashSet<>();
      phrases.add(lower(at.of(text.raw())));
      lexicon.concept(match.concept()).ifPresent(concept -> phrases.addAll(names(concept)));
      add(
          candidates,
          new Point(List.copyOf(phrases)),
          Set.of("concept " + match.concept()),
          tokens,
          given);
    }
    return named;
  }

  private static List<String> names(Concept concept) {
    List<String> names = new ArrayList<>();
    names.add(concept.name());
    names.addAll(concept.variants());
    return names;
  }

  private void phrases(
      Text text,
      Sentence sentence,
      Set<String> asked,
      Set<String> given,
      List<Span> named,
      Map<Set<String>, RankedPhrase> candidates) {
    List<String> tags = tagger.tags(text, sentence);
    List<Token> tokens = sentence.tokens();
    int i = 0;
    while (i < tokens.size()) {
      int end = i;
      int noun = -1;
      while (end < tokens.size()
          && tokens.get(end).isWord()
          && (NOUNS.contains(tags.get(end)) || tags.get(end).equals("ADJ"))) {
        noun = NOUNS.contains(tags.get(end)) ? end : noun;
        end++;
      }
      if (noun >= 0) {
        List<Token> phrase = tokens.subList(i, noun + 1);
        Span at = new Span(phrase.get(0).start(), phrase.get(phrase.size() - 1).end());
        boolean known = named.stream().anyMatch(span -> span.overlaps(at));
        if (!known && !isAsked(phrase, asked) && !isEmpty(phrase)) {
          Set<String> stems = new HashSet<>();
          phrase.forEach(token -> stems.add(token.stem()));
          add(candidates, new Point(List.of(lower(at.of(text.raw())))), stems, phrase, given);
        }
      }
      i = Math.max(end, i + 1);
    }
  }

  private static boolean isAsked(List<Token> tokens, Set<String> asked) {
    return tokens.stream().allMatch(token -> asked.contains(token.stem()));
  }

  private static boolean isEmpty(List<Token> phrase) {
    return phrase.stream()
        .allMatch(
            token ->
                token.end() - token.start() < 2
                    || EMPTY_NOUNS.contains(token.stem())
                    || EMPTY_NOUNS.contains(token.form()));
  }

  private void add(
      Map<Set<String>, RankedPhrase> candidates,
      Point point,
      Set<String> key,
      List<Token> tokens,
      Set<String> given) {
    double rareness =
        tokens.stream()
            .mapToDouble(token -> lexicon.weights().weight(token.stem()))
            .max()
            .orElse(0);
    if (isAsked(tokens, given)) {
      rareness *= GIVEN;
    }
    candidates.putIfAbsent(key, new RankedPhrase(point, key, rareness, tokens.get(0).start()));
  }

  /** A phrase in one line and in small letters, unless a word of it is all capitals. */
  private static String lower(String phrase) {
    String line = phrase.replaceAll("\\s+", " ").strip();
    boolean capitals = line.chars().filter(Character::isUpperCase).count() > 1;
    return capitals ? line : line.toLowerCase(Locale.ROOT);
  }
}
