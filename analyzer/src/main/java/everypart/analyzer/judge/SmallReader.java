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
  private final float[][] segment;
  private final float[][] kind;
  private final float[][] side;
  private final float[][] norm = new float[WIDTH][];
  private final float[][] normBias = new float[WIDTH][];
  private final Layer[] near = new Layer[2];
  private final Layer query;
  private final Layer key;
  private final Layer asking;
  private final Layer saying;
  private final Layer first;
  private final Layer last;
  private final Layer evidence;

  /**
   * A product with a matrix, a row for each input, and what is added to it. Rows are arrays of
   * their own, since Java computes several numbers of such an array at once.
   */
  private static final class Layer {
    final float[][] matrix;
    final float[] bias;

    Layer(float[][] matrix, float[] bias) {
      this.matrix = matrix;
      this.bias = bias;
    }

    /** Adds the product with some input, which begins at a row of the matrix. */
    void add(float[] in, int row, float[] out) {
      addMixed(in, matrix, row, out);
    }
  }

  /** Adds some rows, from one on, each times a number; four at once, which halves the time. */
  private static void addMixed(float[] times, float[][] rows, int from, float[] out) {
    int i = 0;
    for (; i + 4 <= times.length; i += 4) {
      float[] a = rows[from + i];
      float[] b = rows[from + i + 1];
      float[] c = rows[from + i + 2];
      float[] d = rows[from + i + 3];
      addFour(times[i], times[i + 1], times[i + 2], times[i + 3], a, b, c, d, out);
    }
    for (; i < times.length; i++) {
      addTimes(times[i], rows[from + i], out);
    }
  }

  private static void addFour(
      float p, float q, float r, float s, float[] a, float[] b, float[] c, float[] d, float[] out) {
    for (int j = 0; j < out.length; j++) {
      out[j] += (p * a[j] + q * b[j]) + (r * c[j] + s * d[j]);
    }
  }

  /** Adds a number of times a row to another. */
  private static void addTimes(float x, float[] row, float[] out) {
    for (int j = 0; j < out.length; j++) {
      out[j] += x * row[j];
    }
  }

  /** A demand as read: a row for each word, what it looks for, and its first comparison. */
  static final class Asked {
    final int count;
    final int own;
    final int kind;
    final float[][] rows;
    final float[][] looks;
    final float[][] compared;

    Asked(int count, int own, int kind, float[][] rows, float[][] looks, float[][] compared) {
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
    final float[][] rows;
    final float[][] shows;
    final float[][] compared;
    final int[] ends;

    Said(int count, int own, float[][] rows, float[][] shows, float[][] compared, int[] ends) {
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
    segment = rows(in, SEGMENTS, size);
    kind = rows(in, kindCount, size);
    side = rows(in, SIDES, size);
    for (int i = 0; i < norm.length; i++) {
      norm[i] = floats(in, size);
      normBias[i] = floats(in, size);
    }
    for (int i = 0; i < near.length; i++) {
      near[i] = layer(in, WIDTH * size, size);
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
    float[][] rows = new float[count][];
    int own = 0;
    for (int i = 0; i < count; i++) {
      rows[i] = words.vector(found.get(i)).clone();
      own += places.get(i) == 1 ? 1 : 0;
      addTimes(1, segment[places.get(i)], rows[i]);
      addTimes(1, kind[place], rows[i]);
    }
    inContext(rows);
    return new Asked(count, own, place, rows, product(query, rows), product(asking, rows));
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
    int count = found.size();
    float[][] rows = new float[count][];
    for (int i = 0; i < count; i++) {
      rows[i] = words.vector(found.get(i)).clone();
    }
    inContext(rows);
    for (int i = 0; i < count; i++) {
      addTimes(1, side[i < ownCount ? 1 : 2], rows[i]);
    }
    float[][] byWord = product(key, rows);
    float[][] shows = new float[size][count];
    for (int t = 0; t < count; t++) {
      for (int j = 0; j < size; j++) {
        shows[j][t] = byWord[t][j];
      }
    }
    return new Said(count, ownCount, rows, shows, product(saying, rows), ends);
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
   * @return the log-odds that the demand is addressed, and how much each piece bears on it, 0 where
   *     it begins to; it says nothing of what an open demand lacks
   */
  Reader.Opinion opinion(Asked asked, Said said) {
    float[][] weights = likeness(asked, said);
    float[][] pools = new float[POOLS + 1][size];
    double[] bears = new double[said.count];
    float[] line = new float[asked.count];
    float[] met = new float[size];
    float[] both = new float[3 * size];
    float[] compared = new float[size];
    for (int t = 0; t < said.count; t++) {
      for (int i = 0; i < asked.count; i++) {
        line[i] = weights[i][t];
      }
      mix(line, asked.rows, met);
      compare(saying, said.rows[t], said.compared[t], met, both, compared);
      bears[t] = evidence.bias[0];
      for (int j = 0; j < size; j++) {
        bears[t] += compared[j] * evidence.matrix[j][0];
      }
      boolean isOwn = t < said.own;
      int pool = isOwn ? 0 : 2;
      addTimes(1f / (1 + (isOwn ? said.own : said.count - said.own)), compared, pools[pool]);
      raise(compared, pools[pool + 1]);
    }
    for (int i = 0; i < asked.count; i++) {
      mix(weights[i], said.rows, met);
      compare(asking, asked.rows[i], asked.compared[i], met, both, compared);
      if (i < asked.own) {
        addTimes(1f / (1 + asked.own), compared, pools[4]);
        raise(compared, pools[5]);
      }
      raise(compared, pools[6]);
    }
    pools[POOLS] = kind[asked.kind];
    float[] hidden = first.bias.clone();
    for (int i = 0; i <= POOLS; i++) {
      first.add(pools[i], i * size, hidden);
    }
    double sum = last.bias[0];
    for (int j = 0; j < HIDDEN; j++) {
      sum += Math.max(0, hidden[j]) * last.matrix[j][0];
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

  /** Returns how alike each word of the demand is to each of the answer, as positive numbers. */
  private float[][] likeness(Asked asked, Said said) {
    float[][] alike = new float[asked.count][said.count];
    float scale = (float) (1 / Math.sqrt(size));
    float most = Float.NEGATIVE_INFINITY;
    for (int i = 0; i < asked.count; i++) {
      addMixed(asked.looks[i], said.shows, 0, alike[i]);
      for (float each : alike[i]) {
        most = Math.max(most, each);
      }
    }
    for (float[] line : alike) {
      for (int t = 0; t < line.length; t++) {
        line[t] = (float) Math.exp((line[t] - most) * scale);
      }
    }
    return alike;
  }

  /** Mixes rows by the numbers of a line, turned into shares of one. */
  private static void mix(float[] line, float[][] rows, float[] out) {
    float sum = Float.MIN_NORMAL;
    for (float each : line) {
      sum += each;
    }
    for (int i = 0; i < line.length; i++) {
      line[i] /= sum;
    }
    Arrays.fill(out, 0);
    addMixed(line, rows, 0, out);
  }

  /** Compares a row with what it met on the other side; never below nought. */
  private void compare(
      Layer by, float[] row, float[] begun, float[] met, float[] both, float[] out) {
    System.arraycopy(begun, 0, out, 0, size);
    for (int j = 0; j < size; j++) {
      both[j] = met[j];
      both[size + j] = row[j] * met[j];
      both[2 * size + j] = Math.abs(row[j] - met[j]);
    }
    by.add(both, size, out);
    for (int j = 0; j < size; j++) {
      out[j] = Math.max(0, out[j]);
    }
  }

  private static void raise(float[] row, float[] highest) {
    for (int j = 0; j < row.length; j++) {
      highest[j] = Math.max(highest[j], row[j]);
    }
  }

  private static float[][] product(Layer layer, float[][] rows) {
    float[][] out = new float[rows.length][];
    for (int i = 0; i < rows.length; i++) {
      out[i] = layer.bias.clone();
      layer.add(rows[i], 0, out[i]);
    }
    return out;
  }

  /** Reads each row beside its neighbours, twice, in place. */
  private void inContext(float[][] rows) {
    level(rows, 0);
    for (int n = 0; n < near.length; n++) {
      float[][] read = new float[rows.length][];
      for (int i = 0; i < rows.length; i++) {
        read[i] = near[n].bias.clone();
        for (int w = 0; w < WIDTH; w++) {
          int other = i + w - 1;
          if (other >= 0 && other < rows.length) {
            near[n].add(rows[other], w * size, read[i]);
          }
        }
      }
      for (int i = 0; i < rows.length; i++) {
        for (int j = 0; j < size; j++) {
          rows[i][j] += Math.max(0, read[i][j]);
        }
      }
      level(rows, n + 1);
    }
  }

  /** Brings each row to mean 0 and variance 1, then to the learned scale. */
  private void level(float[][] rows, int n) {
    for (float[] row : rows) {
      float mean = 0;
      for (float each : row) {
        mean += each;
      }
      mean /= size;
      float spread = 0;
      for (float each : row) {
        spread += (each - mean) * (each - mean);
      }
      float scale = (float) (1 / Math.sqrt(spread / size + TINY));
      for (int j = 0; j < size; j++) {
        row[j] = (row[j] - mean) * scale * norm[n][j] + normBias[n][j];
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

  private static float[][] rows(DataInputStream in, int count, int width) throws IOException {
    float[][] rows = new float[count][];
    for (int i = 0; i < count; i++) {
      rows[i] = floats(in, width);
    }
    return rows;
  }

  private static Layer layer(DataInputStream in, int rows, int width) throws IOException {
    return new Layer(rows(in, rows, width), floats(in, width));
  }
}
