package everypart.lexicon;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import org.apache.lucene.util.IntsRef;
import org.apache.lucene.util.IntsRefBuilder;
import org.apache.lucene.util.fst.FST;
import org.apache.lucene.util.fst.FSTCompiler;
import org.apache.lucene.util.fst.PositiveIntOutputs;

/**
 * All names of all concepts in one Lucene transducer over stems, so that a text is searched in one
 * pass.
 *
 * <p>At each token the longest name counts, and no token belongs to two concepts. The transducer is
 * what Lucene holds its own synonyms in: names share their beginnings and their ends, so lists of
 * many thousand names stay small.
 */
final class ConceptMatcher {
  private static final int UNKNOWN = -1;

  private final WordForms forms;
  private final Map<String, Integer> stemNumbers = new HashMap<>();
  private final List<String> concepts = new ArrayList<>();
  private final FST<Long> names;

  ConceptMatcher(Collection<Concept> concepts, WordForms forms) {
    this.forms = forms;
    SortedMap<IntsRef, Long> sorted = new TreeMap<>();
    for (Concept concept : concepts) {
      long number = this.concepts.size();
      this.concepts.add(concept.name());
      sorted.putIfAbsent(numbers(concept.name()), number);
      for (String variant : concept.variants()) {
        sorted.putIfAbsent(numbers(variant), number);
      }
    }
    this.names = compile(sorted);
  }

  private IntsRef numbers(String name) {
    IntsRefBuilder numbers = new IntsRefBuilder();
    for (String stem : stems(name, forms)) {
      numbers.append(stemNumbers.computeIfAbsent(stem, key -> stemNumbers.size()));
    }
    return numbers.get();
  }

  private static FST<Long> compile(SortedMap<IntsRef, Long> sorted) {
    PositiveIntOutputs outputs = PositiveIntOutputs.getSingleton();
    try {
      FSTCompiler<Long> compiler = new FSTCompiler.Builder<>(FST.INPUT_TYPE.BYTE4, outputs).build();
      for (Map.Entry<IntsRef, Long> name : sorted.entrySet()) {
        compiler.add(name.getKey(), name.getValue());
      }
      FST.FSTMetadata<Long> compiled = compiler.compile();
      if (compiled == null) {
        throw new IllegalArgumentException("a lexicon needs one concept or more");
      }
      return FST.fromFSTReader(compiled, compiler.getFSTReader());
    } catch (IOException e) {
      throw new UncheckedIOException("the concepts are held in memory; no file is read", e);
    }
  }

  /** Returns the stems of a name, split as texts are: words and figures, each mark by itself. */
  static List<String> stems(String name, WordForms forms) {
    List<String> stems = new ArrayList<>();
    for (String word : NameSplitter.split(name)) {
      stems.add(Character.isLetter(word.charAt(0)) ? forms.stem(word) : word);
    }
    return stems;
  }

  /** Returns the concepts in a run of tokens, in order, without overlap. */
  List<ConceptMatch> match(WordSequence words) {
    int size = words.size();
    int[] numbers = new int[size];
    for (int i = 0; i < size; i++) {
      Integer number = stemNumbers.get(words.stem(i));
      numbers[i] = number == null ? UNKNOWN : number;
    }
    List<ConceptMatch> matches = new ArrayList<>(4);
    FST.BytesReader reader = names.getBytesReader();
    FST.Arc<Long> arc = new FST.Arc<>();
    try {
      int i = 0;
      while (i < size) {
        int end = i;
        long concept = UNKNOWN;
        long sum = 0;
        names.getFirstArc(arc);
        for (int j = i; j < size && numbers[j] != UNKNOWN; j++) {
          if (names.findTargetArc(numbers[j], arc, arc, reader) == null) {
            break;
          }
          sum += arc.output();
          if (arc.isFinal()) {
            concept = sum + arc.nextFinalOutput();
            end = j + 1;
          }
        }
        if (concept == UNKNOWN) {
          i++;
        } else {
          matches.add(new ConceptMatch(concepts.get((int) concept), new TokenRange(i, end)));
          i = end;
        }
      }
    } catch (IOException e) {
      throw new UncheckedIOException("the concepts are held in memory; no file is read", e);
    }
    return matches.isEmpty() ? List.of() : List.copyOf(matches);
  }
}
