package everypart.analyzer.judge;

import everypart.lexicon.DemandKind;
import java.io.BufferedInputStream;
import java.io.DataInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * A small network that reads a demand beside an answer: what words mean, where the other jar is not
 * at hand.
 *
 * <p>Each word has a vector, from a table and from its runs of letters, so that a misspelled word
 * lies near the right one. Two convolutions of three words read them in context. Then each word
 * looks for its like on the other side (decomposable attention: Parikh, Täckström, Das, Uszkoreit
 * 2016), is compared with what it found, and the comparisons are pooled. {@code
 * analyzer/training/small_reader.py} learned the weights; one pass takes about as long as tagging
 * the answer. Serves all threads.
 */
final class SmallReader {
  private static final String FILE = "small-reader.bin";
  private static final int MOST_ASKED = 50;
  private static final int MOST_SET_UP = 60;
  private static final int MOST_DEMAND = 110;
  private static final int MOST_OWN = 150;
  private static final int MOST_REST = 100;
  private static final int SEGMENTS = 4;
  private static final int SIDES = 3;
  private static final int WIDTH = 3;
  private static final int POOLS = 7;
  private static final int HIDDEN = 64;

  /** Evidence of a piece for which there was no room. */
  private static final double UNREAD = -9;

  /**
   * The log-odds from which a piece counts as evidence, in the mean of its words: there precision
   * (0.72) and recall (0.87) of the marked clauses are highest together, on 3,685 answers.
   */
  private static final double ENOUGH = -1;

  /** What a layer adds to the variance before it divides, as in training. */
  private static final float TINY = 1e-5f;

  private final int size;
  private final SmallWords words;
  private final Map<String, Integer> kinds = new HashMap<>();
  private final float[] segment;
  private final float[] kind;
  private final float[] side;
  private final float[][] norm = new float[WIDTH][];
  private final float[][] normBias = new float[WIDTH][];
  private final float[][] near = new float[2][];
  private final float[][] nearBias = new float[2][];
  private final Layer query;
  private final Layer key;
  private final Layer asking;
  private final Layer saying;
  private final Layer first;
  private final Layer last;
  private final Layer evidence;

  /** A product with a matrix, rows by input, and what is added to it. */
  private static final class Layer {
    final float[] matrix;
    final float[] bias;

    Layer(float[] matrix, float[] bias) {
      this.matrix = matrix;
      this.bias = bias;
    }

    /** Adds the product with a stretch of the input, which begins at a row of the matrix. */
    void add(float[] in, int at, int count, int row, float[] out, int to) {
      int width = bias.length;
      for (int i = 0; i < count; i++) {
        float x = in[at + i];
        int from = (row + i) * width;
        for (int j = 0; j < width; j++) {
          out[to + j] += x * matrix[from + j];
        }
      }
    }
  }

  /** A demand as read: a row for each word, what it looks for, and its first comparison. */
  static final class Asked {
    final int count;
    final int own;
    final int kind;
    final float[] rows;
    final float[] looks;
    final float[] compared;

    Asked(int count, int own, int kind, float[] rows, float[] looks, float[] compared) {
      this.count = count;
      this.own = own;
      this.kind = kind;
      this.rows = rows;
      this.looks = looks;
      this.compared = compared;
    }
  }

  /**
   * An answer as read, what a part got first: likewise, but what it shows by column, and where the
   * words of each piece end.
   */
  static final class Said {
    final int count;
    final int own;
    final float[] rows;
    final float[] shows;
    final float[] compared;
    final int[] ends;

    Said(int count, int own, float[] rows, float[] shows, float[] compared, int[] ends) {
      this.count = count;
      this.own = own;
      this.rows = rows;
      this.shows = shows;
      this.compared = compared;
      this.ends = ends;
    }
  }

