package everypart.analyzer.study.agreement;

import everypart.analyzer.coverage.Verdict;
import everypart.lexicon.DemandKind;
import java.util.Comparator;

/**
 * A stratum of demands: they are alike in kind and in what the program says of them.
 *
 * @param kind the kind of demand
 * @param missing whether the program calls them missing
 * @param unsure whether the program asks for a person's eye
 */
public record Stratum(DemandKind kind, boolean missing, boolean unsure)
    implements Comparable<Stratum> {
  private static final Comparator<Stratum> ORDER =
      Comparator.comparing(Stratum::kind)
          .thenComparing(Stratum::missing)
          .thenComparing(Stratum::unsure);

  /** Returns the stratum of a verdict, which is not unchecked. */
  public static Stratum of(DemandKind kind, Verdict verdict, boolean unsure) {
    return new Stratum(kind, verdict == Verdict.MISSING, unsure);
  }

  @Override
  public int compareTo(Stratum other) {
    return ORDER.compare(this, other);
  }
}
