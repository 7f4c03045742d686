package everypart.analyzer.study;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.analyzer.coverage.Verdict;
import everypart.analyzer.study.agreement.Agreement;
import everypart.analyzer.study.agreement.CodedDemand;
import everypart.analyzer.study.statistics.Level;
import everypart.lexicon.DemandKind;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;

final class StudySummaryTest {
  private static final StudyDesign DESIGN =
      new StudyDesign(
          List.of("shift"),
          List.of("keeper"),
          Optional.of(new StudyDesign.Drafts("draft", List.of(), "keeper")));

  /** A response to a prompt with a describe and an explain demand. */
  private static JudgedResponse response(
      String id, Map<String, String> groups, Verdict describe, Verdict explain) {
    return new JudgedResponse(
        id,
        "lamp",
        Verdict.over(List.of(describe, explain)),
        12,
        0,
        groups,
        List.of(
            new DemandRow("a", 1, 1, DemandKind.DESCRIBE, "describe", describe, 0.9, false),
            new DemandRow("a", 2, 2, DemandKind.EXPLAIN, "why", explain, 0.6, true)));
  }

  private static Map<String, String> groups(String shift, String keeper, String draft) {
    return Map.of("shift", shift, "keeper", keeper, "draft", draft);
  }

  private static List<JudgedResponse> study() {
    List<JudgedResponse> responses = new ArrayList<>();
    for (int keeper = 0; keeper < 60; keeper++) {
      String shift = keeper % 2 == 0 ? "night" : "day";
      String name = "k" + keeper;
      boolean tired = keeper % 6 == 0;
      responses.add(
          response(
              "r" + keeper + ".1",
              groups(shift, name, "1"),
              tired ? Verdict.MISSING : Verdict.ADDRESSED,
              keeper % 3 == 0 ? Verdict.MISSING : Verdict.PARTLY));
      responses.add(
          response(
              "r" + keeper + ".2",
              groups(shift, name, "2"),
              Verdict.ADDRESSED,
              tired ? Verdict.MISSING : Verdict.ADDRESSED));
    }
    return responses;
  }

  private static StudySummary summary(List<JudgedResponse> responses) {
    StudyTally tally = new StudyTally(DESIGN);
    responses.forEach(tally::add);
    return StudySummary.of(tally, Level.DEFAULT, Optional.empty());
  }

  private static StudySummary.Rate rate(StudySummary summary, Dimension dimension, String name) {
    return summary.rates().stream()
        .filter(rate -> rate.dimension() == dimension && rate.name().equals(name))
        .findFirst()
        .orElseThrow();
  }

  @Test
  void countsMissingOverCheckedDemands() {
    StudySummary summary = summary(study());
    assertEquals(120, summary.responses());
    // describe: 10 of 120; explain: 20 + 10 of 120.
    assertEquals(10, rate(summary, Dimension.KIND, "describe").missing().orElseThrow().hits());
    assertEquals(30, rate(summary, Dimension.KIND, "explain").missing().orElseThrow().hits());
    assertEquals(240, rate(summary, Dimension.ALL, "all").missing().orElseThrow().total());
    assertEquals(List.of(90L, 20L, 10L), summary.byOpenDemands());
  }

  @Test
  void uncheckedDemandsCountNowhereButUnderTheirName() {
    StudyTally tally = new StudyTally(StudyDesign.PLAIN);
    tally.add(response("r1", Map.of(), Verdict.UNCHECKED, Verdict.MISSING));
    StudySummary summary = StudySummary.of(tally, Level.DEFAULT, Optional.empty());
    assertEquals(1, rate(summary, Dimension.ALL, "all").missing().orElseThrow().total());
    assertTrue(rate(summary, Dimension.KIND, "describe").missing().isEmpty());
    assertEquals(1L, rate(summary, Dimension.KIND, "describe").verdicts().get(Verdict.UNCHECKED));
    assertTrue(summary.coOmissions().isEmpty());
  }

  private static JudgedResponse ofLength(int words) {
    JudgedResponse like =
        response("r" + words, groups("day", "k1", "1"), Verdict.ADDRESSED, Verdict.MISSING);
    return new JudgedResponse(
        like.responseId(),
        like.promptId(),
        like.verdict(),
        words,
        0,
        like.groups(),
        like.demands());
  }

  @Test
  void lengthsStandFromShortToLong() {
    List<String> bands =
        summary(List.of(ofLength(300), ofLength(90), ofLength(7))).rates().stream()
            .filter(rate -> rate.dimension() == Dimension.LENGTH)
            .map(StudySummary.Rate::name)
            .toList();
    assertEquals(List.of("5-9", "80-159", "160+"), bands);
  }

  @Test
  void orderOfResponsesChangesNothing() {
    List<JudgedResponse> shuffled = new ArrayList<>(study());
    StudySummary first = summary(shuffled);
    Collections.shuffle(shuffled, new Random(4));
    assertNotEquals(study().get(0), shuffled.get(0));
    assertEquals(first, summary(shuffled));
  }

