package everypart.cli.intake;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;

/**
 * How a caller wants a class set read.
 *
 * @param columns what a column of a sheet holds ({@code id}, {@code text}, {@code prompt}, a part's
 *     label, a prompt's id, or both as in {@code pool:a}), and the column's header or number; what
 *     is not named is guessed when the map is empty
 * @param idFrom where the id stands in a file's name; by default it is the name
 * @param newest whether only the newest of several submissions of one student is taken
 */
public record Choices(Map<String, String> columns, Optional<NamePattern> idFrom, boolean newest) {
  /** All as it comes. */
  public static final Choices NONE = new Choices(Map.of(), Optional.empty(), false);

  /** Copies the columns and keeps their order. */
  public Choices {
    columns = Collections.unmodifiableMap(new LinkedHashMap<>(columns));
  }
}
