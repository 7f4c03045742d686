package everypart.cli.command;

import everypart.cli.intake.document.Limit;
import everypart.cli.intake.document.Limits;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.stream.Collectors;
import picocli.CommandLine.Option;

/** Bounds on what an input may hold, in the place of the usual ones. */
final class LimitOption {
  @Option(
      names = "--limit",
      paramLabel = "WHAT=N",
      split = ",",
      description = {
        "Raise a bound on what a file may hold, as a message says: file (MB), text (characters),"
            + " seconds ... Several with commas; docs/intake.md lists them."
      })
  private Map<String, Long> limits = new LinkedHashMap<>();

  /**
   * Returns the bounds.
   *
   * @throws OutputException when there is no such bound
   */
  Limits limits() throws OutputException {
    Limits all = Limits.USUAL;
    for (Map.Entry<String, Long> one : limits.entrySet()) {
      Limit limit =
          Limit.of(one.getKey())
              .filter(found -> one.getValue() > 0)
              .orElseThrow(
                  () ->
                      new OutputException(
                          "--limit "
                              + one.getKey()
                              + "="
                              + one.getValue()
                              + ": give one of "
                              + Arrays.stream(Limit.values())
                                  .map(Limit::word)
                                  .collect(Collectors.joining(", "))
                              + " and a number above 0."));
      all = all.with(limit, one.getValue());
    }
    return all;
  }
}
