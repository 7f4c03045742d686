package everypart.analyzer.judge;

import everypart.analyzer.prompt.Point;
import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.Span;
import everypart.analyzer.text.TextReader;
import everypart.analyzer.text.Token;
import everypart.lexicon.ConceptMatch;
import everypart.lexicon.Lexicon;
import everypart.lexicon.TokenRange;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;

/**
 * Looks for the points that a prompt's author listed. A phrase is mentioned where its words stand
 * near each other in one sentence, in any order and inflection, or where a concept of it is named
 * by another of its names.
 */
final class PointFinder {
  /** How many other words may stand between the words of a phrase. */
  private static final int SLACK = 4;

  private static final int MOST_PHRASES = 10_000;

  private final Lexicon lexicon;
  private final TextReader texts;
  private final WordClasses words;
  private final Map<String, Wanted> phrases = new ConcurrentHashMap<>();

  PointFinder(Lexicon lexicon, TextReader texts, WordClasses words) {
    this.lexicon = lexicon;
    this.texts = texts;
    this.words = words;
  }

  /**
   * What is looked for of one phrase.
   *
   * @param keys the keys of its words
   * @param spelled the same, forgiving slips
   * @param concepts the concept that the whole phrase names; empty where there is none
   */
  private record Wanted(Set<String> keys, Vocabulary spelled, Set<String> concepts) {}

  /** A sentence of a response in which points are looked for, read once for all of them. */
  static final class Looked {
    private final Sentence sentence;
    private final List<String> keys;
    private final List<ConceptMatch> concepts;

    private Looked(Sentence sentence, List<String> keys, List<ConceptMatch> concepts) {
      this.sentence = sentence;
      this.keys = keys;
      this.concepts = concepts;
    }
  }

  /** Reads a sentence in which points are to be looked for. */
  Looked look(Sentence sentence) {
    List<String> keys = new ArrayList<>(sentence.size());
    for (Token token : sentence.tokens()) {
      keys.add(token.isNumber() ? token.form() : words.key(token));
    }
    return new Looked(sentence, keys, lexicon.concepts(sentence));
  }

  /** Returns where the first of the sentences that mentions a point does so. */
  Optional<Span> find(Point point, List<Looked> sentences) {
    for (String phrase : point.phrases()) {
      Wanted wanted = wanted(phrase);
      if (wanted.keys().isEmpty() && wanted.concepts().isEmpty()) {
        continue;
      }
      for (Looked sentence : sentences) {
        Optional<Span> at = inWords(sentence, wanted);
        if (at.isEmpty() && !wanted.concepts().isEmpty()) {
          at = inConcepts(sentence, wanted.concepts());
        }
        if (at.isPresent()) {
          return at;
        }
      }
    }
    return Optional.empty();
  }

  private Wanted wanted(String phrase) {
    Wanted known = phrases.get(phrase);
    if (known != null) {
      return known;
    }
    Wanted read = read(phrase);
    if (phrases.size() < MOST_PHRASES) {
      phrases.put(phrase, read);
    }
    return read;
  }

  private Wanted read(String phrase) {
    List<Sentence> read = texts.read(phrase).sentences();
    Set<String> keys = new HashSet<>();
    Set<String> concepts = new HashSet<>();
    if (!read.isEmpty()) {
      Sentence wanted = read.get(0);
      for (Token token : wanted.tokens()) {
        if (words.isContent(token)) {
          keys.add(words.key(token));
        }
      }
      if (keys.isEmpty()) {
        wanted.tokens().stream().filter(Token::isWord).forEach(t -> keys.add(words.key(t)));
      }
      wanted.tokens().stream().filter(Token::isNumber).forEach(t -> keys.add(t.form()));
      List<ConceptMatch> named = lexicon.concepts(wanted);
      boolean whole = named.size() == 1 && covers(named.get(0).at(), wanted, keys);
      if (whole) {
        concepts.add(named.get(0).concept());
      }
    }
    return new Wanted(keys, new Vocabulary(keys), concepts);
  }

  private boolean covers(TokenRange range, Sentence phrase, Set<String> keys) {
    Set<String> left = new HashSet<>(keys);
    for (int i = range.from(); i < range.to(); i++) {
      left.remove(words.key(phrase.tokens().get(i)));
    }
    return left.isEmpty();
  }

  private static Optional<Span> inConcepts(Looked looked, Set<String> concepts) {
    for (ConceptMatch match : looked.concepts) {
      if (concepts.contains(match.concept())) {
        return Optional.of(looked.sentence.span(match.at()));
      }
    }
    return Optional.empty();
  }

  /** Returns the shortest run of tokens that holds all the words, if it is short enough. */
  private static Optional<Span> inWords(Looked looked, Wanted wanted) {
    Set<String> keys = wanted.keys();
    if (keys.isEmpty()) {
      return Optional.empty();
    }
    Sentence sentence = looked.sentence;
    List<Integer> places = new ArrayList<>(0);
    List<String> hits = new ArrayList<>(0);
    for (int i = 0; i < sentence.size(); i++) {
      String key = looked.keys.get(i);
      if (keys.contains(key)) {
        places.add(i);
        hits.add(key);
      } else if (sentence.tokens().get(i).isWord() && wanted.spelled().isMisspelling(key)) {
        places.add(i);
        hits.add(wanted.spelled().nearest(key));
      }
    }
    if (places.isEmpty()) {
      return Optional.empty();
    }
    TokenRange best = null;
    int longest = keys.size() + SLACK;
    for (int a = 0; a < places.size(); a++) {
      Set<String> open = new HashSet<>(keys);
      for (int b = a; b < places.size() && places.get(b) < places.get(a) + longest; b++) {
        open.remove(hits.get(b));
        if (open.isEmpty()) {
          TokenRange range = new TokenRange(places.get(a), places.get(b) + 1);
          if (best == null || range.length() < best.length()) {
            best = range;
          }
          break;
        }
      }
    }
    return best == null ? Optional.empty() : Optional.of(sentence.span(best));
  }
}
