package everypart.cli.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.analyzer.coverage.Verdict;
import everypart.analyzer.study.DemandRow;
import everypart.analyzer.study.JudgedResponse;
import everypart.analyzer.study.StudyDesign;
import everypart.analyzer.study.StudySummary;
import everypart.analyzer.study.StudyTally;
import everypart.analyzer.study.agreement.Agreement;
import everypart.analyzer.study.agreement.CodedDemand;
import everypart.analyzer.study.agreement.CodingSample;
import everypart.analyzer.study.agreement.Stratum;
import everypart.analyzer.study.statistics.Level;
import everypart.cli.Interpreter;
import everypart.lexicon.DemandKind;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * R computes every kind of figure anew, by {@code recompute.R}, from a made-up study with classes,
 * students and drafts, a drawn sample and two coders, one in which each demand stands alone, and
 * one of pairs of drafts. Skipped where Rscript is not installed.
 */
class RecomputedInRTest {
  private static final List<DemandKind> KINDS =
      List.of(DemandKind.DESCRIBE, DemandKind.EXPLAIN, DemandKind.PREDICT);
  private static final int FEWEST_KINDS = 55;
  private static final int RESAMPLES = 100;
  private static final long SEED = 1;

  @TempDir
  @SuppressWarnings("NullAway.Init")
  Path folder;

  private final StringBuilder rows =
      new StringBuilder(
          "set,response,prompt,part,demand,position,kind,verb,verdict,band,step,class,student,"
              + "sex,cohort,writer,round,cluster\n");
  private final StringBuilder coded =
      new StringBuilder(
          "set,response,kind,program,confidence,weight,stratum,near,kin,size,cluster,c1,c2,sex,"
              + "cohort\n");

  /** Of how many items alpha's bootstrap draws resamples. */
  private final Set<Integer> resampled = new TreeSet<>();

  private final StringBuilder sizes = new StringBuilder("set,kind,stratum,near,kin,size\n");

  /** A made-up study as it grows. */
  private final class Made {
    private final String set;
    private final SplittableRandom random;
    private final StudyTally tally;
    private final List<CodedDemand> all = new ArrayList<>();

    Made(String set, long seed, StudyDesign design) {
      this.set = set;
      this.random = new SplittableRandom(seed);
      this.tally = new StudyTally(design);
    }

    /**
     * Adds a response.
     *
     * @param of which kind its one demand is of, where it has one
     */
    void response(
        String id, Map<String, String> groups, String cluster, int demands, int of, double rate) {
      int[] words = {3, 15, 60, 150};
      int[] steps = {1, 3, 5, 6};
      String[] bands = {"1-4", "10-19", "40-79", "80-159"};
      int at = random.nextInt(words.length);
      // A demand of a prompt has one kind, so where kinds vary prompts do.
      DemandKind only = KINDS.get(of);
      String prompt = demands == 1 ? only.word() + "-prompt" : "p";
      List<DemandRow> list = new ArrayList<>();
      for (int demand = 1; demand <= demands; demand++) {
        DemandKind kind = demands == 1 ? only : KINDS.get((demand - 1) % KINDS.size());
        boolean missing = random.nextDouble() < Math.min(0.9, rate + 0.08 * demand);
        boolean unsure = random.nextInt(4) == 0;
        Verdict verdict =
            random.nextInt(40) == 0
                ? Verdict.UNCHECKED
                : missing
                    ? Verdict.MISSING
                    : random.nextInt(4) == 0 ? Verdict.PARTLY : Verdict.ADDRESSED;
        double confidence = 0.5 + 0.49 * random.nextDouble();
        list.add(
            new DemandRow("a", demand, demand, kind, kind.word(), verdict, confidence, unsure));
        rows.append(
            String.join(
                ",",
                set,
                id,
                prompt,
                "a",
                String.valueOf(demand),
                String.valueOf(demand),
                kind.word(),
                kind.word(),
                verdict.word(),
                bands[at],
                String.valueOf(steps[at]),
                groups.getOrDefault("class", ""),
                groups.getOrDefault("student", ""),
                groups.getOrDefault("sex", ""),
                groups.getOrDefault("cohort", ""),
                groups.getOrDefault("writer", ""),
                groups.getOrDefault("round", "1"),
                cluster + "\n"));
        if (verdict != Verdict.UNCHECKED) {
          Map<String, Boolean> codes = new HashMap<>();
          boolean truth = (verdict == Verdict.MISSING) == random.nextInt(unsure ? 3 : 9) > 0;
          codes.put("c1", !truth);
          if (random.nextInt(3) > 0) {
            codes.put("c2", truth == random.nextInt(8) < 1);
          }
          all.add(
              new CodedDemand(
                  id,
                  prompt,
                  "a",
                  demand,
                  kind,
                  verdict,
                  confidence,
                  unsure,
                  codes,
                  1,
                  cluster,
                  groups));
        }
      }
      tally.add(new JudgedResponse(id, prompt, Verdict.PARTLY, words[at], 0, groups, list));
    }

