package everypart.analyzer.detect;

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
import java.util.Optional;
import java.util.Set;

/**
 * Looks for the points that a prompt's author listed. A phrase is mentioned where its words stand
 * near each other in one sentence, in any order and inflection, or where a concept of it is named
 * by another of its names.
 */
final class PointFinder {
  /** How many other words may stand between the words of a phrase. */
  private static final int SLACK = 4;

  private final Lexicon lexicon;
  private final TextReader texts;
  private final WordClasses words;

  PointFinder(Lexicon lexicon, TextReader texts, WordClasses words) {
    this.lexicon = lexicon;
    this.texts = texts;
    this.words = words;
  }

  /** Returns where the first of the sentences that mentions a point does so. */
  Optional<Span> find(Point point, List<Sentence> sentences) {
    for (String phrase : point.phrases()) {
      List<Sentence> read = texts.read(phrase).sentences();
      if (read.isEmpty()) {
        continue;
      }
      Sentence wanted = read.get(0);
      Set<String> keys = new HashSet<>();
      for (Token token : wanted.tokens()) {
        if (words.isContent(token)) {
          keys.add(words.key(token));
        }
      }
      if (keys.isEmpty()) {
        wanted.tokens().stream().filter(Token::isWord).forEach(t -> keys.add(words.key(t)));
      }
      wanted.tokens().stream().filter(Token::isNumber).forEach(t -> keys.add(t.form()));
      Set<String> concepts = new HashSet<>();
      List<ConceptMatch> named = lexicon.concepts(wanted);
      boolean whole = named.size() == 1 && covers(named.get(0).at(), wanted, keys);
      if (whole) {
        concepts.add(named.get(0).concept());
      }
      for (Sentence sentence : sentences) {
        Optional<Span> at = inWords(sentence, keys);
        if (at.isEmpty() && !concepts.isEmpty()) {
          at = inConcepts(sentence, concepts);
        }
        if (at.isPresent()) {
          return at;
        }
      }
    }
    return Optional.empty();
  }

  private boolean covers(TokenRange range, Sentence phrase, Set<String> keys) {
    Set<String> left = new HashSet<>(keys);
    for (int i = range.from(); i < range.to(); i++) {
      left.remove(words.key(phrase.tokens().get(i)));
    }
    return left.isEmpty();
  }

  private Optional<Span> inConcepts(Sentence sentence, Set<String> concepts) {
    return lexicon.concepts(sentence).stream()
        .filter(match -> concepts.contains(match.concept()))
        .map(match -> sentence.span(match.at()))
        .findFirst();
  }

  /** Returns the shortest run of tokens that holds all the words, if it is short enough. */
  private Optional<Span> inWords(Sentence sentence, Set<String> keys) {
    if (keys.isEmpty()) {
      return Optional.empty();
    }
    Vocabulary spelled = new Vocabulary(keys);
    List<Integer> places = new ArrayList<>();
    List<String> hits = new ArrayList<>();
    for (int i = 0; i < sentence.size(); i++) {
      Token token = sentence.tokens().get(i);
      String key = token.isNumber() ? token.form() : words.key(token);
      if (keys.contains(key)) {
        places.add(i);
        hits.add(key);
      } else if (token.isWord() && spelled.isMisspelling(key)) {
        places.add(i);
        hits.add(spelled.nearest(key));
      }
    }
    TokenRange best = null;
    for (int a = 0; a < places.size(); a++) {
      Set<String> open = new HashSet<>(keys);
      for (int b = a; b < places.size(); b++) {
        open.remove(hits.get(b));
        if (open.isEmpty()) {
          TokenRange range = new TokenRange(places.get(a), places.get(b) + 1);
          if (range.length() <= keys.size() + SLACK
              && (best == null || range.length() < best.length())) {
            best = range;
          }
          break;
        }
      }
    }
    return best == null ? Optional.empty() : Optional.of(sentence.span(best));
  }
}
