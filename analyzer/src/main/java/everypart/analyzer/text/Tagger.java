package everypart.analyzer.text;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import opennlp.tools.postag.POSModel;
import opennlp.tools.postag.POSTaggerME;

/**
 * Gives the part of speech of each token of a sentence, in the tags of Universal Dependencies
 * (NOUN, VERB, ADJ, ...).
 *
 * <p>The tagger reads 0.16 million tokens a second, so it is asked only for sentences in which a
 * tag decides something. The model is loaded on first need and shared by all threads.
 */
public final class Tagger {
  private static final String MODEL = "/opennlp-en-ud-ewt-pos-1.3-2.5.4.bin";

  /**
   * The tagger copies what it has found at each token, so its time grows with the square of a
   * sentence. No sentence that people write is longer than this; what is, is read in shorter
   * stretches.
   */
  static final int LONGEST = 400;

  private static final int STRETCH = 100;

  private static final class Model {
    static final POSModel INSTANCE = load();

    private static POSModel load() {
      try (InputStream in = Tagger.class.getResourceAsStream(MODEL)) {
        if (in == null) {
          throw new IllegalStateException("tagger model " + MODEL + " is not on the class path");
        }
        return new POSModel(in);
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }

  private final ThreadLocal<POSTaggerME> taggers =
      ThreadLocal.withInitial(() -> new POSTaggerME(Model.INSTANCE));

  /** Returns a tag for each token of the sentence, in order. */
  public List<String> tags(Text text, Sentence sentence) {
    String[] words =
        sentence.tokens().stream().map(token -> token.span().of(text.raw())).toArray(String[]::new);
    if (words.length <= LONGEST) {
      return List.of(taggers.get().tag(words));
    }
    List<String> tags = new ArrayList<>(words.length);
    for (int from = 0; from < words.length; from += STRETCH) {
      int to = Math.min(from + STRETCH, words.length);
      tags.addAll(List.of(taggers.get().tag(Arrays.copyOfRange(words, from, to))));
    }
    return List.copyOf(tags);
  }
}
