package everypart.analyzer.prompt;

import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.Text;
import everypart.analyzer.text.Token;
import everypart.lexicon.TaskVerbs;
import java.util.ArrayList;
import java.util.List;

/** The sentences of a prompt's wording, as the reading of demands wants them. */
final class Sentences {

  private Sentences() {}

  /**
   * Returns the sentences, with those put together again that were parted behind an initial ("G.
   * lamblia").
   */
  static List<Sentence> joined(Text text, int offset, PlainWording wording) {
    List<Sentence> joined = new ArrayList<>();
    for (Sentence sentence : text.sentences()) {
      int last = joined.size() - 1;
      if (last >= 0 && goesOn(joined.get(last), sentence, text.raw())) {
        Sentence before = joined.get(last);
        List<Token> tokens = new ArrayList<>(before.tokens());
        tokens.addAll(sentence.tokens());
        joined.set(
            last,
            new Sentence(
                before.start(),
                sentence.end(),
                tokens,
                before.lineStart(),
                before.paragraphStart()));
      } else {
        joined.add(sentence);
      }
    }
    return joined;
  }

  private static boolean goesOn(Sentence before, Sentence after, String raw) {
    if (before.size() < 2) {
      return false;
    }
    Token initial = before.tokens().get(before.size() - 2);
    boolean small = Character.isLowerCase(raw.charAt(after.tokens().get(0).start()));
    return small
        && initial.end() - initial.start() == 1
        && Character.isUpperCase(raw.charAt(initial.start()));
  }

  static boolean isBullet(TaskVerbs verbs, Sentence sentence) {
    return sentence.lineStart() && verbs.isIn("bullet", sentence.form(0));
  }

  /** Returns for each sentence how many bullets follow it without a break; for a bullet, none. */
  static int[] bulletsAfter(TaskVerbs verbs, List<Sentence> sentences) {
    int[] bullets = new int[sentences.size()];
    int further = 0;
    for (int i = sentences.size() - 1; i >= 0; i--) {
      boolean bullet = isBullet(verbs, sentences.get(i));
      boolean before = i + 1 < sentences.size() && isBullet(verbs, sentences.get(i + 1));
      bullets[i] = before && !bullet ? further : 0;
      further = bullet ? further + 1 : sentences.get(i).lineStart() ? 0 : further;
    }
    return bullets;
  }
}