  private SmallReader(DataInputStream in) throws IOException {
    text(in);
    size = in.readInt();
    int known = in.readInt();
    int runs = in.readInt();
    int kindCount = in.readInt();
    for (String word : text(in).split("\n", -1)) {
      kinds.put(word, kinds.size());
    }
    words = new SmallWords(in, size, known, runs, text(in));
    segment = floats(in, SEGMENTS * size);
    kind = floats(in, kindCount * size);
    side = floats(in, SIDES * size);
    for (int i = 0; i < norm.length; i++) {
      norm[i] = floats(in, size);
      normBias[i] = floats(in, size);
    }
    for (int i = 0; i < near.length; i++) {
      near[i] = floats(in, WIDTH * size * size);
      nearBias[i] = floats(in, size);
    }
    query = layer(in, size, size);
    key = layer(in, size, size);
    asking = layer(in, 4 * size, size);
    saying = layer(in, 4 * size, size);
    first = layer(in, (POOLS + 1) * size, HIDDEN);
    last = layer(in, HIDDEN, 1);
    evidence = layer(in, size, 1);
  }

  /** Returns the one that is bundled, read on first need. */
  static SmallReader bundled() {
    return Bundled.READER;
  }

  private static final class Bundled {
    static final SmallReader READER = read();

    private static SmallReader read() {
      try (InputStream in = SmallReader.class.getResourceAsStream(FILE)) {
        if (in == null) {
          throw new IllegalStateException(FILE + " is not on the class path");
        }
        return new SmallReader(new DataInputStream(new BufferedInputStream(in, 1 << 16)));
      } catch (IOException e) {
        throw new UncheckedIOException(FILE + " can't be read", e);
      }
    }
  }

  /**
   * Reads a demand.
   *
   * @param demand the demand in words, as {@code DemandText} puts it
   */
  Asked asked(String demand, DemandKind of) {
    String wording = demand.substring(demand.indexOf(": ") + 2);
    String[] stretches = wording.split(" \\| ", -1);
    List<String> found = new ArrayList<>();
    List<Integer> places = new ArrayList<>();
    for (int i = 0; i < stretches.length && stretches.length <= SIDES; i++) {
      boolean setUp = i > 0 && i == stretches.length - 1;
      List<String> each = SmallWords.in(stretches[i]);
      List<String> kept =
          setUp
              ? each.subList(Math.max(0, each.size() - MOST_SET_UP), each.size())
              : each.subList(0, Math.min(MOST_ASKED, each.size()));
      found.addAll(kept);
      places.addAll(Collections.nCopies(kept.size(), setUp ? 3 : i + 1));
    }
    if (stretches.length > SIDES) {
      List<String> each = SmallWords.in(wording);
      found.addAll(each.subList(0, Math.min(MOST_ASKED, each.size())));
      places.addAll(Collections.nCopies(found.size(), 1));
    }
    int count = Math.min(MOST_DEMAND, found.size());
    int place = kinds.getOrDefault(of.word(), 0);
    float[] rows = new float[count * size];
    int own = 0;
    for (int i = 0; i < count; i++) {
      words.put(found.get(i), rows, i * size);
      own += places.get(i) == 1 ? 1 : 0;
      for (int j = 0; j < size; j++) {
        rows[i * size + j] += segment[places.get(i) * size + j] + kind[place * size + j];
      }
    }
    inContext(rows, count);
    return new Asked(
        count, own, place, rows, product(query, rows, count), product(asking, rows, count));
  }

  /**
   * Reads an answer.
   *
   * @param own the text that the part got, cut into pieces, in order
   * @param rest the rest of the response, likewise
   */
  Said said(List<String> own, List<String> rest) {
    List<String> found = new ArrayList<>();
    int[] ends = new int[own.size() + rest.size()];
    lay(own, MOST_OWN, found, ends, 0);
    int ownCount = found.size();
    lay(rest, MOST_REST, found, ends, own.size());
    float[] rows = new float[found.size() * size];
    for (int i = 0; i < found.size(); i++) {
      words.put(found.get(i), rows, i * size);
    }
    inContext(rows, found.size());
    for (int i = 0; i < found.size(); i++) {
      int at = i < ownCount ? 1 : 2;
      for (int j = 0; j < size; j++) {
        rows[i * size + j] += side[at * size + j];
      }
    }
    int count = found.size();
    float[] byWord = product(key, rows, count);
    float[] shows = new float[byWord.length];
    for (int t = 0; t < count; t++) {
      for (int j = 0; j < size; j++) {
        shows[j * count + t] = byWord[t * size + j];
      }
    }
    return new Said(count, ownCount, rows, shows, product(saying, rows, count), ends);
  }

