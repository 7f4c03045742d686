package everypart.lexicon;

import java.io.Closeable;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Finds phrases that many responses of a set use and no concept covers, for the author of a lexicon
 * to look at.
 *
 * <p>A candidate is a run of up to some words of one sentence, without marks and figures, that
 * neither begins nor ends with a function word and that has a content word in no concept. One of
 * several words must hold together: at its weakest joint the words meet more often than chance
 * would have it. Candidates are ranked by how far they stand out against a background: other texts
 * where they were given, and otherwise the counts of general English in {@link WordWeights}, in
 * which a phrase counts as often as its rarest word, since it cannot be more frequent than that.
 * Both are measured by the log-likelihood ratio of Dunning (1993). Words of one response depend on
 * each other, so the ratio is for ranking and tests nothing.
 *
 * <p>Used by one thread: first responses are added, then phrases are asked for. All is held in
 * memory.
 */
public final class MissingConcepts implements Closeable {
  /** The 99.9th percentile of chi-squared with one degree of freedom. */
  private static final double STANDS_OUT = 10.83;

  /** A phrase that stands this often within one longer candidate is only a piece of it. */
  private static final double MOSTLY = 0.75;

  private static final int SHORTEST_WORD = 3;

  private static final Set<String> FUNCTION_WORDS = Language.english().words("function");

  /**
   * Words of closed classes (from memory) whose counts mislead, since WordNet holds no prepositions
   * and conjunctions, but rarer uses of the same letters; and numbers in words.
   */
  private static final Set<String> UNCOUNTED = Language.english().words("uncounted");

  private final Lexicon lexicon;
  private final int longest;
  private final PhraseIndex set = new PhraseIndex();
  private final Set<String> asked = new HashSet<>();
  private @Nullable PhraseIndex background;
  private long words;
  private long contentWords;
  private long backgroundWords;

  /**
   * A sentence of a response or question.
   *
   * @param text the sentence as written
   * @param words its tokens, stemmed by the lexicon's {@link Lexicon#forms()}
   */
  public record Written(String text, WordSequence words) {}

  /**
   * Makes one without any responses.
   *
   * @param longest how many words a phrase may have, 1 or more
   * @throws IllegalArgumentException when {@code longest} is below 1
   */
  public MissingConcepts(Lexicon lexicon, int longest) {
    if (longest < 1) {
      throw new IllegalArgumentException("longest is " + longest + "; it must be 1 or more");
    }
    this.lexicon = lexicon;
    this.longest = longest;
  }

  /** Adds a response of the set that is looked through. */
  public void add(List<Written> response) {
    List<PhraseIndex.Phrase> all = new ArrayList<>();
    List<PhraseIndex.Phrase> candidates = new ArrayList<>();
    List<PhraseIndex.Sentence> sentences = new ArrayList<>();
    for (Written sentence : response) {
      WordSequence tokens = sentence.words();
      boolean[] content = content(tokens);
      int[] concepts = concepts(tokens);
      for (int from = 0; from < tokens.size(); from++) {
        words += isWord(tokens.form(from)) ? 1 : 0;
        contentWords += content[from] ? 1 : 0;
        StringBuilder key = new StringBuilder();
        for (int to = from + 1; to <= end(tokens, from); to++) {
          key.append(to > from + 1 ? " " : "").append(tokens.stem(to - 1));
          PhraseIndex.Phrase phrase = new PhraseIndex.Phrase(key.toString(), sentences.size());
          all.add(phrase);
          if (isCandidate(tokens, content, concepts, from, to)) {
            candidates.add(phrase);
          }
        }
      }
      List<String> forms = new ArrayList<>(tokens.size());
      for (int i = 0; i < tokens.size(); i++) {
        forms.add(tokens.form(i));
      }
      sentences.add(new PhraseIndex.Sentence(sentence.text(), String.join(" ", forms)));
    }
    set.add(all, candidates, sentences);
  }

  /** Adds a text to the background that the set is compared with, in place of general English. */
  public void compareWith(List<Written> text) {
    PhraseIndex other = background;
    if (other == null) {
      other = new PhraseIndex();
      background = other;
    }
    List<PhraseIndex.Phrase> all = new ArrayList<>();
    for (Written sentence : text) {
      keys(sentence.words()).forEach(key -> all.add(new PhraseIndex.Phrase(key, 0)));
      for (boolean one : content(sentence.words())) {
        backgroundWords += one ? 1 : 0;
      }
    }
    other.add(all, List.of(), List.of());
  }

  /** Adds the sentences of a question, so that phrases that it hands over can be told. */
  public void ask(List<Written> question) {
    question.forEach(sentence -> asked.addAll(keys(sentence.words())));
  }

  private List<String> keys(WordSequence tokens) {
    List<String> keys = new ArrayList<>();
    for (int from = 0; from < tokens.size(); from++) {
      StringBuilder key = new StringBuilder();
      for (int to = from + 1; to <= end(tokens, from); to++) {
        key.append(to > from + 1 ? " " : "").append(tokens.stem(to - 1));
        keys.add(key.toString());
      }
    }
    return keys;
  }

  private static boolean isWord(String form) {
    return Character.isLetter(form.charAt(0));
  }

  /** Returns the token behind the longest run of words from one on. */
  private int end(WordSequence tokens, int from) {
    int end = from;
    while (end < tokens.size() && end - from < longest && isWord(tokens.form(end))) {
      end++;
    }
    return end;
  }

  private boolean[] content(WordSequence tokens) {
    boolean[] content = new boolean[tokens.size()];
    for (int i = 0; i < content.length; i++) {
      String form = tokens.form(i);
      content[i] =
          isWord(form)
              && !FUNCTION_WORDS.contains(form)
              && !UNCOUNTED.contains(form)
              && lexicon.weights().weight(tokens.stem(i)) > 0;
    }
    return content;
  }

