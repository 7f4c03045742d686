package everypart.cli.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.analyzer.study.StudyDesign;
import everypart.cli.Interpreter;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The scripts on a made-up study whose truth is known, where R or Python is installed. */
class ModelScriptsTest {
  /** A name that a script could stumble over, and one that the program's own columns have too. */
  private static final List<String> COLUMNS =
      List.of("=groupe d\u00e9j\u00e0 \"vu\" \\ @R@", "kind");

  private static final double TRUE_ODDS_RATIO = 2;

  @TempDir
  @SuppressWarnings("NullAway.Init")
  Path folder;

  static StudyLog log(List<String> by, int leastWords) {
    return new StudyLog(
        "everypart 0",
        new StudyLog.Settings(
            "prompts",
            "answers.csv",
            by,
            "class,student",
            null,
            null,
            null,
            0.95,
            1,
            List.of(),
            false,
            false,
            "features",
            leastWords,
            false,
            null),
        new StudyLog.Inputs(
            new StudyLog.Checked("answers.csv", null),
            List.of(),
            List.of(),
            List.of(),
            null,
            List.of(),
            null),
        null,
        StudyLog.Rows.NONE,
        List.of(),
        List.of());
  }

  private static StudyDesign design(List<String> by) {
    return new StudyDesign(by, List.of("class", "student"), Optional.empty());
  }

  @Test
  void noNameEndsItsQuotes() {
    assertEquals("\"first_language\"", ModelScripts.literal("first_language"));
    assertEquals(
        "\"\\u0022; x \\u005c\\u000a\\u00e9\\U0001f41f\"",
        ModelScripts.literal("\"; x \\\n\u00e9\ud83d\udc1f"));
  }

  @Test
  void onlyAComparisonOfGroupsHasScripts() {
    assertTrue(ModelScripts.of(log(List.of(), 0), design(List.of()), "demands.csv").isEmpty());
    var scripts = ModelScripts.of(log(COLUMNS, 0), design(COLUMNS), "demands.csv.gz");
    assertEquals(List.of("model.R", "model.py"), List.copyOf(scripts.keySet()));
    for (String script : scripts.values()) {
      assertTrue(
          script.contains("\"demands.csv.gz\"") && script.contains("\"class\", \"student\""));
      assertFalse(Pattern.compile("@(?!R@)[A-Z_]+@").matcher(script).find(), script);
      assertTrue(script.chars().allMatch(c -> c < 128), "ASCII");
    }
  }

  /**
   * Writes the table of a made-up study: forty classes of twelve students who answer one or two
   * prompts of three demands, in which group b has twice the odds of leaving a demand open. Its
   * column kind says nothing. Responses left out have all demands missing.
   */
  private void madeUpStudy() throws IOException {
    List<String> columns = new ArrayList<>(COLUMNS);
    columns.addAll(List.of("class", "student"));
    StringBuilder table = new StringBuilder(DemandsCsv.ofStudy(columns, true).header());
    Random random = new Random(20261129);
    int response = 0;
    for (int clazz = 1; clazz <= 40; clazz++) {
      double ofClass = 0.6 * random.nextGaussian();
      for (int student = 1; student <= 12; student++) {
        double ofStudent = 0.8 * random.nextGaussian();
        String group = random.nextBoolean() ? "b" : "a";
        String noise = random.nextBoolean() ? "x" : "y";
        for (int prompt = 1; prompt <= 1 + student % 2; prompt++) {
          response++;
          boolean leftOut = group.equals("a") && random.nextInt(4) == 0;
          for (int demand = 1; demand <= 3; demand++) {
            double logit =
                -1.6
                    + 0.5 * demand
                    - 0.2 * prompt
                    + ofClass
                    + ofStudent
                    + (group.equals("b") ? Math.log(TRUE_ODDS_RATIO) : 0);
            boolean missing = leftOut || random.nextDouble() < 1 / (1 + Math.exp(-logit));
            table.append(
                DemandsCsv.row(
                    List.of(
                        "r" + response,
                        "p" + prompt,
                        "a",
                        String.valueOf(demand),
                        "explain",
                        "explain",
                        "why, \"so\"\nor not",
                        "1",
                        missing ? "0" : "1",
                        missing ? "missing" : "addressed",
                        "0.900",
                        "0",
                        missing ? "" : "a quote; with \u2018signs\u2019",
                        "",
                        group,
                        noise,
                        clazz == 40 ? "" : "c" + clazz,
                        "s" + clazz + "-" + student,
                        leftOut ? "empty" : "")));
          }
        }
      }
    }
    Files.writeString(folder.resolve("demands.csv"), table);
    for (var script : ModelScripts.of(log(COLUMNS, 1), design(COLUMNS), "demands.csv").entrySet()) {
      Files.writeString(folder.resolve(script.getKey()), script.getValue());
    }
  }

  private static double[] numbers(String pattern, String printed) {
    Matcher found = Pattern.compile(pattern).matcher(printed);
    assertTrue(found.find(), printed);
    double[] numbers = new double[found.groupCount()];
    for (int at = 0; at < numbers.length; at++) {
      numbers[at] = Double.parseDouble(found.group(at + 1));
    }
    return numbers;
  }

  private static final String N = "([0-9.]+)";

  /** Odds ratio, limits, probability, and odds ratio over all writers, as model.R prints them. */
  private static final String R_LINE = "(?m)^ +b +" + N + " +" + N + " +" + N + " +" + N + " +" + N;

  private static final String PYTHON_LINE =
      "(?m)^b: odds ratio " + N + ", " + N + " to " + N + ", p = " + N;

  @Tag("slow")
  @Test
  void rFindsTheTruth() throws IOException, InterruptedException {
    madeUpStudy();
    String printed = Interpreter.R.run(folder);
    double[] b = numbers(R_LINE, printed);
    assertTrue(b[1] < TRUE_ODDS_RATIO && TRUE_ODDS_RATIO < b[2], printed);
    assertEquals(TRUE_ODDS_RATIO, b[0], 0.6, printed);
    assertTrue(b[3] < 0.01, printed);
    assertTrue(b[4] > 1 && b[4] < b[0], "over all writers it is nearer to 1: " + printed);
    assertTrue(printed.contains("class: ") && printed.contains("student: "), printed);
    assertTrue(printed.contains("== By kind =="), printed);
  }

  @Tag("slow")
  @Test
  void pythonFindsTheSameOverAllWriters() throws IOException, InterruptedException {
    madeUpStudy();
    String printed = Interpreter.PYTHON.run(folder);
    double[] b = numbers(PYTHON_LINE, printed);
    assertTrue(b[1] < b[0] && b[0] < b[2] && b[3] < 0.01, printed);
    double overAll = numbers(R_LINE, Interpreter.R.run(folder))[4];
    assertEquals(Math.log(overAll), Math.log(b[0]), 0.1, printed);
  }
}