  private static void lay(List<String> texts, int most, List<String> found, int[] ends, int at) {
    int limit = found.size() + most;
    for (String text : texts) {
      if (found.size() < limit) {
        List<String> each = SmallWords.in(text);
        found.addAll(each.subList(0, Math.min(each.size(), limit - found.size())));
      }
      ends[at++] = found.size();
    }
  }

  /**
   * What it makes of a demand and an answer.
   *
   * @return the log-odds that the demand is addressed, and how much each piece bears on it, 0 where it
   *     begins to; it says nothing of what an open demand lacks
   */
  Reader.Opinion opinion(Asked asked, Said said) {
    float[] weights = new float[asked.count * said.count];
    float scale = (float) (1 / Math.sqrt(size));
    for (int i = 0; i < asked.count; i++) {
      for (int j = 0; j < size; j++) {
        float look = asked.looks[i * size + j] * scale;
        for (int t = 0; t < said.count; t++) {
          weights[i * said.count + t] += look * said.shows[j * said.count + t];
        }
      }
    }
    float[] pooled = new float[(POOLS + 1) * size];
    double[] bears = new double[said.count];
    float[] line = new float[Math.max(asked.count, said.count)];
    float[] met = new float[size];
    float[] both = new float[3 * size];
    float[] compared = new float[size];
    for (int t = 0; t < said.count; t++) {
      for (int i = 0; i < asked.count; i++) {
        line[i] = weights[i * said.count + t];
      }
      mix(line, asked.count, asked.rows, met);
      compare(saying, said.rows, said.compared, t, met, both, compared);
      bears[t] = evidence.bias[0];
      for (int j = 0; j < size; j++) {
        bears[t] += compared[j] * evidence.matrix[j];
      }
      boolean isOwn = t < said.own;
      int others = said.count - said.own;
      pool(compared, pooled, isOwn ? 0 : 2, 1f / (1 + (isOwn ? said.own : others)));
    }
    for (int i = 0; i < asked.count; i++) {
      System.arraycopy(weights, i * said.count, line, 0, said.count);
      mix(line, said.count, said.rows, met);
      compare(asking, asked.rows, asked.compared, i, met, both, compared);
      if (i < asked.own) {
        pool(compared, pooled, 4, 1f / (1 + asked.own));
      }
      for (int j = 0; j < size; j++) {
        pooled[6 * size + j] = Math.max(pooled[6 * size + j], compared[j]);
      }
    }
    System.arraycopy(kind, asked.kind * size, pooled, POOLS * size, size);
    float[] hidden = first.bias.clone();
    first.add(pooled, 0, pooled.length, 0, hidden, 0);
    double sum = last.bias[0];
    for (int j = 0; j < HIDDEN; j++) {
      sum += Math.max(0, hidden[j]) * last.matrix[j];
    }
    return new Reader.Opinion(sum, means(bears, said.ends), List.of());
  }

  private static List<Double> means(double[] bears, int[] ends) {
    List<Double> means = new ArrayList<>();
    int from = 0;
    for (int end : ends) {
      means.add(
          from == end ? UNREAD : Arrays.stream(bears, from, end).sum() / (end - from) - ENOUGH);
      from = end;
    }
    return means;
  }

