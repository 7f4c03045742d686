package everypart.analyzer.judge;

import everypart.analyzer.text.Sentence;
import everypart.lexicon.ConceptMatch;
import everypart.lexicon.CueMatch;
import java.util.List;

/**
 * The text that a part got, clause by clause, read once for all demands of the part.
 *
 * @param sentences its sentences, or the clauses that stand for them
 * @param clauses its clauses, in order
 * @param labelled the share of its sentences that the writer's own labels put where they are, 0..1
 */
record Answer(List<Said> sentences, List<Clause> clauses, double labelled) {
  Answer {
    sentences = List.copyOf(sentences);
    clauses = List.copyOf(clauses);
  }

  /**
   * A sentence with what the lexicon finds in it.
   *
   * @param index its place in the response
   * @param labelled whether the writer's own label says which part it answers
   */
  record Said(
      int index,
      Sentence sentence,
      List<CueMatch> cues,
      List<ConceptMatch> concepts,
      boolean labelled) {
    Said {
      cues = List.copyOf(cues);
      concepts = List.copyOf(concepts);
    }
  }

  /** Makes the answer of some sentences. */
  static Answer of(List<Said> sentences, List<Clause> clauses) {
    long labelled = sentences.stream().filter(Said::labelled).count();
    return new Answer(
        sentences, clauses, sentences.isEmpty() ? 0 : (double) labelled / sentences.size());
  }

  boolean isEmpty() {
    return clauses.isEmpty();
  }
}
