package everypart.lexicon;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * All names of all concepts in one trie of stems, so that a text is searched in one pass.
 *
 * <p>At each token the longest name counts, and no token belongs to two concepts.
 */
final class ConceptMatcher {
  private static final class Node {
    final Map<String, Node> next = new HashMap<>(4);
    @Nullable String concept;
  }

  private final Node root = new Node();
  private final WordForms forms;

  ConceptMatcher(Collection<Concept> concepts, WordForms forms) {
    this.forms = forms;
    for (Concept concept : concepts) {
      add(concept.name(), concept.name());
      for (String variant : concept.variants()) {
        add(variant, concept.name());
      }
    }
  }

  private void add(String name, String concept) {
    Node node = root;
    for (String stem : stems(name, forms)) {
      node = node.next.computeIfAbsent(stem, key -> new Node());
    }
    if (node.concept == null) {
      node.concept = concept;
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
    List<ConceptMatch> matches = new ArrayList<>(4);
    int i = 0;
    while (i < words.size()) {
      Node node = root.next.get(words.stem(i));
      int end = i;
      String concept = null;
      for (int j = i; node != null; ) {
        j++;
        if (node.concept != null) {
          concept = node.concept;
          end = j;
        }
        node = j < words.size() ? node.next.get(words.stem(j)) : null;
      }
      if (concept == null) {
        i++;
      } else {
        matches.add(new ConceptMatch(concept, new TokenRange(i, end)));
        i = end;
      }
    }
    return matches.isEmpty() ? List.of() : List.copyOf(matches);
  }
}
