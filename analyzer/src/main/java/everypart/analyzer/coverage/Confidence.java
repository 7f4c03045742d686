package everypart.analyzer.coverage;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import everypart.lexicon.DemandKind;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/**
 * How likely a verdict is right: a logistic curve over a few signs, one for verdicts that found
 * something and one for "missing". Its numbers were fitted on coded answers and lie in {@code
 * confidence.yaml}, which says when and on what.
 */
final class Confidence {
  private static final String FILE = "confidence.yaml";

  /** Strengths nearer to 0 or 1 than this tell nothing more. */
  private static final double LEAST = 0.02;

  /** Names of the weights in the file, in the order of {@link Signs#values}. */
  static final List<String> WEIGHTS = List.of("base", "strength", "length", "parts", "open");

  /** Kinds whose answers have no set form, which makes them harder to judge. */
  private static final Set<DemandKind> OPEN =
      EnumSet.of(
          DemandKind.DEFINE,
          DemandKind.DESCRIBE,
          DemandKind.EXPLAIN,
          DemandKind.JUSTIFY,
          DemandKind.COMPARE);

  /**
   * What tells how sure a verdict is.
   *
   * @param found whether anything was found, so that the verdict is not "missing"
   * @param strength how clear the signs are that the demand is addressed, 0 to 1
   * @param words how many tokens were given to the part
   * @param severalParts whether the prompt has more parts than one
   * @param kind the kind of demand
   */
  record Signs(boolean found, double strength, int words, boolean severalParts, DemandKind kind) {
    /** Returns the signs as numbers, in the order of {@link #WEIGHTS}. */
    double[] values() {
      double forVerdict = found ? strength : 1 - strength;
      double bounded = Math.min(1 - LEAST, Math.max(LEAST, forVerdict));
      return new double[] {
        1,
        Math.log(bounded / (1 - bounded)),
        Math.log1p(words),
        severalParts ? 1 : 0,
        OPEN.contains(kind) ? 1 : 0
      };
    }
  }

  private final double[] found;
  private final double[] missing;
  private final double lookBelow;

  /** Makes a curve with given weights. */
  Confidence(double[] found, double[] missing, double lookBelow) {
    this.found = found.clone();
    this.missing = missing.clone();
    this.lookBelow = lookBelow;
  }

  private static final class Bundled {
    static final Confidence INSTANCE = read();
  }

  /** Returns the curve that comes with the program. */
  static Confidence bundled() {
    return Bundled.INSTANCE;
  }

  private static Confidence read() {
    try (InputStream in = Confidence.class.getResourceAsStream(FILE)) {
      if (in == null) {
        throw new IllegalStateException(FILE + " is not on the class path");
      }
      JsonNode root = new YAMLMapper().readTree(in);
      return new Confidence(
          weights(root, "found"), weights(root, "missing"), number(root, "look-below"));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static double[] weights(JsonNode root, String name) {
    List<Double> weights = new ArrayList<>();
    WEIGHTS.forEach(weight -> weights.add(number(root.path(name), weight)));
    return weights.stream().mapToDouble(Double::doubleValue).toArray();
  }

  private static double number(JsonNode node, String name) {
    JsonNode value = node.path(name);
    if (!value.isNumber()) {
      throw new IllegalStateException(FILE + ": \"" + name + "\" is to be a number");
    }
    return value.doubleValue();
  }

  /** Returns the probability that a verdict is right. */
  double of(Signs signs) {
    return of(signs, signs.found() ? found : missing);
  }

  /** Returns the value of a logistic curve. */
  static double of(Signs signs, double[] weights) {
    double[] values = signs.values();
    double sum = 0;
    for (int i = 0; i < values.length; i++) {
      sum += weights[i] * values[i];
    }
    return 1 / (1 + Math.exp(-sum));
  }

  /** Tells whether a person should look at a verdict of this confidence. */
  boolean asksForLook(double confidence) {
    return confidence < lookBelow;
  }
}
