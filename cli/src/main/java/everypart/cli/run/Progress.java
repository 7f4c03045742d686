package everypart.cli.run;

import java.time.Duration;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Locale;
import java.util.OptionalLong;
import java.util.function.LongSupplier;

/**
 * Says on the status line how many of a run's inputs are done, how many are done in a second, and
 * how long the rest will take at the pace of the last seconds.
 */
public final class Progress {
  private static final long REDRAW = Duration.ofMillis(200).toNanos();
  private static final int PACE_OVER = 25;

  private final StatusLine line;
  private final LongSupplier clock;
  private final OptionalLong total;
  private final Deque<Mark> marks = new ArrayDeque<>();
  private long done;

  /** How many were done at a time. */
  private record Mark(long nanos, long done) {}

  /**
   * Begins.
   *
   * @param clock tells the time in nanoseconds
   * @param total how many there are, as far as that is known
   */
  public Progress(StatusLine line, LongSupplier clock, OptionalLong total) {
    this.line = line;
    this.clock = clock;
    this.total = total;
    marks.add(new Mark(clock.getAsLong(), 0));
  }

  /** Says that one more is done. */
  public void step() {
    done++;
    long now = clock.getAsLong();
    if (line.watched() && now - marks.getLast().nanos() >= REDRAW) {
      marks.add(new Mark(now, done));
      if (marks.size() > PACE_OVER) {
        marks.remove();
      }
      line.show(words());
    }
  }

  /** Takes the line away. */
  public void end() {
    line.show("");
  }

  private String words() {
    Mark from = marks.getFirst();
    Mark to = marks.getLast();
    double pace = (to.done() - from.done()) * 1e9 / (to.nanos() - from.nanos());
    StringBuilder words = new StringBuilder(count(done));
    boolean known = total.isPresent() && total.getAsLong() >= done;
    if (known) {
      words.append(" of ").append(count(total.getAsLong()));
    }
    words.append(
        pace >= 1
            ? ", " + count(Math.round(pace)) + " a second"
            : ", " + count(Math.round(pace * 60)) + " a minute");
    if (known) {
      words.append(", ").append(time((total.getAsLong() - done) / pace)).append(" left");
    }
    return words.toString();
  }

  private static String count(long number) {
    return String.format(Locale.ROOT, "%,d", number);
  }

  private static String time(double seconds) {
    long whole = (long) Math.ceil(seconds);
    if (whole < 90) {
      return whole + " s";
    }
    long minutes = Math.round(seconds / 60);
    return minutes < 90 ? minutes + " min" : minutes / 60 + " h " + minutes % 60 + " min";
  }
}