  /** Returns the number of the concept that each token belongs to, from 1; 0 for none. */
  private int[] concepts(WordSequence tokens) {
    int[] concepts = new int[tokens.size()];
    int number = 0;
    for (ConceptMatch match : lexicon.concepts(tokens)) {
      Arrays.fill(concepts, match.at().from(), match.at().to(), ++number);
    }
    return concepts;
  }

  private static boolean isCandidate(
      WordSequence tokens, boolean[] content, int[] concepts, int from, int to) {
    boolean cut =
        (from > 0 && concepts[from] != 0 && concepts[from] == concepts[from - 1])
            || (to < concepts.length && concepts[to] != 0 && concepts[to] == concepts[to - 1]);
    if (cut || !content[from] || !content[to - 1]) {
      return false;
    }
    if (to == from + 1 && WordLists.bundled().isComparative(tokens.form(from))) {
      return false;
    }
    for (int i = from; i < to; i++) {
      if (content[i] && concepts[i] == 0 && tokens.form(i).length() >= SHORTEST_WORD) {
        return true;
      }
    }
    return false;
  }

  private record Candidate(String key, long times, int responses, double ratio) {
    String firstWord() {
      int end = key.indexOf(' ');
      return end < 0 ? key : key.substring(0, end);
    }

    boolean isWithin(Candidate other) {
      return (" " + other.key + " ").contains(" " + key + " ");
    }
  }

  /**
   * Returns the phrases that stand out, those that stand out most first. No more responses can be
   * added afterwards.
   *
   * @param least in how many responses a phrase must occur, 1 or more
   */
  public List<MissingPhrase> ranked(int least) {
    List<Candidate> standing = new ArrayList<>();
    set.forEachCandidate(
        (key, times, responses) -> {
          if (responses >= least) {
            double ratio = standsOut(key, times);
            if (ratio >= STANDS_OUT && holdsTogether(key)) {
              standing.add(new Candidate(key, times, responses, ratio));
            }
          }
        });
    standing.sort(
        Comparator.comparingDouble(Candidate::ratio).reversed().thenComparing(Candidate::key));
    List<MissingPhrase> ranked = new ArrayList<>();
    for (Candidate candidate : withoutPieces(standing)) {
      PhraseIndex.Sentence first = set.first(candidate.key());
      ranked.add(
          new MissingPhrase(
              written(candidate.key(), first),
              candidate.times(),
              candidate.responses(),
              candidate.ratio(),
              asked.contains(candidate.key()),
              first.text()));
    }
    return ranked;
  }

  /** Returns how far a phrase stands out; 0 where it is no more frequent than elsewhere. */
  private double standsOut(String key, long times) {
    double elsewhere;
    double of;
    if (background != null) {
      elsewhere = background.times(key);
      of = backgroundWords;
    } else {
      elsewhere = WordWeights.COUNTED;
      for (String stem : key.split(" ")) {
        if (lexicon.weights().weight(stem) > 0) {
          elsewhere = Math.min(elsewhere, lexicon.weights().count(stem));
        }
      }
      of = WordWeights.COUNTED;
    }
    double here = times;
    double all = contentWords;
    return here * of <= elsewhere * all
        ? 0
        : LikelihoodRatio.of(here, elsewhere, all - here, Math.max(0, of - elsewhere));
  }

  /** Tells whether the words of a phrase meet more often than by chance, wherever it is cut. */
  private boolean holdsTogether(String key) {
    for (int space = key.indexOf(' '); space >= 0; space = key.indexOf(' ', space + 1)) {
      double both = set.times(key);
      double left = set.times(key.substring(0, space));
      double right = set.times(key.substring(space + 1));
      boolean oftener = both * words > left * right;
      double neither = Math.max(0, words - left - right + both);
      if (!oftener || LikelihoodRatio.of(both, left - both, right - both, neither) < STANDS_OUT) {
        return false;
      }
    }
    return true;
  }

  /** Leaves out what is hardly ever said but as a piece of one longer candidate. */
  private static List<Candidate> withoutPieces(List<Candidate> standing) {
    Map<String, List<Candidate>> byWord = new HashMap<>();
    for (Candidate candidate : standing) {
      for (String word : new HashSet<>(Arrays.asList(candidate.key().split(" ")))) {
        byWord.computeIfAbsent(word, key -> new ArrayList<>()).add(candidate);
      }
    }
    return standing.stream()
        .filter(
            candidate ->
                byWord.getOrDefault(candidate.firstWord(), List.of()).stream()
                    .noneMatch(
                        other ->
                            other.key().length() > candidate.key().length()
                                && other.times() >= MOSTLY * candidate.times()
                                && candidate.isWithin(other)))
        .toList();
  }

  /** Returns the words of a phrase as they stand in a sentence. */
  private String written(String key, PhraseIndex.Sentence sentence) {
    String[] forms = sentence.forms().split(" ");
    int length = key.split(" ").length;
    for (int from = 0; from + length <= forms.length; from++) {
      StringBuilder stems = new StringBuilder();
      for (int i = from; i < from + length; i++) {
        stems.append(i > from ? " " : "").append(stem(forms[i]));
      }
      if (stems.toString().equals(key)) {
        return String.join(" ", Arrays.copyOfRange(forms, from, from + length));
      }
    }
    return key;
  }

  private String stem(String form) {
    return isWord(form) ? lexicon.forms().stem(form) : form;
  }

  @Override
  public void close() {
    set.close();
    if (background != null) {
      background.close();
    }
  }
}