  @Test
  void clustersPastTheLimitArePooledWhateverTheOrder() {
    List<JudgedResponse> many = new ArrayList<>();
    for (int keeper = 0; keeper < ClusterCounts.LIMIT + 500; keeper++) {
      many.add(
          response(
              "r" + keeper,
              groups("day", "k" + keeper, "1"),
              keeper % 4 == 0 ? Verdict.MISSING : Verdict.ADDRESSED,
              keeper % 4 == 0 ? Verdict.MISSING : Verdict.ADDRESSED));
    }
    StudySummary first = summary(many);
    StudySummary.Rate all = rate(first, Dimension.ALL, "all");
    assertTrue(all.clusters() <= ClusterCounts.POOLS);
    // Both demands of a keeper share their fate, so the design effect is 2, give or take the
    // pooling.
    assertEquals(2, all.designEffect().orElseThrow(), 0.3);
    assertEquals(1, first.notes().size());
    Collections.reverse(many);
    assertEquals(first, summary(many));
  }

  @Test
  void groupsAreComparedAndTheFamilyCorrected() {
    StudySummary summary = summary(study());
    var overall = summary.comparisons().stream().filter(one -> one.kind().isEmpty()).toList();
    assertEquals(1, overall.size());
    assertEquals("day", overall.get(0).first());
    // All 10 + 10 tired ones are on night, and half of the other 10 missing explanations.
    assertEquals(10 / 120.0, overall.get(0).rates().first().rate(), 1e-12);
    assertEquals(30 / 120.0, overall.get(0).rates().second().rate(), 1e-12);
    assertTrue(overall.get(0).test().orElseThrow().p() < 0.01);
    assertEquals(60, overall.get(0).method().clusters());
    assertTrue(overall.get(0).clusteredTest().orElseThrow().p() < 0.05);
    assertEquals(2, summary.comparisons().stream().filter(one -> one.kind().isPresent()).count());
  }

  @Test
  void coOmissionCountsResponsesThatLeaveBothOpen() {
    var pair =
        summary(study()).coOmissions().stream()
            .filter(one -> one.prompt().isEmpty())
            .findFirst()
            .orElseThrow();
    assertEquals(
        List.of(10L, 0L, 20L, 90L),
        List.of(pair.both(), pair.onlyFirst(), pair.onlySecond(), pair.neither()));
    assertEquals(10.0 / 120 / ((10.0 / 120) * (30.0 / 120)), pair.lift().orElseThrow(), 1e-12);
  }

  @Test
  void draftsArePairedByWriterInAnyOrder() {
    List<JudgedResponse> responses = new ArrayList<>(study());
    Collections.reverse(responses);
    StudySummary summary = summary(responses);
    var drafts = summary.drafts().orElseThrow();
    assertEquals(60, drafts.answers());
    assertEquals(List.of("1", "2"), drafts.order());
    var all = drafts.changes().get(0);
    // describe: 10 mended; explain: 10 mended, 10 still missing.
    assertEquals(10, all.counts().both());
    assertEquals(20, all.counts().before());
    assertEquals(0, all.counts().after());
    assertEquals(-20 / 120.0, all.change().orElseThrow().value(), 1e-12);
  }

  private static StudySummary.Drafts drafts(List<String> order, String... drafts) {
    StudyTally tally =
        new StudyTally(
            new StudyDesign(
                List.of(),
                List.of(),
                Optional.of(new StudyDesign.Drafts("draft", order, "keeper"))));
    int number = 0;
    for (String draft : drafts) {
      // Only the one called pre, 2 or 2026-02-01 leaves its explanation open.
      boolean early = List.of("pre", "2", "2026-02-01").contains(draft);
      tally.add(
          response(
              "r" + number++,
              groups("day", "k1", draft),
              Verdict.ADDRESSED,
              early ? Verdict.MISSING : Verdict.ADDRESSED));
    }
    return StudySummary.of(tally, Level.DEFAULT, Optional.empty()).drafts().orElseThrow();
  }

  @Test
  void draftsStandInTheOrderGivenOrThatOfNumbersOrDates() {
    for (StudySummary.Drafts found :
        List.of(
            drafts(List.of("pre", "post"), "post", "pre"),
            drafts(List.of(), "10", "2"),
            drafts(List.of(), "2026-10-01", "2026-02-01"))) {
      assertEquals(1, found.changes().get(0).counts().before(), found.order().toString());
      assertEquals(0, found.changes().get(0).counts().after());
    }
  }

  @Test
  void wordsWithoutAnOrderAreRefused() {
    var failure =
        assertThrows(
            DraftOrder.UnknownPlaceException.class, () -> drafts(List.of(), "pre", "post"));
    assertTrue(String.valueOf(failure.getMessage()).contains("pre"));
    assertThrows(DraftOrder.UnknownPlaceException.class, () -> drafts(List.of(), "1", "final"));
    assertThrows(
        DraftOrder.UnknownPlaceException.class,
        () -> drafts(List.of("pre", "post"), "pre", "later"));
  }

  @Test
  void aDraftThatIsThereTwiceIsLeftOutAndCounted() {
    StudySummary.Drafts found = drafts(List.of(), "1", "2", "2.0");
    assertEquals(0, found.answers());
    assertEquals(1, found.twice());
    StudySummary.Drafts between = drafts(List.of(), "1", "2", "2", "3");
    assertEquals(1, between.answers(), "what lies between is not compared");
    assertEquals(1, drafts(List.of(), "1", "", "2").unplaced());
  }

