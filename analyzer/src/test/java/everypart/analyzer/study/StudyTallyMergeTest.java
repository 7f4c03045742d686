package everypart.analyzer.study;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.analyzer.coverage.Verdict;
import everypart.analyzer.study.statistics.Level;
import everypart.lexicon.DemandKind;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.ObjectInputStream;
import java.io.ObjectOutputStream;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class StudyTallyMergeTest {
  private static final List<DemandKind> KINDS = List.of(DemandKind.values()).subList(0, 4);
  private static final List<Verdict> VERDICTS = List.of(Verdict.values());
  private static final StudyDesign DESIGN =
      new StudyDesign(
          List.of("sex", "cohort"),
          List.of("class", "student"),
          Optional.of(new StudyDesign.Drafts("round", List.of(), "student")));

  private static List<JudgedResponse> responses(int count, int classes) {
    Random random = new Random(20_261_129);
    List<JudgedResponse> responses = new ArrayList<>();
    for (int at = 0; at < count; at++) {
      List<DemandRow> rows = new ArrayList<>();
      int prompt = random.nextInt(3);
      for (int demand = 1; demand <= 2 + prompt; demand++) {
        rows.add(
            new DemandRow(
                "a",
                demand,
                demand,
                KINDS.get((prompt + demand) % KINDS.size()),
                "verb" + demand,
                VERDICTS.get(random.nextInt(VERDICTS.size())),
                0.8,
                random.nextBoolean()));
      }
      int clazz = random.nextInt(classes);
      responses.add(
          new JudgedResponse(
              "r" + at,
              "p" + prompt,
              Verdict.PARTLY,
              random.nextInt(200),
              random.nextInt(2),
              Map.of(
                  "sex", random.nextBoolean() ? "f" : "m",
                  "cohort", "k" + clazz % 8,
                  "class", random.nextInt(20) == 0 ? "" : "c" + clazz,
                  "student", "s" + random.nextInt(count / 3),
                  "round", random.nextInt(30) == 0 ? "" : String.valueOf(random.nextInt(3))),
              rows));
    }
    return responses;
  }

  /** Sends a tally through serialisation, as a cluster of machines does. */
  private static StudyTally sent(StudyTally tally) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (ObjectOutputStream out = new ObjectOutputStream(bytes)) {
      out.writeObject(tally);
    } catch (IOException e) {
      throw new IllegalStateException(e);
    }
    try (ObjectInputStream in =
        new ObjectInputStream(new ByteArrayInputStream(bytes.toByteArray()))) {
      return (StudyTally) in.readObject();
    } catch (IOException | ClassNotFoundException e) {
      throw new IllegalStateException(e);
    }
  }

  /** Returns one of five parts; the first has most responses, and passes the bound of pooling. */
  private static Stream<JudgedResponse> part(List<JudgedResponse> all, int part) {
    return IntStream.range(0, all.size())
        .filter(at -> at % 10 < 6 ? part == 0 : at % 10 - 5 == part)
        .mapToObj(all::get);
  }

  private static StudyTally tally(Stream<JudgedResponse> responses) {
    StudyTally tally = new StudyTally(DESIGN);
    responses.forEach(tally::add);
    return tally;
  }

  private static StudySummary summary(StudyTally tally) {
    return StudySummary.of(tally, Level.DEFAULT, Optional.empty());
  }

  /** With 3,000 classes and pooling on one side of the bound or on both. */
  @ParameterizedTest
  @ValueSource(ints = {40, 3_000})
  void partsPutTogetherInAnyOrderGiveTheWhole(int classes) {
    List<JudgedResponse> all = responses(6_000, classes);
    List<StudyTally> parts = new ArrayList<>();
    for (int part = 0; part < 5; part++) {
      parts.add(tally(part(all, part)));
    }
    parts.add(new StudyTally(DESIGN));
    StudySummary whole = summary(tally(all.stream()));
    assertTrue(whole.comparisons().size() > 10 && whole.drafts().orElseThrow().answers() > 100);
    for (int order = 0; order < 3; order++) {
      Collections.shuffle(parts, new Random(order));
      StudyTally merged =
          parts.stream().map(StudyTallyMergeTest::sent).reduce(StudyTally::merge).orElseThrow();
      assertEquals(whole, summary(merged));
    }
  }

  @Test
  void talliesOfTwoDesignsAreNotPutTogether() {
    assertThrows(
        IllegalArgumentException.class,
        () -> new StudyTally(DESIGN).merge(new StudyTally(StudyDesign.PLAIN)));
  }

  @Test
  void draftsThatAreNumbersHereAndDatesThereAreRefused() {
    JudgedResponse one = responses(3, 1).get(0);
    StudyTally numbers = tally(Stream.of(withRound(one, "1")));
    StudyTally dates = tally(Stream.of(withRound(one, "2026-03-09")));
    assertThrows(DraftOrder.UnknownPlaceException.class, () -> numbers.merge(dates));
  }

  private static JudgedResponse withRound(JudgedResponse one, String round) {
    return new JudgedResponse(
        one.responseId(),
        one.promptId(),
        one.verdict(),
        one.words(),
        one.byMeaning(),
        Map.of("sex", "f", "cohort", "k", "class", "c", "student", "s", "round", round),
        one.demands());
  }
}
