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
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.stream.IntStream;

/**
 * A small network that reads a demand beside an answer: what words mean, where the other jar is not
 * at hand.
 *
 * <p>Each word has a vector, from a table and from its runs of letters, so that a misspelled word
 * lies near the right one. Two convolutions of three words read them in context. Then each word
 * looks for its like on the other side (decomposable attention: Parikh, Täckström, Das, Uszkoreit
 * 2016), is compared with what it found, and the comparisons are pooled. {@code
 * analyzer/training/small_reader.py} learned the weights. Serves all threads.
 *
 * <p>Demands are read once ({@link #asked}), a response once ({@link #heard}), an answer that is
 * cut out of it nearly for nothing ({@link #said}); what is left for {@link #opinions} is the
 * comparison, in which demands that are read together share their loops.
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
  private static final int POOLS = 7;
  private static final int HIDDEN = 64;

  /** Evidence of a piece for which there was no room. */
  private static final double UNREAD = -9;

  /**
   * The log-odds from which a piece counts as evidence, in the mean of its words: there precision
   * (0.72) and recall (0.87) of the marked clauses are highest together, on 3,685 answers.
   */
  private static final double ENOUGH = -1;

  /** Demands of so many words go through the loops together: the numbers stay close at hand. */
  private static final int TOGETHER = 320;

  /** With fewer words of an answer a matrix is put before their mixing, not behind it. */
  private static final int FEW = 40;

  /** So many words go through one matrix before the next. */
  private static final int BLOCK = 32;

  private final int size;
  private final SmallWords words;
  private final SmallContext context;
  private final Map<String, Integer> kinds = new HashMap<>();
  private final float[][] segment;
  private final float[][] kind;

  /** What each side of an answer adds to its words. */
  private final Inside[] sides = new Inside[SIDES];

  private final Layer query;
  private final Layer key;
  private final Layer asking;
  private final Layer saying;
  private final Layer first;
  private final Layer last;
  private final float[] evidence;
  private final float evidenceBias;

  /** The matrix by which a demand's word is compared, a row for each number that comes of it. */
  private final float[][] askingTurned;

  /** Room for numbers on the way, used again: as many as there were threads at a time. */
  private final Queue<Bench> benches = new ConcurrentLinkedQueue<>();

  /** A product with a matrix, a row for each input, and what is added to it. */
  static final class Layer {
    final float[][] matrix;
    final float[] bias;

    Layer(float[][] matrix, float[] bias) {
      this.matrix = matrix;
      this.bias = bias;
    }

    /** Adds the product with some input, which begins at a row of the matrix. */
    void add(float[] in, int row, float[] out) {
      SmallSums.addMixed(in, 0, in.length, matrix, row, out, out.length);
    }

    /** Returns the product with some input, which begins at the first row, and the bias. */
    float[] of(float[] in) {
      float[] out = bias.clone();
      add(in, 0, out);
      return out;
    }
  }

  /** Some demands as read, in their order. */
  static final class Asked {
    private final List<Together> groups;

    Asked(List<Together> groups) {
      this.groups = List.copyOf(groups);
    }
  }

  /**
   * Demands that go through the loops together: for each word a row, and by column, a column a
   * word, the same, what it looks for and its first comparison.
   */
  private static final class Together {
    /** Where the words of each demand begin, and the end of the last. */
    final int[] begins;

    /** How many words of each demand are its own. */
    final int[] own;

    /** What the kind of each gives to the layer behind the pools. */
    final float[][] kinds;

    final float[][] rows;
    final float[][] columns;
    final float[][] looks;
    final float[][] compared;

    Together(List<One> demands, int size) {
      int count = demands.size();
      begins = new int[count + 1];
      own = new int[count];
      kinds = new float[count][];
      for (int d = 0; d < count; d++) {
        One one = demands.get(d);
        begins[d + 1] = begins[d] + one.rows.length;
        own[d] = one.own;
        kinds[d] = one.kind;
      }
      rows = joined(demands.stream().map(one -> one.rows).toList());
      columns = SmallSums.turned(rows, size);
      looks = SmallSums.turned(joined(demands.stream().map(one -> one.looks).toList()), size);
      compared = SmallSums.turned(joined(demands.stream().map(one -> one.compared).toList()), size);
    }

    private static float[][] joined(List<float[][]> each) {
      return each.stream().flatMap(Arrays::stream).toArray(float[][]::new);
    }

    int words() {
      return rows.length;
    }
  }

  /** One demand as read. */
  private static final class One {
    final int own;
    final float[] kind;
    final float[][] rows;
    final float[][] looks;
    final float[][] compared;

    One(int own, float[] kind, float[][] rows, float[][] looks, float[][] compared) {
      this.own = own;
      this.kind = kind;
      this.rows = rows;
      this.looks = looks;
      this.compared = compared;
    }
  }

  /**
   * A response as read, piece by piece, for all answers that are cut out of it. For one thread: a
   * word in its context is read on first need, and kept.
   */
  static final class Heard {
    private final List<String> words;
    private final int[] begins;
    private final Inside[] inside;

    private Heard(List<String> words, int[] begins) {
      this.words = words;
      this.begins = begins;
      this.inside = new Inside[words.size()];
    }

    /** Tells whether a word of an answer has the neighbours that it has in the response. */
    private boolean isAsHeard(int[] places, int i) {
      for (int off = -2; off <= 2; off++) {
        int there = places[i] + off;
        int here = i + off;
        boolean was = there >= 0 && there < words.size();
        boolean is = here >= 0 && here < places.length;
        if (was != is || (is && places[here] != there)) {
          return false;
        }
      }
      return true;
    }
  }

  /** A word of an answer in its context, and what is made of it without any demand. */
  private static final class Inside {
    final float[] row;
    final float[] shows;
    final float[] compared;

    /** What a demand's word that meets it gets into its comparison. */
    final float[] met;

    Inside(float[] row, float[] shows, float[] compared, float[] met) {
      this.row = row;
      this.shows = shows;
      this.compared = compared;
      this.met = met;
    }
  }

  /** An answer as read, what a part got first, and where the words of each piece end. */
  static final class Said {
    final int own;
    final float[][] rows;
    final float[][] shows;
    final float[][] compared;
    final float[][] columns;

    /** By column what demands get into their comparison, where words are few; else nothing. */
    final float[][] met;

    final int[] ends;

    private Said(int own, Inside[] words, Inside[] sides, int[] ends) {
      int count = words.length;
      int size = sides[0].row.length;
      this.own = own;
      this.ends = ends;
      this.rows = new float[count][];
      this.shows = new float[count][];
      this.compared = new float[count][];
      float[][] behind = new float[count < FEW ? count : 0][];
      for (int t = 0; t < count; t++) {
        Inside side = sides[t < own ? 1 : 2];
        rows[t] = SmallSums.sum(words[t].row, side.row);
        shows[t] = SmallSums.sum(words[t].shows, side.shows);
        compared[t] = SmallSums.sum(words[t].compared, side.compared);
        if (count < FEW) {
          behind[t] = SmallSums.sum(words[t].met, side.met);
        }
      }
      this.columns = SmallSums.turned(rows, size);
      this.met = SmallSums.turned(behind, size);
    }

    int count() {
      return rows.length;
    }
  }

  /** Room for numbers on the way. For one thread at a time. */
  private static final class Bench {
    /** How alike words are: a row for each word of the answer, a column for each of the demands. */
    float[][] alike = new float[0][];

    /** By word of the answer. */
    float[][] saidMet = new float[0][];

    float[][] saidProduct = new float[0][];
    float[][] saidApart = new float[0][];
    float[][] saidCompared = new float[0][];

    /** By column, a column for each word of the demands: first the products, then the distances. */
    float[][] askedBoth = new float[0][];

    float[][] askedMet = new float[0][];
    float[] asked = new float[0];
    float[] sums = new float[0];

    void fit(int size, int said, int askedWords) {
      alike = SmallSums.room(alike, said, askedWords);
      saidMet = SmallSums.room(saidMet, said, size);
      saidProduct = SmallSums.room(saidProduct, said, size);
      saidApart = SmallSums.room(saidApart, said, size);
      saidCompared = SmallSums.room(saidCompared, said, size);
      askedBoth = SmallSums.room(askedBoth, 2 * size, askedWords);
      askedMet = SmallSums.room(askedMet, size, askedWords);
      if (asked.length < askedWords) {
        asked = new float[askedWords];
        sums = new float[askedWords];
      }
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
    float[][] side = rows(in, SIDES, size);
    float[][] norm = new float[3][];
    float[][] normBias = new float[3][];
    for (int i = 0; i < norm.length; i++) {
      norm[i] = floats(in, size);
      normBias[i] = floats(in, size);
    }
    Layer[] near = new Layer[2];
    for (int i = 0; i < near.length; i++) {
      near[i] = layer(in, SmallContext.WIDTH * size, size);
    }
    context = new SmallContext(words, norm, normBias, near);
    query = layer(in, size, size);
    key = layer(in, size, size);
    asking = layer(in, 4 * size, size);
    saying = layer(in, 4 * size, size);
    first = layer(in, (POOLS + 1) * size, HIDDEN);
    last = layer(in, HIDDEN, 1);
    Layer bears = layer(in, size, 1);
    evidence = SmallSums.turned(bears.matrix, 1)[0];
    evidenceBias = bears.bias[0];
    askingTurned = SmallSums.turned(asking.matrix, size);
    for (int i = 0; i < SIDES; i++) {
      sides[i] = inside(side[i], key.bias, saying.bias);
    }
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

  /** Reads one demand, in words as {@code DemandText} puts it. */
  Asked asked(String demand, DemandKind of) {
    return asked(List.of(demand), List.of(of));
  }

  /**
   * Reads some demands that are to be judged beside the same answers.
   *
   * @param demands each in words, as {@code DemandText} puts it
   * @param of the kind of each
   */
  Asked asked(List<String> demands, List<DemandKind> of) {
    List<Together> groups = new ArrayList<>();
    List<One> group = new ArrayList<>();
    int together = 0;
    for (int d = 0; d < demands.size(); d++) {
      One one = one(demands.get(d), of.get(d));
      if (!group.isEmpty() && together + one.rows.length > TOGETHER) {
        groups.add(new Together(group, size));
        group.clear();
        together = 0;
      }
      group.add(one);
      together += one.rows.length;
    }
    if (!group.isEmpty()) {
      groups.add(new Together(group, size));
    }
    return new Asked(groups);
  }

  private One one(String demand, DemandKind of) {
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
    SmallContext.Word[] read = new SmallContext.Word[count];
    int own = 0;
    for (int i = 0; i < count; i++) {
      float[] vector = words.vector(found.get(i));
      own += places.get(i) == 1 ? 1 : 0;
      SmallSums.add(segment[places.get(i)], vector, size);
      SmallSums.add(kind[place], vector, size);
      read[i] = context.word(vector);
    }
    float[][] rows = context.twice(read);
    float scale = (float) (1 / Math.sqrt(size));
    float[][] looks = new float[count][];
    float[][] compared = new float[count][];
    for (int i = 0; i < count; i++) {
      looks[i] = query.of(rows[i]);
      for (int j = 0; j < size; j++) {
        looks[i][j] *= scale;
      }
      compared[i] = asking.of(rows[i]);
    }
    float[] hidden = first.bias.clone();
    first.add(kind[place], POOLS * size, hidden);
    return new One(own, hidden, rows, looks, compared);
  }

  /** Reads a response, cut into pieces. */
  Heard heard(List<String> pieces) {
    List<String> found = new ArrayList<>();
    int[] begins = new int[pieces.size() + 1];
    for (int i = 0; i < pieces.size(); i++) {
      found.addAll(SmallWords.in(pieces.get(i)));
      begins[i + 1] = found.size();
    }
    return new Heard(found, begins);
  }

  /**
   * Reads an answer.
   *
   * @param own the text that the part got, cut into pieces, in order
   * @param rest the rest of the response, likewise
   */
  Said said(List<String> own, List<String> rest) {
    List<String> pieces = new ArrayList<>(own);
    pieces.addAll(rest);
    return said(
        heard(pieces),
        IntStream.range(0, own.size()).boxed().toList(),
        IntStream.range(own.size(), pieces.size()).boxed().toList());
  }

  /**
   * Cuts an answer out of a response.
   *
   * @param own the places of the pieces that the part got, in order
   * @param rest those of the rest, or of the part of it that is to be seen
   */
  Said said(Heard heard, List<Integer> own, List<Integer> rest) {
    int[] places = new int[MOST_OWN + MOST_REST];
    int[] ends = new int[own.size() + rest.size()];
    int count = lay(heard, own, 0, MOST_OWN, places, ends, 0);
    int ownCount = count;
    count = lay(heard, rest, count, count + MOST_REST, places, ends, own.size());
    return new Said(ownCount, inside(heard, Arrays.copyOf(places, count)), sides, ends);
  }

  private static int lay(
      Heard heard, List<Integer> pieces, int from, int limit, int[] places, int[] ends, int end) {
    int count = from;
    int at = end;
    for (int piece : pieces) {
      for (int w = heard.begins[piece]; w < heard.begins[piece + 1] && count < limit; w++) {
        places[count++] = w;
      }
      ends[at++] = count;
    }
    return count;
  }

  private Inside[] inside(Heard heard, int[] places) {
    SmallContext.Word[] read = new SmallContext.Word[places.length];
    for (int i = 0; i < read.length; i++) {
      read[i] = context.word(heard.words.get(places[i]));
    }
    float[][] once = new float[places.length][];
    Inside[] all = new Inside[places.length];
    for (int i = 0; i < all.length; i++) {
      boolean asHeard = heard.isAsHeard(places, i);
      Inside known = asHeard ? heard.inside[places[i]] : null;
      if (known == null) {
        for (int near = Math.max(0, i - 1); near <= Math.min(i + 1, all.length - 1); near++) {
          once[near] = once[near] == null ? context.once(read, near) : once[near];
        }
        known = inside(context.twice(once, i), new float[size], new float[size]);
        if (asHeard) {
          heard.inside[places[i]] = known;
        }
      }
      all[i] = known;
    }
    return all;
  }

  /** Puts a row behind the matrices that it meets by itself, and adds what is given. */
  private Inside inside(float[] row, float[] shows, float[] compared) {
    float[] shown = shows.clone();
    key.add(row, 0, shown);
    float[] begun = compared.clone();
    saying.add(row, 0, begun);
    float[] met = new float[size];
    asking.add(row, size, met);
    return new Inside(row, shown, begun, met);
  }

  /** What it makes of one demand, as {@link #opinions}. */
  Reader.Opinion opinion(Asked asked, Said said) {
    return opinions(asked, said).get(0);
  }

  /**
   * What it makes of some demands and an answer.
   *
   * @return for each demand the log-odds that it is addressed, and how much each piece bears on it,
   *     0 where it begins to; it says nothing of what an open demand lacks
   */
  List<Reader.Opinion> opinions(Asked asked, Said said) {
    Bench known = benches.poll();
    Bench bench = known == null ? new Bench() : known;
    List<Reader.Opinion> opinions = new ArrayList<>();
    for (Together group : asked.groups) {
      opinions.addAll(opinions(group, said, bench));
    }
    benches.add(bench);
    return opinions;
  }

  private List<Reader.Opinion> opinions(Together asked, Said said, Bench bench) {
    bench.fit(size, said.count(), asked.words());
    likeness(asked, said, bench);
    int count = asked.own.length;
    float[][][] pools = new float[count][POOLS][size];
    double[][] bears = new double[count][said.count()];
    for (int d = 0; d < count; d++) {
      compareSaid(asked, d, said, bench, pools[d], bears[d]);
    }
    compareAsked(asked, said, bench, pools);
    List<Reader.Opinion> opinions = new ArrayList<>();
    for (int d = 0; d < count; d++) {
      float[] hidden = asked.kinds[d].clone();
      for (int i = 0; i < POOLS; i++) {
        first.add(pools[d][i], i * size, hidden);
      }
      double sum = last.bias[0];
      for (int j = 0; j < HIDDEN; j++) {
        sum += Math.max(0, hidden[j]) * last.matrix[j][0];
      }
      opinions.add(new Reader.Opinion(sum, means(bears[d], said.ends), List.of()));
    }
    return opinions;
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

  /** Computes how alike each word of the answer is to each of the demands, as positive numbers. */
  private void likeness(Together asked, Said said, Bench bench) {
    int width = asked.words();
    for (int t = 0; t < said.count(); t++) {
      Arrays.fill(bench.alike[t], 0, width, 0);
      SmallSums.addMixed(said.shows[t], 0, size, asked.looks, 0, bench.alike[t], width);
    }
    for (int d = 0; d < asked.own.length; d++) {
      float most = Float.NEGATIVE_INFINITY;
      for (int t = 0; t < said.count(); t++) {
        float[] line = bench.alike[t];
        for (int i = asked.begins[d]; i < asked.begins[d + 1]; i++) {
          most = line[i] > most ? line[i] : most;
        }
      }
      Arrays.fill(bench.sums, asked.begins[d], asked.begins[d + 1], most);
    }
    for (int t = 0; t < said.count(); t++) {
      SmallSums.exp(bench.alike[t], bench.sums, width);
    }
  }

  /** Compares each word of the answer with what it meets in a demand. */
  private void compareSaid(
      Together asked, int d, Said said, Bench bench, float[][] pools, double[] bears) {
    int from = asked.begins[d];
    int to = asked.begins[d + 1];
    for (int t = 0; t < said.count(); t++) {
      float[] met = bench.saidMet[t];
      float[] line = bench.alike[t];
      float share = 1 / (Float.MIN_NORMAL + SmallSums.sum(line, from, to));
      Arrays.fill(met, 0);
      SmallSums.addMixed(line, from, to - from, asked.rows, from, met, size);
      for (int j = 0; j < size; j++) {
        met[j] *= share;
      }
      SmallSums.product(said.rows[t], met, bench.saidProduct[t], size);
      SmallSums.distance(said.rows[t], met, bench.saidApart[t], size);
      System.arraycopy(said.compared[t], 0, bench.saidCompared[t], 0, size);
    }
    for (int block = 0; block < said.count(); block += BLOCK) {
      int end = Math.min(block + BLOCK, said.count());
      for (int t = block; t < end; t++) {
        saying.add(bench.saidMet[t], size, bench.saidCompared[t]);
      }
      for (int t = block; t < end; t++) {
        saying.add(bench.saidProduct[t], 2 * size, bench.saidCompared[t]);
      }
      for (int t = block; t < end; t++) {
        saying.add(bench.saidApart[t], 3 * size, bench.saidCompared[t]);
      }
    }
    for (int t = 0; t < said.count(); t++) {
      float[] compared = bench.saidCompared[t];
      SmallSums.cutAtNought(compared, size);
      bears[t] = evidenceBias + SmallSums.inner(compared, evidence, size);
      boolean isOwn = t < said.own;
      int pool = isOwn ? 0 : 2;
      float share = 1f / (1 + (isOwn ? said.own : said.count() - said.own));
      SmallSums.addTimes(share, compared, pools[pool], size);
      SmallSums.raise(compared, pools[pool + 1], size);
    }
  }

  /** Compares each word of the demands with what it meets in the answer. */
  private void compareAsked(Together asked, Said said, Bench bench, float[][][] pools) {
    int width = asked.words();
    float[][] shares = bench.alike;
    float[] sums = bench.sums;
    Arrays.fill(sums, 0, width, Float.MIN_NORMAL);
    for (int t = 0; t < said.count(); t++) {
      SmallSums.add(shares[t], sums, width);
    }
    for (int i = 0; i < width; i++) {
      sums[i] = 1 / sums[i];
    }
    for (int t = 0; t < said.count(); t++) {
      SmallSums.multiply(sums, shares[t], width);
    }
    for (int j = 0; j < size; j++) {
      float[] met = bench.askedMet[j];
      Arrays.fill(met, 0, width, 0);
      SmallSums.addMixed(said.columns[j], 0, said.count(), shares, 0, met, width);
      SmallSums.product(asked.columns[j], met, bench.askedBoth[j], width);
      SmallSums.distance(asked.columns[j], met, bench.askedBoth[size + j], width);
    }
    for (int j = 0; j < size; j++) {
      float[] compared = bench.asked;
      System.arraycopy(asked.compared[j], 0, compared, 0, width);
      if (said.count() < FEW) {
        SmallSums.addMixed(said.met[j], 0, said.count(), shares, 0, compared, width);
      } else {
        SmallSums.addMixed(askingTurned[j], size, size, bench.askedMet, 0, compared, width);
      }
      SmallSums.addMixed(askingTurned[j], 2 * size, 2 * size, bench.askedBoth, 0, compared, width);
      for (int d = 0; d < asked.own.length; d++) {
        pool(compared, asked.begins[d], asked.begins[d + 1], asked.own[d], j, pools[d]);
      }
    }
  }

  /** Pools one number of the words of a demand: the mean and most of its own, the most of all. */
  private static void pool(float[] compared, int from, int to, int own, int j, float[][] pools) {
    float sum = 0;
    float most = 0;
    for (int i = from; i < from + own; i++) {
      float each = Math.max(0, compared[i]);
      sum += each;
      most = Math.max(most, each);
    }
    pools[4][j] = sum / (1 + own);
    pools[5][j] = most;
    for (int i = from + own; i < to; i++) {
      most = compared[i] > most ? compared[i] : most;
    }
    pools[6][j] = most;
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
