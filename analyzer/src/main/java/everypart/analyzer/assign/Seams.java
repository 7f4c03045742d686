package everypart.analyzer.assign;

import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.Token;
import everypart.lexicon.Lexicon;
import everypart.lexicon.WordWeights;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/**
 * Finds where a sentence may turn from one part's answer to the next one's: where clauses meet, and
 * where a writer who leaves out stops would have set one. It needs no parser; what is no turn costs
 * nothing, since the alignment only turns there when the words speak for it.
 */
final class Seams {
  /** The fewest words between two seams. Chosen by eye. */
  private static final int FEWEST = 2;

  /**
   * A sentence of more words than this is taken for several whose stops the writer left out. Chosen
   * by eye.
   */
  private static final int LONG = 24;

  private final WordWeights weights;
  private final Set<String> joiners;
  private final Set<String> openers;

  Seams(Lexicon lexicon) {
    this.weights = lexicon.weights();
    this.joiners = Set.copyOf(lexicon.taskVerbs().list("clauseJoiner"));
    this.openers = Set.copyOf(lexicon.taskVerbs().list("clauseOpener"));
  }

  /** Returns the first tokens of the clauses behind the first one. */
  List<Integer> in(String raw, Sentence sentence) {
    List<Integer> seams = new ArrayList<>();
    List<Token> tokens = sentence.tokens();
    boolean unstopped = sentence.size() > LONG;
    int last = 0;
    for (int i = 1; i < tokens.size(); i++) {
      boolean room = i - last > FEWEST && tokens.size() - i > FEWEST;
      if (room && tokens.get(i).isWord() && meets(raw, tokens, i, unstopped)) {
        seams.add(i);
        last = i;
      }
    }
    return seams;
  }

  private boolean meets(String raw, List<Token> tokens, int i, boolean unstopped) {
    String before = tokens.get(i - 1).form();
    String form = tokens.get(i).form();
    if (before.equals(";") || before.equals(",") || before.equals(":")) {
      return true;
    }
    if (joiners.contains(form)) {
      return true;
    }
    if (joiners.contains(before) || !openers.contains(form)) {
      return false;
    }
    boolean capital = Character.isUpperCase(raw.charAt(tokens.get(i).start())) && !form.equals("i");
    return (capital && tokens.get(i - 1).isWord())
        || (unstopped && weights.weight(tokens.get(i - 1).stem()) > 0);
  }
}
