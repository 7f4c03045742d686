package everypart.analyzer.study;

import java.io.Serializable;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Which of two drafts came first.
 *
 * <p>That is never guessed from words: "post" stands before "pre" in every dictionary. Values are
 * all numbers, or all dates (ISO 8601, as 2026-03-09), or their order is given.
 *
 * <p>Not safe for use by several threads.
 */
public final class DraftOrder implements Serializable {
  private static final long serialVersionUID = 1L;

  /** So many values are remembered to be shown. */
  private static final int MOST_SHOWN = 30;

  private static final Pattern NUMBER = Pattern.compile("-?[0-9]{1,18}([.,][0-9]{1,18})?");

  /** A value whose place is not known. */
  public static final class UnknownPlaceException extends IllegalArgumentException {
    private static final long serialVersionUID = 1L;

    UnknownPlaceException(String message) {
      super(message);
    }
  }

  /** How values are read. */
  private enum DraftScale {
    NUMBERS,
    DATES;

    Optional<BigDecimal> of(String value) {
      return this == NUMBERS ? number(value) : date(value);
    }
  }

  private final StudyDesign.Drafts drafts;
  private final Map<BigDecimal, String> seen = new TreeMap<>();
  private @Nullable DraftScale reading;
  private boolean more;

  /** Makes an order that has seen no value. */
  public DraftOrder(StudyDesign.Drafts drafts) {
    this.drafts = drafts;
  }

  /**
   * Returns where a draft stands.
   *
   * @throws UnknownPlaceException when that is not known
   */
  public BigDecimal place(String draft) {
    String value = draft.strip();
    BigDecimal place = drafts.order().isEmpty() ? read(value) : given(value);
    if (seen.size() < MOST_SHOWN) {
      seen.putIfAbsent(place, value);
    } else if (!seen.containsKey(place)) {
      more = true;
    }
    return place;
  }

  private BigDecimal given(String value) {
    int at = drafts.order().indexOf(value);
    if (at < 0) {
      throw new UnknownPlaceException(
          "the column \""
              + drafts.column()
              + "\" has the value \""
              + value
              + "\", which is not in the order given ("
              + String.join(", ", drafts.order())
              + ")");
    }
    return BigDecimal.valueOf(at);
  }

  private BigDecimal read(String value) {
    if (reading == null) {
      reading = number(value).isPresent() ? DraftScale.NUMBERS : DraftScale.DATES;
    }
    return reading.of(value).orElseThrow(() -> unknown(value));
  }

  private UnknownPlaceException unknown(String value) {
    return new UnknownPlaceException(
        "the column \""
            + drafts.column()
            + "\" has the value \""
            + value
            + "\"; its values are not all numbers or all dates (2026-03-09), so nothing"
            + " says which draft came first");
  }

  /**
   * Takes over what another order has seen.
   *
   * @throws UnknownPlaceException when one saw numbers and the other dates
   */
  void merge(DraftOrder other) {
    if (reading != null && other.reading != null && reading != other.reading) {
      throw unknown(other.seen.values().iterator().next());
    }
    reading = reading == null ? other.reading : reading;
    more |= other.more;
    other.seen.forEach(
        (place, value) -> {
          if (seen.size() < MOST_SHOWN) {
            seen.putIfAbsent(place, value);
          } else if (!seen.containsKey(place)) {
            more = true;
          }
        });
  }

  private static Optional<BigDecimal> number(String value) {
    return NUMBER.matcher(value).matches()
        ? Optional.of(new BigDecimal(value.replace(',', '.')).stripTrailingZeros())
        : Optional.empty();
  }

  private static Optional<BigDecimal> date(String value) {
    try {
      return Optional.of(
          BigDecimal.valueOf(
              value.length() > 10
                  ? LocalDateTime.parse(value.replace(' ', 'T')).toEpochSecond(ZoneOffset.UTC)
                  : LocalDate.parse(value).atStartOfDay().toEpochSecond(ZoneOffset.UTC)));
    } catch (DateTimeParseException e) {
      return Optional.empty();
    }
  }

  /** Returns the values seen, first to last; a last entry of dots stands for more. */
  List<String> shown() {
    List<String> shown = new ArrayList<>(seen.values());
    if (more) {
      shown.add("...");
    }
    return List.copyOf(shown);
  }
}