    /** Writes the summary, with the coded demands of a drawn sample or of all. */
    void write(List<String> by, int sample) throws IOException {
      List<CodedDemand> drawn = all;
      Map<Stratum, Long> strata = Map.of();
      if (sample > 0) {
        CodingSample<CodedDemand> draw = new CodingSample<>(sample, 5);
        all.forEach(
            one ->
                draw.offer(
                    one.responseId() + one.demand(), one.kind(), one.verdict(), one.look(), one));
        strata = new HashMap<>(draw.sizes());
        drawn = draw.draw().stream().map(one -> one.item().weighing(one.weight())).toList();
      }
      for (CodedDemand one : drawn) {
        Stratum stratum = one.stratum().orElseThrow();
        coded.append(
            String.format(
                Locale.ROOT,
                "%s,%s,%s,%d,%.17g,%.17g,%s,%s,%s,%s,%s,%s,%s%n",
                set,
                one.responseId(),
                one.kind().word(),
                one.program().orElseThrow() ? 1 : 0,
                one.confidence(),
                one.weight(),
                sample > 0 ? places(stratum) : ",,",
                sample > 0 ? strata.getOrDefault(stratum, 0L) : "",
                one.cluster(),
                code(one, "c1"),
                code(one, "c2"),
                one.groups().getOrDefault("sex", ""),
                one.groups().getOrDefault("cohort", "")));
      }
      strata.forEach(
          (stratum, size) ->
              sizes.append(
                  String.join(",", set, stratum.kind().word(), places(stratum), size + "\n")));
      Agreement agreement =
          sample > 0
              ? new Agreement(drawn, Level.DEFAULT, RESAMPLES, SEED, true, strata)
              : new Agreement(drawn, Level.DEFAULT, RESAMPLES, SEED);
      if (sample == 0) {
        for (Agreement.Section section : agreement.sections()) {
          section.pairs().forEach(pair -> resampled.add((int) pair.table().total()));
          section.people().ifPresent(people -> resampled.add(section.coded()));
        }
      }
      Files.writeString(
          folder.resolve("summary-" + set + ".json"),
          SummaryJson.of(
              ModelScriptsTest.log(by, 0),
              StudySummary.of(tally, Level.DEFAULT, Optional.of(agreement)),
              Optional.of(agreement)));
    }
  }

  private static String places(Stratum stratum) {
    String kin = stratum.missing() ? "called" : "not";
    String near = kin + (stratum.unsure() ? "-unsure" : "-sure");
    return stratum.kind().word() + "-" + near + "," + near + "," + kin;
  }

  private static String code(CodedDemand demand, String coder) {
    Boolean code = demand.codes().get(coder);
    return code == null ? "NA" : code ? "1" : "0";
  }

