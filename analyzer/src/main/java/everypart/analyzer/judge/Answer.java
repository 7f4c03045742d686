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
 */
record Answer(List<Said> sentences, List<Clause> clauses) {
  Answer {
    sentences = List.copyOf(sentences);
    clauses = List.copyOf(clauses);
  }

  /**
   * A sentence with what the lexicon finds in it.
   *
   * @param index its place in the response
   */
  record Said(int index, Sentence sentence, List<CueMatch> cues, List<ConceptMatch> concepts) {
    Said {
      cues = List.copyOf(cues);
      concepts = List.copyOf(concepts);
    }
  }

  boolean isEmpty() {
    return clauses.isEmpty();
  }

  /** Returns this answer without one clause. */
  Answer without(int clause) {
    Clause left = clauses.get(clause);
    List<Clause> rest = new java.util.ArrayList<>(clauses);
    rest.remove(clause);
    boolean more = rest.stream().anyMatch(other -> other.sentenceIndex() == left.sentenceIndex());
    List<Said> kept =
        more
            ? sentences.stream()
                .map(said -> said.index() == left.sentenceIndex() ? cut(said, left) : said)
                .toList()
            : sentences.stream().filter(said -> said.index() != left.sentenceIndex()).toList();
    return new Answer(kept, rest);
  }

  private static Said cut(Said said, Clause clause) {
    return new Said(
        said.index(),
        said.sentence(),
        said.cues().stream()
            .filter(cue -> cue.at().to() <= clause.from() || cue.at().from() >= clause.to())
            .toList(),
        said.concepts().stream()
            .filter(match -> match.at().to() <= clause.from() || match.at().from() >= clause.to())
            .toList());
  }
}
