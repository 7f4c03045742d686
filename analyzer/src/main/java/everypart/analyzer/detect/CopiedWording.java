package everypart.analyzer.detect;

import everypart.analyzer.detect.WordClasses.Form;
import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.Token;
import java.util.Arrays;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * Tells whether a sentence hands back the prompt's wording: nearly all of it is runs of words from
 * the prompt, or all that it adds are words like "I" and "my". Marks and capitals do not matter.
 */
final class CopiedWording {
  private static final int RUN = 4;
  private static final double NEARLY_ALL = 0.85;

  /** From this many words on, a sentence that only adds words like "I" is handed back. */
  private static final int LONG = 8;

  private static final double MOST = 0.6;
  private static final Set<String> ADDS_NOTHING = Set.of("my", "a", "an", "the", "and");

  private final WordClasses words;
  private final Set<String> runs = new HashSet<>();
  private final Set<String> wholes = new HashSet<>();

  /** Keeps the wording of some sentences. */
  CopiedWording(Collection<Sentence> prompt, WordClasses words) {
    this.words = words;
    for (Sentence sentence : prompt) {
      List<Token> said = said(sentence);
      for (int i = 0; i + RUN <= said.size(); i++) {
        runs.add(join(said.subList(i, i + RUN)));
      }
      wholes.add(join(said));
    }
  }

  /** Tells whether a sentence only hands the wording back. */
  boolean holds(Sentence sentence) {
    List<Token> said = said(sentence);
    if (said.size() > 1 && wholes.contains(join(said))) {
      return true;
    }
    if (said.size() <= RUN) {
      return false;
    }
    boolean[] covered = new boolean[said.size()];
    int copied = 0;
    int all = said.size() - RUN + 1;
    for (int i = 0; i < all; i++) {
      if (runs.contains(join(said.subList(i, i + RUN)))) {
        Arrays.fill(covered, i, i + RUN, true);
        copied++;
      }
    }
    // A short phrase may be quoted as evidence; its closing mark counts as something added.
    int marked = all + (said.size() < sentence.size() ? 1 : 0);
    return copied >= NEARLY_ALL * marked || (said.size() >= LONG && addsNothing(said, covered));
  }

  private boolean addsNothing(List<Token> said, boolean[] covered) {
    int of = 0;
    for (int i = 0; i < covered.length; i++) {
      if (covered[i]) {
        of++;
        continue;
      }
      Token token = said.get(i);
      boolean label = token.form().length() == 1;
      if (!label && !words.is(token, Form.PRONOUN) && !ADDS_NOTHING.contains(token.form())) {
        return false;
      }
    }
    return of >= MOST * covered.length;
  }

  private static List<Token> said(Sentence sentence) {
    return sentence.tokens().stream().filter(token -> token.isWord() || token.isNumber()).toList();
  }

  private static String join(List<Token> tokens) {
    StringBuilder run = new StringBuilder();
    tokens.forEach(token -> run.append(token.form()).append(' '));
    return run.toString();
  }
}
