package everypart.lexicon;

import java.util.List;

/**
 * The way into the lexicon: cue patterns and concepts, found in a run of tokens.
 *
 * <p>A lexicon is built once and shared by all threads.
 */
public final class Lexicon {
  private final WordForms forms;

  private Lexicon(WordForms forms) {
    this.forms = forms;
  }

  /** Returns the lexicon that comes with the program. */
  public static Lexicon bundled() {
    return new Lexicon(new WordForms());
  }

  /** Returns the stemmer that tokens must be stemmed with to be matched. */
  public WordForms forms() {
    return forms;
  }

  /** Returns the cues in a run of tokens, by where they begin. */
  public List<CueMatch> cues(WordSequence words) {
    return List.of();
  }

  /**
   * Returns the concepts in a run of tokens, longest match first at each place, without overlap.
   */
  public List<ConceptMatch> concepts(WordSequence words) {
    return List.of();
  }
}
