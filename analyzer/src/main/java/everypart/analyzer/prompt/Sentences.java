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

  /** Returns how many bullets follow a sentence without a break. */
  static int bulletsAfter(TaskVerbs verbs, List<Sentence> sentences, int index) {
    int bullets = 0;
    for (int i = index + 1; i < sentences.size(); i++) {
      if (isBullet(verbs, sentences.get(i))) {
        bullets++;
      } else if (bullets == 0 || sentences.get(i).lineStart()) {
        break;
      }
    }
    return bullets;
  }
}
