package everypart.cli.intake;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;

/**
 * One person's answer to one prompt.
 *
 * @param id names it in results
 * @param promptId names the prompt it answers; empty when the input does not say
 * @param text the answer as given
 * @param groups every further column of the input, in its order
 * @param place where it came from
 */
public record Response(
    String id, Optional<String> promptId, String text, Map<String, String> groups, Place place)
    implements Arrival {
  /** Copies the groups and keeps their order. */
  public Response {
    groups = Collections.unmodifiableMap(new LinkedHashMap<>(groups));
  }
}
