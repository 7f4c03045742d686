package everypart.cli.run.study;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import everypart.analyzer.study.statistics.ClusteredRate;
import everypart.analyzer.study.statistics.Interval;
import everypart.analyzer.study.statistics.Level;
import everypart.cli.command.Run;
import everypart.cli.run.ExitStatus;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class StudyPlanTest {
  private static final Path DEMO = Path.of("..", "demo-data");
  private static final Pattern NEEDED =
      Pattern.compile("(?m)^  ([0-9,]+) responses, from ([0-9]+) clusters \\(student\\)");

  @TempDir
  @SuppressWarnings("NullAway.Init")
  Path folder;

  /** Returns a pilot in which each response stands alone and has one demand. */
  private static StudyPlan.Pilot alone(long hits, long total) {
    return pilot((double) hits / total, total, total, Optional.empty());
  }

  private static StudyPlan.Pilot pilot(
      double rate, long demands, long clusters, Optional<Double> degrees) {
    return new StudyPlan.Pilot(
        "student",
        clusters,
        demands,
        clusters,
        rate,
        1,
        degrees,
        Optional.empty(),
        0.95,
        Optional.empty());
  }

  private static long clusters(StudyPlan.Pilot pilot, double width, double designEffect) {
    return new StudyPlan(pilot, width, Level.DEFAULT).clusters(designEffect).orElseThrow();
  }

  /**
   * Newcombe RG (1998) Statistics in Medicine 17:857-872, table I, method 3 prints intervals for
   * given sizes; planning for their widths has to lead back to the sizes. He prints four digits, so
   * one response more or less is possible.
   */
  @ParameterizedTest
  @CsvSource({"81, 263, 0.2553, 0.3662", "15, 148, 0.0624, 0.1605"})
  void leadsBackToTheSizesOfPublishedIntervals(long hits, long total, double low, double high) {
    assertEquals((double) total, (double) clusters(alone(hits, total), high - low, 1), 1.0);
  }

  /**
   * Henderson RH, Sundaresan T (1982) Bulletin of the WHO 60:253-260: for a rate of .5 within .1
   * either way 96.04 children are needed, and with a design effect of 2 twice as many. They take
   * Wald's interval; at a rate of .5 Wilson's needs z squared (3.84) fewer that stand alone.
   */
  @Test
  void doublesWithTheDesignEffectAsInTheWorkedExample() {
    double wald = 96.04;
    double fewer = 3.8415;
    assertEquals((long) Math.ceil(wald - fewer), clusters(alone(50, 100), 0.2, 1));
    assertEquals((long) Math.ceil(2 * (wald - fewer)), clusters(alone(50, 100), 0.2, 2));
    // In clusters of seven, as there.
    StudyPlan.Pilot sevens = pilot(0.5, 70, 10, Optional.empty());
    assertEquals((long) Math.ceil(2 * (wald - fewer) / 7), clusters(sevens, 0.2, 2));
  }

  @Test
  void noSizeIsEnoughForAWidthOfNothing() {
    assertTrue(
        new StudyPlan(alone(50, 100), 1e-9, Level.DEFAULT).clusters(1).isEmpty(), "no answer");
  }

  /** Studies drawn at the size that a pilot plans have intervals of the wished width. */
  @Test
  void studiesOfThePlannedSizeHaveIntervalsOfTheWishedWidth() {
    int ofCluster = 20;
    double rate = 0.3;
    double likeness = 0.15;
    double designEffect = 1 + (ofCluster - 1) * likeness;
    StudyPlan.Pilot pilot = pilot(rate, 40L * ofCluster, 40, Optional.of(39.0));
    for (double width : new double[] {0.08, 0.15}) {
      long clusters = clusters(pilot, width, designEffect);
      SplittableRandom random = new SplittableRandom(7);
      double sum = 0;
      int studies = 300;
      for (int study = 0; study < studies; study++) {
        ClusteredRate drawn = new ClusteredRate();
        for (long cluster = 0; cluster < clusters; cluster++) {
          drawn.add(hits(random, ofCluster, rate, likeness), ofCluster);
        }
        Interval interval = drawn.interval(Level.DEFAULT).orElseThrow();
        sum += interval.high() - interval.low();
      }
      assertEquals(width, sum / studies, 0.04 * width, clusters + " clusters");
    }
  }

  /** Draws from Polya's urn, so that any two draws of a cluster are so much alike. */
  private static long hits(SplittableRandom random, int size, double rate, double likeness) {
    double weight = (1 - likeness) / likeness;
    long hits = 0;
    for (int at = 0; at < size; at++) {
      hits += random.nextDouble() < (rate * weight + hits) / (weight + at) ? 1 : 0;
    }
    return hits;
  }

  private Path pilotFolder() {
    Path out = folder.resolve("pilot");
    Run run =
        Run.of(
            "study",
            "--quick",
            "--prompts",
            DEMO.resolve("prompts"),
            "--responses",
            DEMO.resolve("study.csv"),
            "--cluster",
            "student",
            "--out",
            out);
    assertEquals(ExitStatus.DONE, run.status(), run.err());
    return out;
  }

  @Test
  void thePilotsOwnWidthAsksForThePilotsOwnSize() throws IOException {
    Path summary = pilotFolder().resolve("summary.json");
    JsonNode all = new JsonMapper().readTree(summary.toFile()).path("rates").path(0);
    double width =
        all.path("clustered").path(1).asDouble() - all.path("clustered").path(0).asDouble();
    assertTrue(all.path("designEffect").asDouble() > 1, "else the plan would take 1");
    Run run = Run.of("study", "--plan", summary, "--width", width + 1e-6);
    assertEquals(ExitStatus.DONE, run.status(), run.err());
    Matcher needed = NEEDED.matcher(run.out());
    assertTrue(needed.find(), run.out());
    assertEquals(all.path("clusters").asText(), needed.group(2));
    assertEquals("60", needed.group(1));
    assertTrue(run.out().contains("The pilot: 60 responses from "), run.out());
    Matcher half = NEEDED.matcher(Run.of("study", "--plan", summary, "--width", width / 2).out());
    assertTrue(half.find());
    double times = Double.parseDouble(half.group(2)) / all.path("clusters").asDouble();
    assertEquals(4, times, 0.8, "half the width takes about four times as many");
  }

  @Test
  void aCallThatCannotBePlannedSaysWhy() throws IOException {
    Path summary = pilotFolder().resolve("summary.json");
    Run noWidth = Run.of("study", "--plan", summary);
    assertEquals(ExitStatus.WRONG_CALL, noWidth.status());
    assertTrue(noWidth.err().contains("--plan and --width"), noWidth.err());
    assertEquals(ExitStatus.WRONG_CALL, Run.of("study", "--width", "0.1").status());
    for (String width : new String[] {"0", "1", "-0.1", "10"}) {
      Run run = Run.of("study", "--plan", summary, "--width", width);
      assertEquals(ExitStatus.WRONG_CALL, run.status());
      assertTrue(run.err().contains("--width ") && run.err().contains("0.1"), run.err());
    }
    Run mixed = Run.of("study", "--plan", summary, "--width", "0.1", "--out", folder);
    assertEquals(ExitStatus.WRONG_CALL, mixed.status());
    assertTrue(mixed.err().contains("--out cannot be given with --plan"), mixed.err());
    Run log = Run.of("study", "--plan", summary.resolveSibling("study.log.json"), "--width", "0.1");
    assertEquals(ExitStatus.INPUT_LOST, log.status());
    assertTrue(log.err().contains("this is not the summary of a study"), log.err());
    Path none =
        Files.writeString(
            folder.resolve("none.json"),
            Files.readString(summary).replaceFirst("\"count\" *: *[0-9]+", "\"count\" : 0"));
    Run run = Run.of("study", "--plan", none, "--width", "0.1");
    assertEquals(ExitStatus.INPUT_LOST, run.status());
    assertTrue(run.err().contains("no demand is missing"), run.err());
  }

  @Test
  void aWidthHalfAsWideNeedsFourTimesTheCodes() {
    CodingPlan plan = new CodingPlan(120, Optional.of(0.3), Optional.of(0.2), 0, 5_000);
    assertEquals(Optional.of(120L), plan.forKappa(0.3));
    assertEquals(Optional.of(480L), plan.forKappa(0.15));
    assertEquals(120, plan.forCorrected(0.2).orElseThrow());
    assertEquals(480, plan.forCorrected(0.1).orElseThrow());
  }

  /** The set's own part stays: 0.2 squared is 0.12 squared and 0.16 squared. */
  @Test
  void codingMoreDoesNotMakeTheSetLarger() {
    CodingPlan plan = new CodingPlan(100, Optional.empty(), Optional.of(0.2), 0.12, 1_000);
    assertEquals(400, plan.forCorrected(Math.sqrt(0.12 * 0.12 + 0.08 * 0.08)).orElseThrow());
    assertTrue(plan.forCorrected(0.11).isEmpty());
    assertTrue(String.join("\n", plan.lines(0.11)).contains("take more responses"));
  }

  @Test
  void aPilotWithCodesAlsoTellsHowManyToCode() {
    Run pilot =
        Run.of(
            "study",
            "--prompts",
            DEMO.resolve("prompts"),
            "--responses",
            DEMO.resolve("study.csv"),
            "--codes",
            DEMO.resolve("codes.csv"),
            "--out",
            folder.resolve("coded"));
    assertEquals(0, pilot.status(), pilot.err());
    Run run = Run.of("study", "--plan", folder.resolve("coded/summary.json"), "--width", "0.15");
    assertEquals(0, run.status(), run.err());
    assertTrue(
        Pattern.compile("(?m)^  for kappa: [0-9,]+ coded demands").matcher(run.out()).find(),
        run.out());
    assertTrue(run.out().contains("for the corrected rate:"), run.out());
  }
}