  /** Students of four classes: within a class all do alike, so that students tell little. */
  @Test
  void theWiderOfTwoLevelsDecidesAndBothAreShown() {
    StudyTally tally =
        new StudyTally(new StudyDesign(List.of(), List.of("shift", "keeper"), Optional.empty()));
    for (int at = 0; at < 80; at++) {
      Verdict verdict = at % 4 == 0 ? Verdict.MISSING : Verdict.ADDRESSED;
      tally.add(response("r" + at, groups("s" + at % 4, "k" + at % 40, "1"), verdict, verdict));
    }
    StudySummary summary = StudySummary.of(tally, Level.DEFAULT, Optional.empty());
    assertEquals(
        List.of("shift", "keeper"),
        summary.levels().stream().map(StudySummary.ClusterLevel::column).toList());
    assertEquals(4, summary.levels().get(0).clusters());
    assertEquals(40, summary.levels().get(1).clusters());
    assertEquals(4, rate(summary, Dimension.ALL, "all").clusters());
    assertTrue(summary.notes().isEmpty(), summary.notes().toString());
  }

  @Test
  void levelsThatCrossAreToldOf() {
    StudyTally tally =
        new StudyTally(new StudyDesign(List.of(), List.of("shift", "keeper"), Optional.empty()));
    for (int at = 0; at < 12; at++) {
      tally.add(
          response(
              "r" + at, groups("s" + at % 4, "k" + at % 3, "1"), Verdict.MISSING, Verdict.MISSING));
    }
    StudySummary summary = StudySummary.of(tally, Level.DEFAULT, Optional.empty());
    assertTrue(summary.notes().get(0).contains("\"k0\" is in more than one shift"));
  }

  /** Seven shifts, each kept by other keepers who each do as they do: no shift differs. */
  @Test
  void manyGroupsAreComparedWithTheirClusters() {
    StudyTally tally =
        new StudyTally(new StudyDesign(List.of("shift"), List.of("keeper"), Optional.empty()));
    for (int at = 0; at < 7 * 60; at++) {
      int keeper = at % 42;
      Verdict verdict = keeper % 5 == 0 ? Verdict.MISSING : Verdict.ADDRESSED;
      tally.add(response("r" + at, groups("s" + keeper % 7, "k" + keeper, "1"), verdict, verdict));
    }
    StudySummary summary = StudySummary.of(tally, Level.DEFAULT, Optional.empty());
    var overall = summary.comparisons().stream().filter(one -> one.kind().isEmpty()).toList();
    assertEquals(7, overall.size());
    for (var one : overall) {
      assertEquals("all others", one.second());
      assertEquals(42, one.method().clusters());
      assertTrue(one.clusteredTest().orElseThrow().p() > one.test().orElseThrow().p());
    }
  }

  @Test
  void aColumnWithTooManyValuesIsNoGroup() {
    StudyTally tally =
        new StudyTally(new StudyDesign(List.of("shift"), List.of(), Optional.empty()));
    var failure =
        assertThrows(
            IllegalArgumentException.class,
            () -> {
              for (int at = 0; at <= StudyTally.MOST_GROUP_VALUES; at++) {
                tally.add(
                    response(
                        "r" + at, groups("s" + at, "k", "1"), Verdict.MISSING, Verdict.MISSING));
              }
            });
    assertTrue(String.valueOf(failure.getMessage()).contains("shift"));
  }

  @Test
  void aSmallCodedSampleIsCalledTooSmall() {
    StudyTally tally = new StudyTally(DESIGN);
    study().forEach(tally::add);
    List<CodedDemand> coded = new ArrayList<>();
    for (int at = 0; at < 20; at++) {
      coded.add(coded(at, at % 2 == 0, at % 2 == 0));
    }
    var correction =
        StudySummary.of(tally, Level.DEFAULT, Optional.of(agreement(coded))).corrections().get(0);
    assertTrue(correction.statement().orElseThrow().contains("too small"));
    for (int at = 20; at < 200; at++) {
      coded.add(coded(at, at % 2 == 0, at % 2 == 0 || at % 10 == 1));
    }
    var better =
        StudySummary.of(tally, Level.DEFAULT, Optional.of(agreement(coded))).corrections().get(0);
    assertTrue(better.statement().isEmpty());
    assertTrue(better.corrected().orElseThrow().value() < better.apparent().rate());
  }

  private static Agreement agreement(List<CodedDemand> coded) {
    return new Agreement(coded, Level.DEFAULT, 100, 1);
  }

  private static CodedDemand coded(int at, boolean missing, boolean calledMissing) {
    return new CodedDemand(
        "c" + at,
        "lamp",
        "a",
        1,
        DemandKind.EXPLAIN,
        calledMissing ? Verdict.MISSING : Verdict.ADDRESSED,
        0.8,
        false,
        Map.of("ada", !missing),
        1,
        "c" + at,
        Map.of());
  }
}
