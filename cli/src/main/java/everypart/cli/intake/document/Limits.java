package everypart.cli.intake.document;

import java.util.EnumMap;
import java.util.Map;

/** How much a file may hold. */
public final class Limits {
  /** The bounds where the user gives none. */
  public static final Limits USUAL = new Limits(Map.of());

  private static final long MEGABYTE = 1L << 20;

  private final Map<Limit, Long> own;

  private Limits(Map<Limit, Long> own) {
    this.own = new EnumMap<>(Limit.class);
    this.own.putAll(own);
  }

  /**
   * Returns these bounds with another one.
   *
   * @throws IllegalArgumentException when it is less than 1
   */
  public Limits with(Limit limit, long most) {
    if (most < 1) {
      throw new IllegalArgumentException(limit.word() + " is at least 1: " + most);
    }
    Map<Limit, Long> all = new EnumMap<>(Limit.class);
    all.putAll(own);
    all.put(limit, most);
    return new Limits(all);
  }

  /** Returns a bound, in the unit that it is given in. */
  public long of(Limit limit) {
    return own.getOrDefault(limit, limit.usual());
  }

  /** Returns a bound that is given in MB, in bytes. */
  long bytes(Limit limit) {
    return Math.multiplyExact(Math.min(of(limit), Long.MAX_VALUE / MEGABYTE), MEGABYTE);
  }

  /** Returns what is said of a file that goes over a bound. */
  public FileRemark exceeded(Limit limit) {
    return limit.exceeded(of(limit));
  }
}
