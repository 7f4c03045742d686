package everypart.cli.run.study;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import everypart.analyzer.study.statistics.Level;
import everypart.cli.intake.InputException;
import everypart.cli.intake.Sources;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * How many demands must be coded for an interval of a wished width, reckoned from a pilot with
 * codes: of kappa, and of the corrected rate.
 *
 * <p>The variance of what is drawn falls with the number drawn (Cochran WG (1977) Sampling
 * Techniques, 3rd ed., sections 4.4 and 12.2), so a width falls with its root. The corrected rate
 * has a second part that no coding makes smaller: how far the set itself stands for others.
 *
 * @param coded how many demands of the pilot are coded and judged
 * @param kappa the width of kappa's interval; nothing where the pilot has none
 * @param corrected the width of the corrected rate's interval; nothing where the pilot has none
 * @param set the width that would be left were the whole set coded
 * @param demands how many demands of the set were checked
 */
public record CodingPlan(
    long coded, Optional<Double> kappa, Optional<Double> corrected, double set, long demands) {
  private static final JsonMapper MAPPER = new JsonMapper();

  /** Fewer coded demands say little about a width; common practice, no source. */
  private static final long FEW_CODED = 50;

  /**
   * Reads the summary of a pilot.
   *
   * @param name a summary.json as {@code study --codes} writes it
   * @param level the level wished for
   * @return nothing when it has no codes
   */
  public static Optional<CodingPlan> read(Sources sources, String name, Level level)
      throws InputException {
    JsonNode summary;
    try {
      summary = MAPPER.readTree(sources.text(name));
    } catch (JsonProcessingException e) {
      return Optional.empty();
    }
    JsonNode pair = summary.path("agreement").path("sections").path(0).path("pairs").path(0);
    if (!pair.path("n").isIntegralNumber() || pair.path("n").asLong() == 0) {
      return Optional.empty();
    }
    double scale =
        level.normalQuantile() / new Level(summary.path("level").asDouble()).normalQuantile();
    JsonNode all = summary.path("rates").path(0);
    long demands = all.path("omission").path("of").asLong();
    double rate = summary.path("corrections").path(0).path("corrected").path("value").asDouble(0.5);
    double effect = Math.max(1, all.path("designEffect").asDouble(1));
    return Optional.of(
        new CodingPlan(
            pair.path("n").asLong(),
            width(pair.path("kappa"), scale),
            width(summary.path("corrections").path(0).path("corrected"), scale),
            2 * level.normalQuantile() * Math.sqrt(effect * rate * (1 - rate) / demands),
            demands));
  }

  private static Optional<Double> width(JsonNode estimate, double scale) {
    JsonNode interval = estimate.path("interval");
    return interval.size() == 2
        ? Optional.of(scale * (interval.path(1).asDouble() - interval.path(0).asDouble()))
        : Optional.empty();
  }

  /** Returns how many coded demands give kappa an interval of that width. */
  Optional<Long> forKappa(double width) {
    return kappa.map(own -> (long) Math.ceil(coded * (own / width) * (own / width) - 1e-9));
  }

  /**
   * Returns how many coded demands give the corrected rate an interval of that width; empty where
   * no number does in this set. Asks for a pilot with such an interval.
   */
  OptionalLong forCorrected(double width) {
    double own = corrected.orElseThrow();
    double ofCodes = Math.max(0, own * own - set * set);
    double wished = width * width - set * set;
    return wished <= 0
        ? OptionalLong.empty()
        : OptionalLong.of((long) Math.ceil(coded * ofCodes / wished - 1e-9));
  }

  /** Returns the plan in plain words. */
  public List<String> lines(double width) {
    List<String> lines = new ArrayList<>();
    lines.add(
        Sayings.of(
            "codingPlan.pilot",
            number(coded),
            kappa
                .map(
                    own ->
                        Sayings.of("codingPlan.kappaWide", String.format(Locale.ROOT, "%.2f", own)))
                .orElse(""),
            corrected.map(own -> Sayings.of("codingPlan.correctedWide", points(own))).orElse(""),
            width));
    forKappa(width)
        .ifPresent(needed -> lines.add("  " + Sayings.of("codingPlan.forKappa", counted(needed))));
    if (corrected.isPresent()) {
      OptionalLong needed = forCorrected(width);
      lines.add(
          "  "
              + Sayings.of(
                  "codingPlan.forCorrectedRate",
                  needed.isPresent()
                      ? counted(needed.getAsLong())
                      : Sayings.of("codingPlan.noNumber", points(set))));
    }
    lines.add(Sayings.of("codingPlan.drawnAsPilot"));
    if (coded < FEW_CODED) {
      lines.add(Sayings.of("codingPlan.takeRough", coded));
    }
    return lines;
  }

  private String counted(long needed) {
    return Sayings.of(
            needed == 1 ? "codingPlan.demands.one" : "codingPlan.demands.other", number(needed))
        + (needed > demands ? Sayings.of("codingPlan.moreThanSet", number(demands)) : "");
  }

  private static String number(long number) {
    return String.format(Locale.ROOT, "%,d", number);
  }

  private static String points(double share) {
    return String.format(Locale.ROOT, "%.1f", 100 * share);
  }
}
