package everypart.cli.command;

import everypart.cli.intake.document.Limit;
import everypart.cli.intake.document.Limits;
import everypart.cli.run.WrongCallException;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.stream.Collectors;
import picocli.CommandLine.Option;

/** Bounds on what an input may hold, in the place of the usual ones. */
final class LimitOption {
  @Option(names = "--limit", paramLabel = "WHAT=N", split = ",")
  private Map<String, Long> limits = new LinkedHashMap<>();

  /**
   * Returns the bounds.
   *
   * @throws WrongCallException when there is no such bound
   */
  Limits limits() throws WrongCallException {
    Limits all = Limits.USUAL;
    for (Map.Entry<String, Long> one : limits.entrySet()) {
      Limit limit =
          Limit.of(one.getKey())
              .filter(found -> one.getValue() > 0)
              .orElseThrow(
                  () ->
                      new WrongCallException(
                          Sayings.of(
                              "limitOption.limitGiveOne",
                              one.getKey(),
                              one.getValue(),
                              Arrays.stream(Limit.values())
                                  .map(Limit::word)
                                  .collect(Collectors.joining(", ")))));
      all = all.with(limit, one.getValue());
    }
    return all;
  }
}
