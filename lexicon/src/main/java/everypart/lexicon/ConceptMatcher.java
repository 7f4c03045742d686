package everypart.lexicon;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Collection;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.apache.lucene.util.IntsRef;
import org.apache.lucene.util.fst.FST;
import org.apache.lucene.util.fst.FSTCompiler;
import org.apache.lucene.util.fst.PositiveIntOutputs;

/**
 * All names of all concepts in one Lucene transducer over numbered words, so that a text is
 * searched in one pass.
 *
 * <p>At each token the longest name counts, and no token belongs to two concepts. The transducer is
 * what Lucene holds its own synonyms in: names share their beginnings and their ends, so lists of
 * many thousand names stay small.
 *
 * <p>A name that is an everyday word ("base", "culture") counts only in company: another concept of
 * the run, or of what it is about, must belong to the same subject. Where several concepts have the
 * word for a name, the one with most company is taken. A phrase in which a name is innocent ("cell
 * phone") is found like a name and then dropped.
 */
final class ConceptMatcher {
  /** Company of a concept that is related to it; the three weights only rank. Chosen by eye. */
  private static final int DIRECT = 100;

  /** Company of a concept of the same unit. */
  private static final int SAME_UNIT = 10;

  /** Company of a concept of the same subject. */
  private static final int SAME_SUBJECT = 1;

  private final ConceptWords words;
  private final List<Concept> concepts;
  private final Map<String, Integer> byName = new HashMap<>();
  private final List<Set<Integer>> neighbours = new ArrayList<>();
  private final List<Sense> readings = new ArrayList<>();
  private final FST<Long> names;

  /** The numbers of words that are names by themselves. */
  private final BitSet alone = new BitSet();

  /** Hashes of the two words that longer names begin with. */
  private final BitSet pairs = new BitSet();

  /** One less than the number of hashes, which is a power of two. */
  private final int pairMask;

  /** What a name may stand for: no concept, one, or an everyday word's several. */
  private record Sense(List<Integer> concepts, boolean everyday) {}

  ConceptMatcher(Collection<Concept> concepts, ConceptWords words) {
    this.words = words;
    this.concepts = List.copyOf(concepts);
    SortedMap<IntsRef, Integer> sorted = new TreeMap<>();
    for (Concept concept : this.concepts) {
      byName.put(concept.name(), byName.size());
      neighbours.add(new HashSet<>());
    }
    for (Concept concept : this.concepts) {
      int number = byName.getOrDefault(concept.name(), 0);
      for (List<String> related : concept.relations().values()) {
        for (String other : related) {
          Integer index = byName.get(other);
          if (index != null) {
            neighbours.get(number).add(index);
            neighbours.get(index).add(number);
          }
        }
      }
      for (String name : concept.names()) {
        add(sorted, name, number, concept.everyday().contains(name));
      }
    }
    for (Concept concept : this.concepts) {
      for (String phrase : concept.never()) {
        IntsRef key = key(phrase);
        if (!sorted.containsKey(key)) {
          sorted.put(key, readings.size());
          readings.add(new Sense(List.of(), false));
        }
      }
    }
    this.names = compile(sorted);
    this.pairMask = Integer.highestOneBit(Math.max(1, sorted.size())) * 32 - 1;
    for (IntsRef name : sorted.keySet()) {
      if (name.length > 1) {
        pairs.set(pair(name.ints[0], name.ints[1]));
      } else if (name.length == 1 && name.ints[0] >= 0) {
        alone.set(name.ints[0]);
      }
    }
  }

  private IntsRef key(String name) {
    int[] numbers = words.ofName(name);
    return new IntsRef(numbers, 0, numbers.length);
  }

  private void add(SortedMap<IntsRef, Integer> sorted, String name, int concept, boolean everyday) {
    IntsRef key = key(name);
    Integer known = sorted.get(key);
    if (known == null) {
      sorted.put(key, readings.size());
      readings.add(new Sense(List.of(concept), everyday));
      return;
    }
    Sense before = readings.get(known);
    boolean has = before.concepts().contains(concept);
    if (has && before.everyday() && !everyday) {
      readings.set(known, new Sense(before.concepts(), before.concepts().size() > 1));
    } else if (!has && everyday && before.everyday()) {
      List<Integer> more = new ArrayList<>(before.concepts());
      more.add(concept);
      readings.set(known, new Sense(List.copyOf(more), true));
    }
  }

