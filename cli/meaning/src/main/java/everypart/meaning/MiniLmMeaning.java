package everypart.meaning;

import ai.onnxruntime.OnnxTensor;
import ai.onnxruntime.OrtEnvironment;
import ai.onnxruntime.OrtException;
import ai.onnxruntime.OrtSession;
import everypart.analyzer.meaning.SentenceMeaning;
import java.io.IOException;
import java.io.InputStream;
import java.util.Arrays;
import java.util.Map;
import java.util.Objects;

/**
 * Sentence vectors from all-MiniLM-L6-v2, a general model of English sentences with six layers and
 * 384 dimensions, with its weights as 8-bit integers, run by ONNX Runtime.
 *
 * <p>A sentence's vector is the mean over its word pieces, scaled to length 1 (Reimers and Gurevych
 * 2019, "Sentence-BERT"). Each sentence is run on its own: the integers are scaled over all that is
 * run together, so a sentence's vector would otherwise depend on its company.
 */
public final class MiniLmMeaning implements SentenceMeaning {
  private static final String MODEL = "/all-minilm-l6-v2-q.onnx";
  private static final String TOKENIZER = "/all-minilm-l6-v2-q-tokenizer.json";

  private final OrtEnvironment environment;
  private final OrtSession session;
  private final WordPieces pieces;

  /**
   * Opens the model.
   *
   * @throws IOException when the jar is incomplete, or ONNX Runtime refuses the model
   * @throws LinkageError when ONNX Runtime does not run on this system
   */
  public MiniLmMeaning() throws IOException {
    try (InputStream tokenizer = resource(TOKENIZER);
        InputStream model = resource(MODEL);
        OrtSession.SessionOptions options = new OrtSession.SessionOptions()) {
      pieces = WordPieces.read(tokenizer);
      environment = OrtEnvironment.getEnvironment();
      environment.setTelemetry(false);
      // The program runs a thread a core already.
      options.setIntraOpNumThreads(1);
      options.setInterOpNumThreads(1);
      session = environment.createSession(model.readAllBytes(), options);
    } catch (OrtException e) {
      throw new IOException("ONNX Runtime refused the model: " + e.getMessage(), e);
    }
  }

  /** Opens the vocabulary, which is also the reader's. */
  static InputStream tokenizer() throws IOException {
    return resource(TOKENIZER);
  }

  private static InputStream resource(String name) throws IOException {
    InputStream in = MiniLmMeaning.class.getResourceAsStream(name);
    if (in == null) {
      throw new IOException("the jar lacks " + name);
    }
    return in;
  }

  @Override
  public float[] vector(String sentence) {
    long[] numbers = pieces.of(sentence);
    long[] ones = new long[numbers.length];
    Arrays.fill(ones, 1);
    try (OnnxTensor ids = tensor(numbers);
        OnnxTensor mask = tensor(ones);
        OnnxTensor types = tensor(new long[numbers.length]);
        OrtSession.Result result =
            session.run(
                Map.of("input_ids", ids, "attention_mask", mask, "token_type_ids", types))) {
      float[][][] hidden = (float[][][]) Objects.requireNonNull(result.get(0).getValue());
      return mean(hidden[0]);
    } catch (OrtException e) {
      throw new IllegalStateException("ONNX Runtime failed on \"" + sentence + "\"", e);
    }
  }

  private OnnxTensor tensor(long[] values) throws OrtException {
    return OnnxTensor.createTensor(environment, new long[][] {values});
  }

  private static float[] mean(float[][] rows) {
    double[] sum = new double[rows[0].length];
    for (float[] row : rows) {
      for (int i = 0; i < sum.length; i++) {
        sum[i] += row[i];
      }
    }
    double norm = Math.sqrt(Arrays.stream(sum).map(x -> x * x).sum());
    float[] mean = new float[sum.length];
    for (int i = 0; i < mean.length; i++) {
      mean[i] = (float) (sum[i] / norm);
    }
    return mean;
  }
}
