package everypart.meaning;

import ai.onnxruntime.OnnxTensor;
import ai.onnxruntime.OrtEnvironment;
import ai.onnxruntime.OrtException;
import ai.onnxruntime.OrtSession;
import everypart.analyzer.judge.Reader;
import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * The reader: an encoder of 33 million weights, 8 bits each, trained by {@code analyzer/training}
 * to read a demand beside an answer. It gives the log-odds that the demand is addressed (from the
 * mean of the last layer), how much each word piece bears on it, and what an open demand lacks.
 *
 * <p>The input is: start, demand, end, own text, end, and where there is a rest: rest, end; the own
 * text has type 1, all else type 0. What is too long is cut as it was in training. Each pair is run
 * on its own: the integers are scaled over all that is run together.
 */
public final class EncoderReader implements Reader {
  private static final String MODEL = "/everypart/meaning/reader.onnx";
  private static final int MOST_DEMAND = 120;
  private static final int MOST_OWN = 180;
  private static final int MOST_REST = 200;
  private static final String NO_TEXT = "(nothing)";

  /** What is said of a piece that was cut off, as unlikely as can be. */
  private static final double UNREAD = -20;

  private final OrtEnvironment environment;
  private final WordPieces pieces;

  /** The model as it lies in the jar, until a session was made of it. */
  private byte @Nullable [] model;

  private @Nullable OrtSession session;

  /**
   * Opens the model.
   *
   * @throws IOException when the jar is incomplete, or ONNX Runtime refuses the model
   * @throws LinkageError when ONNX Runtime does not run on this system
   */
  public EncoderReader() throws IOException {
    try (InputStream tokenizer = MiniLmMeaning.tokenizer();
        InputStream file = EncoderReader.class.getResourceAsStream(MODEL)) {
      if (file == null) {
        throw new IOException("the jar lacks " + MODEL);
      }
      pieces = WordPieces.read(tokenizer);
      model = file.readAllBytes();
      environment = OrtEnvironment.getEnvironment();
      environment.setTelemetry(false);
    } catch (OrtException e) {
      throw new IOException("ONNX Runtime refused the model: " + e.getMessage(), e);
    }
  }

  @Override
  public Reader oneAtATime() {
    session(Runtime.getRuntime().availableProcessors());
    return this;
  }

  /**
   * Returns the session, made on first need.
   *
   * @param threads how many threads share the work on one pair; they do not spin while they wait,
   *     which would take the cores from everybody else
   */
  private synchronized OrtSession session(int threads) {
    if (session == null) {
      try (OrtSession.SessionOptions options = new OrtSession.SessionOptions()) {
        options.setIntraOpNumThreads(threads);
        options.addConfigEntry("session.intra_op.allow_spinning", "0");
        options.setInterOpNumThreads(1);
        session = environment.createSession(Objects.requireNonNull(model), options);
      } catch (OrtException e) {
        throw new IllegalStateException("ONNX Runtime refused the model", e);
      }
      model = null;
    }
    return session;
  }

  @Override
  public Opinion read(String demand, List<String> own, List<String> rest) {
    List<Integer> numbers = new ArrayList<>();
    numbers.add(pieces.start());
    List<Integer> asked = pieces.bare(demand);
    numbers.addAll(asked.subList(0, Math.min(MOST_DEMAND, asked.size())));
    numbers.add(pieces.end());
    int ownFrom = numbers.size();
    List<int[]> places = new ArrayList<>();
    lay(own, MOST_OWN, numbers, places);
    if (numbers.size() == ownFrom) {
      numbers.addAll(pieces.bare(NO_TEXT));
    }
    numbers.add(pieces.end());
    int ownTo = numbers.size();
    lay(rest, MOST_REST, numbers, places);
    if (numbers.size() > ownTo) {
      numbers.add(pieces.end());
    }
    long[] ids = numbers.stream().mapToLong(Integer::longValue).toArray();
    long[] types = new long[ids.length];
    Arrays.fill(types, ownFrom, ownTo, 1);
    long[] ones = new long[ids.length];
    Arrays.fill(ones, 1);
    try (OnnxTensor input = tensor(ids);
        OnnxTensor mask = tensor(ones);
        OnnxTensor type = tensor(types);
        OrtSession.Result result =
            session(1)
                .run(Map.of("input_ids", input, "attention_mask", mask, "token_type_ids", type))) {
      float[][] addressed = (float[][]) value(result, "addressed");
      float[][][] evidence = (float[][][]) value(result, "evidence");
      float[][] lacks = (float[][]) value(result, "lacks");
      List<Double> bearing = new ArrayList<>();
      for (int[] place : places) {
        bearing.add(mean(evidence[0], place[0], place[1]));
      }
      List<Double> scores = new ArrayList<>();
      for (float score : lacks[0]) {
        scores.add((double) score);
      }
      return new Opinion(addressed[0][0], bearing, scores);
    } catch (OrtException e) {
      throw new IllegalStateException("ONNX Runtime failed on a pair of " + ids.length, e);
    }
  }

  /** Adds the pieces of some texts, as many as there is room for, and says where each stands. */
  private void lay(List<String> texts, int most, List<Integer> numbers, List<int[]> places) {
    int limit = numbers.size() + most;
    for (String text : texts) {
      int from = numbers.size();
      for (int number : from < limit ? pieces.bare(text) : Collections.<Integer>emptyList()) {
        if (numbers.size() < limit) {
          numbers.add(number);
        }
      }
      places.add(new int[] {from, numbers.size()});
    }
  }

  private static double mean(float[][] rows, int from, int to) {
    double sum = 0;
    for (int i = from; i < to; i++) {
      sum += rows[i][0];
    }
    return from == to ? UNREAD : sum / (to - from);
  }

  private static Object value(OrtSession.Result result, String name) throws OrtException {
    return Objects.requireNonNull(result.get(name).orElseThrow().getValue());
  }

  private OnnxTensor tensor(long[] values) throws OrtException {
    return OnnxTensor.createTensor(environment, new long[][] {values});
  }
}