  /** Turns the first numbers of a line into shares of one, and mixes the rows by them. */
  private void mix(float[] line, int count, float[] rows, float[] out) {
    float most = Float.NEGATIVE_INFINITY;
    for (int i = 0; i < count; i++) {
      most = Math.max(most, line[i]);
    }
    float sum = 0;
    for (int i = 0; i < count; i++) {
      line[i] = (float) Math.exp(line[i] - most);
      sum += line[i];
    }
    Arrays.fill(out, 0);
    for (int i = 0; i < count; i++) {
      float share = line[i] / sum;
      for (int j = 0; j < size; j++) {
        out[j] += share * rows[i * size + j];
      }
    }
  }

  /** Compares a row with what it met on the other side; never below nought. */
  private void compare(
      Layer by, float[] rows, float[] begun, int row, float[] met, float[] both, float[] out) {
    int at = row * size;
    System.arraycopy(begun, at, out, 0, size);
    for (int j = 0; j < size; j++) {
      both[j] = met[j];
      both[size + j] = rows[at + j] * met[j];
      both[2 * size + j] = Math.abs(rows[at + j] - met[j]);
    }
    by.add(both, 0, both.length, size, out, 0);
    for (int j = 0; j < size; j++) {
      out[j] = Math.max(0, out[j]);
    }
  }

  /** Adds to the mean in one pool and to the highest in the next. */
  private void pool(float[] row, float[] pooled, int pool, float share) {
    int mean = pool * size;
    int high = mean + size;
    for (int j = 0; j < size; j++) {
      pooled[mean + j] += row[j] * share;
      pooled[high + j] = Math.max(pooled[high + j], row[j]);
    }
  }

  private float[] product(Layer layer, float[] rows, int count) {
    float[] out = new float[count * size];
    for (int i = 0; i < count; i++) {
      System.arraycopy(layer.bias, 0, out, i * size, size);
      layer.add(rows, i * size, size, 0, out, i * size);
    }
    return out;
  }

  /** Reads each row beside its neighbours, twice, in place. */
  private void inContext(float[] rows, int count) {
    level(rows, count, 0);
    for (int n = 0; n < near.length; n++) {
      Layer layer = new Layer(near[n], nearBias[n]);
      float[] read = new float[count * size];
      for (int i = 0; i < count; i++) {
        System.arraycopy(nearBias[n], 0, read, i * size, size);
        for (int w = 0; w < WIDTH; w++) {
          int other = i + w - 1;
          if (other >= 0 && other < count) {
            layer.add(rows, other * size, size, w * size, read, i * size);
          }
        }
      }
      for (int i = 0; i < rows.length; i++) {
        rows[i] += Math.max(0, read[i]);
      }
      level(rows, count, n + 1);
    }
  }

  /** Brings each row to mean 0 and variance 1, then to the learned scale. */
  private void level(float[] rows, int count, int n) {
    for (int i = 0; i < count; i++) {
      int at = i * size;
      float mean = 0;
      for (int j = 0; j < size; j++) {
        mean += rows[at + j];
      }
      mean /= size;
      float spread = 0;
      for (int j = 0; j < size; j++) {
        spread += (rows[at + j] - mean) * (rows[at + j] - mean);
      }
      float scale = (float) (1 / Math.sqrt(spread / size + TINY));
      for (int j = 0; j < size; j++) {
        rows[at + j] = (rows[at + j] - mean) * scale * norm[n][j] + normBias[n][j];
      }
    }
  }

  static String text(DataInputStream in) throws IOException {
    byte[] bytes = new byte[in.readInt()];
    in.readFully(bytes);
    return new String(bytes, StandardCharsets.UTF_8);
  }

  static float[] floats(DataInputStream in, int count) throws IOException {
    byte[] bytes = new byte[4 * count];
    in.readFully(bytes);
    float[] floats = new float[count];
    ByteBuffer.wrap(bytes).asFloatBuffer().get(floats);
    return floats;
  }

  private static Layer layer(DataInputStream in, int rows, int width) throws IOException {
    return new Layer(floats(in, rows * width), floats(in, width));
  }
}
