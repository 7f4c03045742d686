package everypart.cli.run.study;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import everypart.analyzer.study.statistics.ClusteredRate;
import everypart.analyzer.study.statistics.Interval;
import everypart.analyzer.study.statistics.Level;
import everypart.cli.intake.InputException;
import everypart.cli.intake.InputProblem;
import everypart.cli.intake.Sources;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * How large a study must be for an interval of a wished width around its omission rate, reckoned
 * from the summary of a pilot.
 *
 * <p>The width is that of the interval which {@code study} prints ({@link ClusteredRate#interval}):
 * Wilson's at the effective sample size. That size is the number of demands over the design effect,
 * which stays as it is when more clusters of the pilot's size are added: Kish L (1965) Survey
 * Sampling. New York: Wiley, sections 5.4 and 8.2. Degrees of freedom grow with the number of
 * clusters less one.
 *
 * @param pilot what the pilot tells
 * @param width from the lower limit to the upper one, above 0 and below 1
 * @param level the level of the interval
 */
public record StudyPlan(Pilot pilot, double width, Level level) {
  /** More clusters than this are not planned for. */
  private static final long MOST_CLUSTERS = 1_000_000_000;

  /** A design effect so many times larger shows how far the plan hangs on it; no source. */
  static final double LARGER = 1.5;

  /**
   * Where demands of one cluster share more of their variance than is their own: with a likeness r
   * the design effect is 1 + (m - 1) r (Kish 1965, section 5.4).
   */
  private static final double ONE_HALF_SHARED = 2;

  /** Stands for no limit of the degrees of freedom: Student's t is then the normal. */
  private static final double NORMAL = 1e12;

  /**
   * Fewer clusters than this say little about how alike answers are; common practice, no source.
   */
  private static final long FEW_CLUSTERS = 20;

  private static final JsonMapper MAPPER = new JsonMapper();

  /**
   * What a pilot tells.
   *
   * @param cluster what clusters are, in a word
   * @param responses how many responses it counts
   * @param demands how many of their demands were checked
   * @param clusters what they come from
   * @param rate the share of demands called missing, above 0 and below 1
   * @param designEffect how many times larger the variance is than if each demand stood alone; one
   *     below 1 comes by chance and is taken as 1
   * @param degrees the degrees of freedom of its interval; nothing where it has none
   * @param interval its interval
   * @param level the level of that
   * @param warning why its interval cannot be relied on; empty where it can
   */
  record Pilot(
      String cluster,
      long responses,
      long demands,
      long clusters,
      double rate,
      double designEffect,
      Optional<Double> degrees,
      Optional<Interval> interval,
      double level,
      Optional<String> warning) {}

  /**
   * Reads the summary of a pilot.
   *
   * @param name a summary.json as {@code study} writes it
   * @throws InputException when it is none, or tells nothing of how rates vary
   */
  public static Pilot read(Sources sources, String name) throws InputException {
    JsonNode summary;
    try {
      summary = MAPPER.readTree(sources.text(name));
    } catch (JsonProcessingException e) {
      throw noSummary(name);
    }
    JsonNode all = summary.path("rates").path(0);
    JsonNode level = summary.path("levels").path(0);
    JsonNode omission = all.path("omission");
    if (!all.path("by").asText().equals("all")
        || !omission.path("of").isIntegralNumber()
        || !summary.path("responses").isIntegralNumber()
        || !level.path("column").isTextual()) {
      throw noSummary(name);
    }
    long hits = omission.path("count").asLong();
    long demands = omission.path("of").asLong();
    if (hits == 0 || hits == demands || !all.path("designEffect").isNumber()) {
      throw new InputException(
          InputProblem.fault(
              Sources.place(name),
              Sayings.of(
                  hits == 0
                      ? "studyPlan.noDemand"
                      : hits == demands ? "studyPlan.everyDemand" : "studyPlan.tooFewClusters"),
              Sayings.of("studyPlan.takeLargerPilot")));
    }
    String column = level.path("column").asText();
    long responses = summary.path("responses").asLong();
    boolean alone = column.equals("response");
    if (!alone && pooled(summary)) {
      throw new InputException(
          InputProblem.fault(
              Sources.place(name),
              Sayings.of("studyPlan.studyManyClusters"),
              Sayings.of("studyPlan.takePilotClusters")));
    }
    JsonNode limits = all.path("clustered");
    JsonNode method = all.path("method");
    return new Pilot(
        column,
        responses,
        demands,
        alone ? responses : all.path("clusters").asLong(),
        (double) hits / demands,
        Math.max(1, all.path("designEffect").asDouble()),
        method.path("df").isNumber() ? Optional.of(method.path("df").asDouble()) : Optional.empty(),
        limits.size() == 2
            ? Optional.of(new Interval(limits.path(0).asDouble(), limits.path(1).asDouble()))
            : Optional.empty(),
        summary.path("level").asDouble(),
        method.path("warning").isTextual()
            ? Optional.of(method.path("warning").asText())
            : Optional.empty());
  }

  private static boolean pooled(JsonNode summary) {
    for (JsonNode note : summary.path("notes")) {
      if (note.asText().contains("were pooled at random")) {
        return true;
      }
    }
    return false;
  }

  private static InputException noSummary(String name) {
    return new InputException(
        InputProblem.fault(
            Sources.place(name),
            Sayings.of("studyPlan.summaryStudy"),
            Sayings.of("studyPlan.giveSummaryJson")));
  }

  /** Returns the width of the interval with so many clusters of the pilot's size. */
  private double width(long clusters, double designEffect) {
    double demands = clusters * ((double) pilot.demands() / pilot.clusters());
    double variance = designEffect * pilot.rate() * (1 - pilot.rate()) / demands;
    double degrees =
        pilot
            .degrees()
            .map(df -> df * (clusters - 1) / Math.max(1, pilot.clusters() - 1))
            .orElse(NORMAL);
    Interval interval =
        ClusteredRate.interval(pilot.rate(), variance, degrees, (double) clusters, level);
    return interval.high() - interval.low();
  }

  /**
   * Returns how many clusters of the pilot's size are needed, at least 2; nothing when a thousand
   * million are too few.
   *
   * @param designEffect to reckon with
   */
  OptionalLong clusters(double designEffect) {
    if (width(MOST_CLUSTERS, designEffect) > width) {
      return OptionalLong.empty();
    }
    long tooFew = 1;
    long enough = 2;
    while (width(enough, designEffect) > width) {
      tooFew = enough;
      enough = Math.min(2 * enough, MOST_CLUSTERS);
    }
    while (enough - tooFew > 1) {
      long middle = tooFew + (enough - tooFew) / 2;
      if (width(middle, designEffect) > width) {
        tooFew = middle;
      } else {
        enough = middle;
      }
    }
    return OptionalLong.of(enough);
  }

  private long responses(long clusters) {
    return (long) Math.ceil(clusters * ((double) pilot.responses() / pilot.clusters()) - 1e-9);
  }

  /** Returns the plan in plain words, a sentence or two a line. */
  public List<String> lines() {
    List<String> lines = new ArrayList<>();
    boolean alone = pilot.cluster().equals("response");
    lines.add(
        Sayings.of(
            "studyPlan.pilotThemCalled",
            counted(pilot.responses(), "response"),
            alone ? "" : " from " + pilot.clusters() + " clusters (" + pilot.cluster() + ")",
            counted(pilot.demands(), "checked demand"),
            percent(pilot.rate()),
            pilot
                .interval()
                .map(
                    found ->
                        " ("
                            + percent(pilot.level())
                            + " interval "
                            + percent(found.low())
                            + " to "
                            + percent(found.high())
                            + ")")
                .orElse("")));
    lines.add(
        String.format(
            Locale.ROOT,
            Sayings.of("studyPlan.designEffectF"),
            pilot.designEffect(),
            100 * pilot.designEffect()));
    OptionalLong needed = clusters(pilot.designEffect());
    if (needed.isEmpty()) {
      lines.add(Sayings.of("studyPlan.noStudySize"));
      return lines;
    }
    lines.add(Sayings.of("studyPlan.neededIntervalNo", percent(level.value()), points(width)));
    lines.add("  " + size(needed.getAsLong(), alone));
    clusters(LARGER * pilot.designEffect())
        .ifPresent(
            more ->
                lines.add(
                    Sayings.of(
                        "studyPlan.ifAnswersMore",
                        String.format(Locale.ROOT, "%.2f", LARGER * pilot.designEffect()),
                        size(more, alone))));
    if (!alone && pilot.designEffect() > ONE_HALF_SHARED) {
      lines.add(Sayings.of("studyPlan.answersOneCluster"));
    }
    pilot.warning().ifPresent(words -> lines.add(Sayings.of("studyPlan.takeRoughPilots", words)));
    if (pilot.clusters() < FEW_CLUSTERS) {
      lines.add(Sayings.of("studyPlan.takeRoughDesign", pilot.clusters()));
    }
    lines.add(Sayings.of("studyPlan.missingMeansFound"));
    return lines;
  }

  private String size(long clusters, boolean alone) {
    return counted(responses(clusters), "response")
        + (alone
            ? ""
            : ", from "
                + clusters
                + " clusters ("
                + pilot.cluster()
                + ")"
                + String.format(
                    Locale.ROOT,
                    Sayings.of("studyPlan.fResponsesEach"),
                    (double) pilot.responses() / pilot.clusters()))
        + " ("
        + counted(
            Math.round(clusters * ((double) pilot.demands() / pilot.clusters())), "checked demand")
        + ")";
  }

  private static String counted(long number, String noun) {
    return String.format(Locale.ROOT, "%,d %s%s", number, noun, number == 1 ? "" : "s");
  }

  private static String percent(double share) {
    return trimmed(100 * share) + " %";
  }

  private static String points(double share) {
    return trimmed(100 * share) + " points";
  }

  private static String trimmed(double value) {
    return String.format(Locale.ROOT, "%.1f", value).replaceFirst("[.]0$", "");
  }
}
