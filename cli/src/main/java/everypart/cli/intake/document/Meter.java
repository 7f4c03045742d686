package everypart.cli.intake.document;

import java.io.FilterReader;
import java.io.IOException;
import java.io.Reader;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Counts what is read of one document against its bounds while it is read, so that nothing is held
 * that is over them. It is made for one document, and counts on one thread; only {@link #end} may
 * come from another.
 */
final class Meter {
  /** How many steps pass between two looks at whether time is over. */
  private static final int LOOK = 1 << 8;

  /**
   * Says that a bound was passed. It is unchecked since it must come through the code of libraries
   * that know only exceptions of their own.
   */
  static final class Over extends RuntimeException {
    private static final long serialVersionUID = 1L;

    private final transient FileRemark remark;

    Over(FileRemark remark) {
      super(remark.sentence(), null, false, false);
      this.remark = remark;
    }

    FileRemark remark() {
      return remark;
    }
  }

  private final Limits limits;
  private final Map<Limit, Long> counts = new EnumMap<>(Limit.class);
  private int steps;
  private volatile @Nullable Limit passed;

  Meter(Limits limits) {
    this.limits = limits;
  }

  Limits limits() {
    return limits;
  }

  /** Counts so many more. */
  void add(Limit limit, long more) {
    atMost(limit, counts.merge(limit, more, Long::sum));
    step();
  }

  /** Checks a number that is not a count. */
  void atMost(Limit limit, long number) {
    if (number > limits.of(limit)) {
      throw over(limit);
    }
  }

  /** Returns what to throw where a bound is passed, and remembers it. */
  Over over(Limit limit) {
    if (passed == null) {
      passed = limit;
    }
    return new Over(limits.exceeded(limit));
  }

  /** Is called at each step of the work, however small. */
  void step() {
    if ((++steps & (LOOK - 1)) == 0) {
      look();
    }
  }

  /** Throws when time is over. */
  void look() {
    Limit limit = passed;
    if (limit != null) {
      throw new Over(limits.exceeded(limit));
    }
  }

  /** Says from outside that time is over. */
  void end() {
    if (passed == null) {
      passed = Limit.SECONDS;
    }
  }

  /** Returns which bound was passed, even where a library kept it to itself. */
  Optional<FileRemark> passed() {
    return Optional.ofNullable(passed).map(limits::exceeded);
  }

  /** Returns a reader that ends the work when time is over. */
  Reader watched(Reader in) {
    return new FilterReader(in) {
      @Override
      public int read() throws IOException {
        step();
        return super.read();
      }

      @Override
      public int read(char[] buffer, int from, int length) throws IOException {
        look();
        return super.read(buffer, from, length);
      }
    };
  }
}
