package everypart.analyzer.judge;

import everypart.analyzer.prompt.Demand;
import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.Span;
import everypart.analyzer.text.TextReader;
import everypart.analyzer.text.Token;
import everypart.lexicon.ConceptMatch;
import everypart.lexicon.DemandKind;
import everypart.lexicon.Lexicon;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * The words of a part by what they do: those that ask, those that set up the question, and those of
 * the stimulus. Made once a part and shared.
 */
final class PartWords {
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