  private static FST<Long> compile(SortedMap<IntsRef, Integer> sorted) {
    PositiveIntOutputs outputs = PositiveIntOutputs.getSingleton();
    try {
      // Arcs are searched by halves: addressed directly, Lucene counts bits from a node's first arc
      // on, which at the first node takes as long as there are words.
      FSTCompiler<Long> compiler =
          new FSTCompiler.Builder<>(FST.INPUT_TYPE.BYTE4, outputs)
              .directAddressingMaxOversizingFactor(-1)
              .build();
      for (Map.Entry<IntsRef, Integer> name : sorted.entrySet()) {
        compiler.add(name.getKey(), (long) name.getValue());
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

  /** Returns the numbers of the words of a name; two names with the same ones are one. */
  List<Integer> keyOf(String name) {
    return Arrays.stream(words.ofName(name)).boxed().toList();
  }

  /** Returns the stems of a name, split as texts are: words and figures, each mark by itself. */
  static List<String> stems(String name, WordForms forms) {
    List<String> stems = new ArrayList<>();
    for (String word : NameSplitter.split(name)) {
      stems.add(Character.isLetter(word.charAt(0)) ? forms.stem(word) : word);
    }
    return stems;
  }

  /** A name found, and where. */
  private record NameFound(Sense reading, int from, int to) {
    private boolean plain() {
      return !reading.everyday() && reading.concepts().size() == 1;
    }
  }

  /**
   * Returns the concepts in a run of tokens, in order, without overlap.
   *
   * @param about names of concepts that the run is known to be about; they are company for everyday
   *     words
   */
  List<ConceptMatch> match(WordSequence sequence, Collection<String> about) {
    List<NameFound> found = find(sequence);
    if (found.isEmpty()) {
      return List.of();
    }
    boolean everyday = false;
    for (NameFound one : found) {
      everyday |= one.reading().everyday();
    }
    Set<Integer> company = everyday ? company(found, about) : Set.of();
    Map<Integer, Integer> times = everyday ? times(found) : Map.of();
    List<ConceptMatch> matches = new ArrayList<>(found.size());
    for (NameFound one : found) {
      int concept =
          one.plain()
              ? one.reading().concepts().get(0)
              : one.reading().everyday() ? choose(one, company, times) : ConceptWords.UNKNOWN;
      if (concept != ConceptWords.UNKNOWN) {
        matches.add(
            new ConceptMatch(concepts.get(concept).name(), new TokenRange(one.from(), one.to())));
      }
    }
    return List.copyOf(matches);
  }

  private Set<Integer> company(List<NameFound> found, Collection<String> about) {
    Set<Integer> company =
        found.stream()
            .filter(NameFound::plain)
            .map(one -> one.reading().concepts().get(0))
            .collect(Collectors.toSet());
    for (String name : about) {
      Integer concept = byName.get(name);
      if (concept != null) {
        company.add(concept);
      }
    }
    return company;
  }

  /** Returns how often each concept may be meant by an everyday word. */
  private static Map<Integer, Integer> times(List<NameFound> found) {
    Map<Integer, Integer> times = new HashMap<>();
    for (NameFound one : found) {
      if (one.reading().everyday()) {
        one.reading().concepts().forEach(concept -> times.merge(concept, 1, Integer::sum));
      }
    }
    return times;
  }

  /** Returns the concept of an everyday word that has most company, or none. */
  private int choose(NameFound word, Set<Integer> company, Map<Integer, Integer> times) {
    int best = ConceptWords.UNKNOWN;
    int most = 0;
    for (int concept : word.reading().concepts()) {
      int support = 0;
      for (int other : company) {
        support += support(concept, other);
      }
      for (Map.Entry<Integer, Integer> other : times.entrySet()) {
        int neighbour = other.getKey();
        if (neighbour != concept && neighbours.get(concept).contains(neighbour)) {
          // The word itself is no company.
          int itself = Collections.frequency(word.reading().concepts(), neighbour);
          support += DIRECT * (other.getValue() - itself);
        }
      }
      if (support > most) {
        most = support;
        best = concept;
      }
    }
    return best;
  }

  private int support(int concept, int other) {
    if (concept == other || neighbours.get(concept).contains(other)) {
      return DIRECT;
    }
    Concept one = concepts.get(concept);
    Concept two = concepts.get(other);
    if (!one.unit().isEmpty() && one.unit().equals(two.unit())) {
      return SAME_UNIT;
    }
    return one.subject().equals(two.subject()) ? SAME_SUBJECT : 0;
  }

  private int pair(int first, int second) {
    int hash = first * 0x9E3779B9 + second * 0x85EBCA6B;
    return (hash ^ (hash >>> 15)) & pairMask;
  }

  /**
   * Tells whether a name may begin at a word. Most words begin none, and are passed over here
   * without a way through the transducer, which would take the longer the more names there are.
   */
  private boolean mayBegin(int[] numbers, int i) {
    return numbers[i] != ConceptWords.UNKNOWN
        && (alone.get(numbers[i])
            || (i + 1 < numbers.length
                && numbers[i + 1] != ConceptWords.UNKNOWN
                && pairs.get(pair(numbers[i], numbers[i + 1]))));
  }

  private List<NameFound> find(WordSequence sequence) {
    int size = sequence.size();
    int[] numbers = new int[size];
    for (int i = 0; i < size; i++) {
      numbers[i] = words.of(sequence.form(i));
    }
    List<NameFound> found = new ArrayList<>(4);
    FST.BytesReader reader = names.getBytesReader();
    FST.Arc<Long> arc = new FST.Arc<>();
    try {
      int i = 0;
      while (i < size) {
        int end = i;
        long reading = ConceptWords.UNKNOWN;
        long sum = 0;
        if (mayBegin(numbers, i)) {
          names.getFirstArc(arc);
          for (int j = i; j < size && numbers[j] != ConceptWords.UNKNOWN; j++) {
            if (names.findTargetArc(numbers[j], arc, arc, reader) == null) {
              break;
            }
            sum += arc.output();
            if (arc.isFinal()) {
              reading = sum + arc.nextFinalOutput();
              end = j + 1;
            }
          }
        }
        if (reading == ConceptWords.UNKNOWN) {
          i++;
        } else {
          found.add(new NameFound(readings.get((int) reading), i, end));
          i = end;
        }
      }
    } catch (IOException e) {
      throw new UncheckedIOException("the concepts are held in memory; no file is read", e);
    }
    return found;
  }
}
