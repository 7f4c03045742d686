package everypart.analyzer.judge;

import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;

/**
 * Reads words in their context, for the small reader: two convolutions of three words. What a word
 * brings to the first depends on nothing but the word, and is kept. Serves all threads.
 */
final class SmallContext {
  /** How many words each convolution sees. */
  static final int WIDTH = 3;

  private static final int MOST_KEPT = 8_000;

  /** What a layer adds to the variance before it divides, as in training. */
  private static final float TINY = 1e-5f;

  private final int size;
  private final SmallWords words;
  private final float[][] norm;
  private final float[][] normBias;
  private final SmallReader.Layer[] near;

  /** Words that were met, up to a bound: answers to one prompt share most of their words. */
  private final Map<String, Word> kept = new ConcurrentHashMap<>();

  /**
   * Makes it of the words' vectors and the learned numbers.
   *
   * @param norm the scales of the vectors, and of what comes of each convolution
   * @param normBias what is added to them
   * @param near the convolutions
   */
  SmallContext(SmallWords words, float[][] norm, float[][] normBias, SmallReader.Layer[] near) {
    this.size = norm[0].length;
    this.words = words;
    this.norm = norm;
    this.normBias = normBias;
    this.near = near;
  }

  /** A word without context. */
  static final class Word {
    private final float[] row;

    /** What it brings to the first convolution of the word behind it, its own, and that before. */
    private final float[][] brings;

    private Word(float[] row, float[][] brings) {
      this.row = row;
      this.brings = brings;
    }
  }

  Word word(String word) {
    Word known = kept.get(word);
    if (known == null) {
      known = word(words.vector(word));
      if (kept.size() < MOST_KEPT) {
        kept.put(word, known);
      }
    }
    return known;
  }

  /** Makes a word of a vector, which is changed. */
  Word word(float[] vector) {
    level(vector, 0);
    float[][] brings = new float[WIDTH][size];
    for (int w = 0; w < WIDTH; w++) {
      near[0].add(vector, w * size, brings[w]);
    }
    return new Word(vector, brings);
  }

  /** Reads a word beside its neighbours for the first time. */
  float[] once(Word[] words, int i) {
    float[] read = near[0].bias.clone();
    for (int w = 0; w < WIDTH; w++) {
      int other = i + w - 1;
      if (other >= 0 && other < words.length) {
        SmallSums.add(words[other].brings[w], read, size);
      }
    }
    return added(read, words[i].row, 1);
  }

  /** Reads a word beside its neighbours for the second time. */
  float[] twice(float[][] once, int i) {
    float[] read = near[1].bias.clone();
    for (int w = 0; w < WIDTH; w++) {
      int other = i + w - 1;
      if (other >= 0 && other < once.length) {
        near[1].add(once[other], w * size, read);
      }
    }
    return added(read, once[i], 2);
  }

  /** Reads all words of a text. */
  float[][] twice(Word[] words) {
    float[][] once = new float[words.length][];
    for (int i = 0; i < words.length; i++) {
      once[i] = once(words, i);
    }
    float[][] rows = new float[words.length][];
    for (int i = 0; i < words.length; i++) {
      rows[i] = twice(once, i);
    }
    return rows;
  }

  private float[] added(float[] read, float[] row, int n) {
    SmallSums.cutAtNought(read, size);
    SmallSums.add(row, read, size);
    level(read, n);
    return read;
  }

  /** Brings a row to mean 0 and variance 1, then to the learned scale. */
  private void level(float[] row, int n) {
    float mean = SmallSums.sum(row, 0, size) / size;
    for (int j = 0; j < row.length; j++) {
      row[j] -= mean;
    }
    float scale = (float) (1 / Math.sqrt(SmallSums.inner(row, row, size) / size + TINY));
    float[] times = norm[n];
    float[] bias = normBias[n];
    for (int j = 0; j < row.length; j++) {
      row[j] = row[j] * scale * times[j] + bias[j];
    }
  }
}
