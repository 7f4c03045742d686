package everypart.analyzer.judge;

import everypart.analyzer.prompt.Demand;
import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.Span;
import everypart.analyzer.text.TextReader;
import everypart.analyzer.text.Token;
import everypart.lexicon.Concept;
import everypart.lexicon.ConceptMatch;
import everypart.lexicon.DemandKind;
import everypart.lexicon.Lexicon;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;

/**
 * The words of a part by what they do: those that ask, those that set up the question, and those of
 * the stimulus. Made once a part and shared.
 */
final class PartWords {
  private static final int MOST_REMEMBERED = 1_000;

  final Part part;

  /** The content of each demand's asking words. */
  final List<Vocabulary> asked;

  /** The content of the options that each demand names, one set an option. */
  final List<List<Set<String>>> options;

  /** The content of the whole part. */
  final Vocabulary own;

  /** The content of the whole prompt. */
  final Vocabulary all;

  final Set<String> numbers = new HashSet<>();
  final Set<String> concepts = new HashSet<>();
  final Set<String> runs = new HashSet<>();
  final CopiedWording copied;

  /** The features of each demand that no response changes. */
  final List<Values> frames;

  /** Whether concepts that answers named are related to the part's own, as looked up before. */
  private final Map<String, Boolean> related = new ConcurrentHashMap<>();

  /** The demands as the small reader sees them, once they were asked for. */
  private volatile SmallReader.@Nullable Asked small;

  PartWords(
      Prompt prompt,
      Part part,
      TextReader texts,
      ClauseSplitter clauses,
      Lexicon lexicon,
      WordClasses words) {
    this.part = part;
    List<Sentence> sentences = new ArrayList<>(texts.read(prompt.stimulus()).sentences());
    List<Sentence> ownSentences = texts.read(part.text()).sentences();
    sentences.addAll(ownSentences);
    Set<String> allWords = new HashSet<>();
    for (Sentence sentence : sentences) {
      allWords.addAll(clauses.content(sentence.tokens()));
      numbers.addAll(NumberWords.in(sentence.tokens()));
      for (ConceptMatch match : lexicon.concepts(sentence)) {
        concepts.add(match.concept());
      }
      addRuns(sentence, runs);
    }
    this.all = new Vocabulary(allWords);
    this.own = content(ownSentences, clauses);
    List<Vocabulary> each = new ArrayList<>();
    List<List<Set<String>>> choices = new ArrayList<>();
    for (Demand demand : part.demands()) {
      each.add(content(texts.read(words(prompt, demand.span())).sentences(), clauses));
      List<Set<String>> named = new ArrayList<>();
      for (String option : demand.asking().options()) {
        named.add(Set.copyOf(content(texts.read(option).sentences(), clauses).words()));
      }
      choices.add(List.copyOf(named));
    }
    this.asked = List.copyOf(each);
    this.options = List.copyOf(choices);
    this.copied = new CopiedWording(sentences, words);
    List<Values> framed = new ArrayList<>();
    for (int place = 0; place < part.demands().size(); place++) {
      framed.add(Features.frame(part.demands(), place, prompt.parts().size() > 1));
    }
    this.frames = List.copyOf(framed);
  }

  /** Returns all demands of the part as the small reader sees them. */
  SmallReader.Asked askedBySmallReader(Prompt prompt) {
    SmallReader.Asked known = small;
    if (known == null) {
      List<String> wordings = new ArrayList<>();
      for (int place = 0; place < part.demands().size(); place++) {
        wordings.add(DemandText.plain(prompt, part, place));
      }
      List<DemandKind> kinds = part.demands().stream().map(Demand::kind).toList();
      known = SmallReader.bundled().asked(wordings, kinds);
      small = known;
    }
    return known;
  }

  /** Tells whether a concept is related to one of the part's. */
  boolean isRelated(String name, Lexicon lexicon) {
    Boolean known = related.get(name);
    if (known == null) {
      known = lexicon.concept(name).map(concept -> isRelated(concept, lexicon)).orElse(false);
      if (related.size() < MOST_REMEMBERED) {
        related.put(name, known);
      }
    }
    return known;
  }

  private boolean isRelated(Concept concept, Lexicon lexicon) {
    List<String> others = concept.relates();
    for (String other : concepts) {
      if (others.contains(other)
          || lexicon.concept(other).map(o -> o.relates().contains(concept.name())).orElse(false)) {
        return true;
      }
    }
    return false;
  }

  private static String words(Prompt prompt, Span span) {
    return span.end() <= prompt.text().length() ? span.of(prompt.text()) : "";
  }

  private static Vocabulary content(List<Sentence> sentences, ClauseSplitter clauses) {
    Set<String> words = new HashSet<>();
    sentences.forEach(sentence -> words.addAll(clauses.content(sentence.tokens())));
    return new Vocabulary(words);
  }

  /** Adds the runs of three words of a sentence. */
  static void addRuns(Sentence sentence, Set<String> runs) {
    List<String> said = new ArrayList<>();
    for (Token token : sentence.tokens()) {
      if (token.isWord() || token.isNumber()) {
        said.add(token.stem());
      }
    }
    for (int i = 0; i + 3 <= said.size(); i++) {
      runs.add(String.join(" ", said.subList(i, i + 3)));
    }
  }
}