  /** The resamples that the stated seed gives, for R to compute alpha's bootstrap anew from. */
  private String draws() {
    StringBuilder draws = new StringBuilder("n,resample,item\n");
    for (int items : resampled) {
      SplittableRandom random = new SplittableRandom(SEED);
      for (int resample = 1; resample <= RESAMPLES; resample++) {
        for (int draw = 0; draw < items; draw++) {
          draws.append(items).append(',').append(resample).append(',');
          draws.append(random.nextInt(items) + 1).append('\n');
        }
      }
    }
    return draws.toString();
  }

  private void clustered() throws IOException {
    List<String> by = List.of("sex", "cohort");
    Made made =
        new Made(
            "clustered",
            20_261_129,
            new StudyDesign(
                by,
                List.of("class", "student"),
                Optional.of(new StudyDesign.Drafts("round", List.of(), "writer"))));
    for (int clazz = 1; clazz <= 16; clazz++) {
      double rate = 0.1 + 0.35 * made.random.nextDouble();
      for (int student = 1; student <= 2 + clazz % 3; student++) {
        String name = "c" + clazz + "s" + student;
        for (int round = 1; round <= 2; round++) {
          Map<String, String> groups =
              Map.of(
                  "class",
                  "c" + clazz,
                  "student",
                  name,
                  "writer",
                  name,
                  "round",
                  String.valueOf(round),
                  "sex",
                  student % 2 == 0 ? "f" : "m",
                  "cohort",
                  "k" + clazz % 3);
          made.response(name + "r" + round, groups, "c" + clazz, 3, 0, rate - 0.05 * round);
        }
      }
    }
    made.write(by, 120);
  }

  private void alone() throws IOException {
    Made made =
        new Made("alone", 20_261_130, new StudyDesign(List.of("sex"), List.of(), Optional.empty()));
    for (int response = 1; response <= 160; response++) {
      made.response(
          "a" + response,
          Map.of("sex", response % 3 == 0 ? "f" : "m"),
          "a" + response,
          1,
          response % 2,
          response % 3 == 0 ? 0.3 : 0.2);
    }
    made.write(List.of("sex"), 0);
  }

  private void pairs() throws IOException {
    Made made =
        new Made(
            "pairs",
            20_261_131,
            new StudyDesign(
                List.of("sex"),
                List.of(),
                Optional.of(new StudyDesign.Drafts("round", List.of(), "writer"))));
    for (int writer = 1; writer <= 70; writer++) {
      for (int round = 1; round <= 2; round++) {
        made.response(
            "w" + writer + "r" + round,
            Map.of(
                "writer",
                "w" + writer,
                "round",
                String.valueOf(round),
                "sex",
                writer % 2 == 0 ? "f" : "m"),
            "w" + writer,
            1,
            writer % 2,
            0.5 - 0.15 * round);
      }
    }
    made.write(List.of("sex"), 0);
  }

  @Test
  void noFigureDiffersByMoreThanAMillionth() throws IOException, InterruptedException {
    clustered();
    alone();
    pairs();
    Files.writeString(folder.resolve("rows.csv"), rows);
    Files.writeString(folder.resolve("coded.csv"), coded);
    Files.writeString(folder.resolve("sizes.csv"), sizes);
    Files.writeString(folder.resolve("draws.csv"), draws());
    Files.copy(Path.of("src/test/r/recompute.R"), folder.resolve("recompute.R"));
    String printed = Interpreter.R.run(folder, "recompute.R");
    Files.writeString(Path.of("target/recomputed-in-r.txt"), printed);
    String last = printed.strip().lines().reduce((one, next) -> next).orElse("");
    assertTrue(last.startsWith("kinds: "), printed);
    int kinds = Integer.parseInt(last.replaceFirst("kinds: (\\d+),.*", "$1"));
    assertTrue(kinds >= FEWEST_KINDS, printed);
    assertTrue(printed.contains("alpha with its bootstrap interval: "), printed);
    assertTrue(printed.contains("alpha of people with its bootstrap interval: "), printed);
    assertEquals(
        kinds,
        printed.lines().filter(line -> line.contains(" figures, largest ")).count(),
        printed);
  }
}
