package everypart.analyzer.study.agreement;

import everypart.analyzer.coverage.Verdict;
import everypart.lexicon.DemandKind;
import java.util.Collections;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * One demand of one response with the program's verdict and people's codes.
 *
 * @param responseId names the response
 * @param promptId names the prompt
 * @param part the part's label
 * @param demand the demand's running number within its part, from 1
 * @param kind the demand's kind
 * @param verdict the program's verdict
 * @param confidence the program's confidence in it
 * @param look whether the program asks for a person's eye
 * @param codes by coder, whether the demand is addressed; a coder who left it empty is not in it
 * @param weight how many demands of the whole set this one stands for, 1 when the set was not
 *     sampled
 * @param cluster what it comes from together with others, such as its response or its class
 * @param groups what the further columns of the response say
 */
public record CodedDemand(
    String responseId,
    String promptId,
    String part,
    int demand,
    DemandKind kind,
    Verdict verdict,
    double confidence,
    boolean look,
    Map<String, Boolean> codes,
    double weight,
    String cluster,
    Map<String, String> groups) {
  /** The coder whose code settles what others differ on. */
  public static final String SETTLED = "settled";

  /**
   * Copies the codes, in the order of the coders' names.
   *
   * @throws IllegalArgumentException when the weight is not above 0
   */
  public CodedDemand {
    codes = Collections.unmodifiableMap(new TreeMap<>(codes));
    if (!(weight > 0)) {
      throw new IllegalArgumentException("a weight is above 0, not " + weight);
    }
  }

  /** Returns whether the program found the demand addressed at least in part. */
  public Optional<Boolean> program() {
    return verdict == Verdict.UNCHECKED
        ? Optional.empty()
        : Optional.of(verdict != Verdict.MISSING);
  }

  /** Returns it with another weight. */
  public CodedDemand weighing(double other) {
    return new CodedDemand(
        responseId,
        promptId,
        part,
        demand,
        kind,
        verdict,
        confidence,
        look,
        codes,
        other,
        cluster,
        groups);
  }

  /** Returns the stratum that it is in; it has none when the program left it unchecked. */
  public Optional<Stratum> stratum() {
    return program().map(unused -> Stratum.of(kind, verdict, look));
  }

  /** Returns whether coders differ on it and nobody has settled it. */
  public boolean unsettled() {
    return !codes.containsKey(SETTLED) && codes.containsValue(true) && codes.containsValue(false);
  }

  /**
   * Returns what was settled, else what more coders say than not; nothing when none coded it or
   * they are tied.
   */
  public Optional<Boolean> majority() {
    Boolean settled = codes.get(SETTLED);
    if (settled != null) {
      return Optional.of(settled);
    }
    long yes = codes.values().stream().filter(code -> code).count();
    long no = codes.size() - yes;
    return yes == no ? Optional.empty() : Optional.of(yes > no);
  }
}
