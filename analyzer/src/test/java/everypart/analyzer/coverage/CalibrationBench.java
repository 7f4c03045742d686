package everypart.analyzer.coverage;

import everypart.analyzer.coverage.CodedAnswers.Coded;
import everypart.analyzer.coverage.Confidence.Signs;
import everypart.analyzer.prompt.PromptYaml;
import everypart.analyzer.study.agreement.ReliabilityCurve;
import everypart.lexicon.Lexicon;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/**
 * Fits the confidence of verdicts to coded answers and says how well it does, each prompt judged by
 * weights fitted without it. With {@code --write}, puts the weights into {@code confidence.yaml}
 * and the figures into {@code docs/accuracy.md}. Run it in the project's root folder with the
 * folders of coded answers.
 */
public final class CalibrationBench {
  private static final Path FILE =
      Path.of("analyzer/src/main/resources/everypart/analyzer/coverage/confidence.yaml");
  private static final Path PAGE = Path.of("docs/accuracy.md");
  private static final String HEADING = "## Confidence";
  private static final double[] SHARES = {0.05, 0.1, 0.15, 0.2, 0.3};
  private static final int STEPS = 60;

  /** The most verdicts that a person is asked to look at. */
  private static final double MOST_LOOKED_AT = 0.1;

  /** A verdict: its signs, whether it is right, and its prompt. */
  private record Judged(Signs signs, boolean right, String prompt) {}

  private CalibrationBench() {}

  /** Runs it. */
  public static void main(String[] args) throws IOException {
    CoverageAnalyzer analyzer = new CoverageAnalyzer(Lexicon.bundled());
    PromptYaml yaml = new PromptYaml(analyzer.prompts());
    boolean write = false;
    List<Judged> all = new ArrayList<>();
    Map<String, Integer> sets = new TreeMap<>();
    for (String arg : args) {
      if (arg.equals("--write")) {
        write = true;
        continue;
      }
      for (Coded coded : CodedAnswers.read(Path.of(arg), yaml)) {
        List<Signs> signs = analyzer.signs(coded.prompt(), coded.text());
        // Two folders may hold the same question under two names.
        String prompt = coded.prompt().stimulus() + coded.prompt().parts().get(0).text();
        for (int i = 0; i < signs.size(); i++) {
          all.add(
              new Judged(signs.get(i), signs.get(i).found() == coded.addressed().get(i), prompt));
        }
        sets.merge(coded.set(), signs.size(), Integer::sum);
      }
    }
    double[] held = heldOut(all);
    double lookBelow = threshold(all, held);
    String text = report(all, held, lookBelow, sets);
    System.out.print(text);
    double[] found = fit(all.stream().filter(j -> j.signs().found()).toList());
    double[] missing = fit(all.stream().filter(j -> !j.signs().found()).toList());
    String file = file(found, missing, lookBelow, sets);
    System.out.print(file);
    if (write) {
      Files.writeString(FILE, file);
      replaceSection(PAGE, HEADING, text);
    }
  }

  /** Returns the confidence of each verdict by weights fitted on the other prompts. */
  private static double[] heldOut(List<Judged> all) {
    double[] held = new double[all.size()];
    for (String prompt : all.stream().map(Judged::prompt).distinct().toList()) {
      List<Judged> others = all.stream().filter(j -> !j.prompt().equals(prompt)).toList();
      Confidence confidence =
          new Confidence(
              fit(others.stream().filter(j -> j.signs().found()).toList()),
              fit(others.stream().filter(j -> !j.signs().found()).toList()),
              0);
      for (int i = 0; i < held.length; i++) {
        if (all.get(i).prompt().equals(prompt)) {
          held[i] = confidence.of(all.get(i).signs());
        }
      }
    }
    return held;
  }

  /**
   * Fits a logistic curve by Newton's method, all weights but the first held back by a normal prior
   * of variance 1 (ridge; Le Cessie S, van Houwelingen JC (1992) Ridge estimators in logistic
   * regression. Applied Statistics 41:191-201).
   */
  private static double[] fit(List<Judged> judged) {
    int n = Confidence.WEIGHTS.size();
    double[] weights = new double[n];
    for (int step = 0; step < STEPS; step++) {
      double[] slope = new double[n];
      double[][] bend = new double[n][n];
      for (int i = 0; i < n; i++) {
        double ridge = i == 0 ? 1e-3 : 1;
        slope[i] = ridge * weights[i];
        bend[i][i] = ridge;
      }
      for (Judged each : judged) {
        double[] x = each.signs().values();
        double p = Confidence.of(each.signs(), weights);
        for (int i = 0; i < n; i++) {
          slope[i] += x[i] * (p - (each.right() ? 1 : 0));
          for (int j = 0; j < n; j++) {
            bend[i][j] += x[i] * x[j] * p * (1 - p);
          }
        }
      }
      double[] change = solve(bend, slope);
      for (int i = 0; i < n; i++) {
        weights[i] -= change[i];
      }
    }
    return weights;
  }

  /** Solves a small system of equations, positive definite, by elimination. */
  private static double[] solve(double[][] matrix, double[] right) {
    int n = right.length;
    double[] x = right.clone();
    for (int i = 0; i < n; i++) {
      for (int row = i + 1; row < n; row++) {
        double factor = matrix[row][i] / matrix[i][i];
        for (int column = i; column < n; column++) {
          matrix[row][column] -= factor * matrix[i][column];
        }
        x[row] -= factor * x[i];
      }
    }
    for (int i = n - 1; i >= 0; i--) {
      for (int column = i + 1; column < n; column++) {
        x[i] -= matrix[i][column] * x[column];
      }
      x[i] /= matrix[i][i];
    }
    return x;
  }

  /**
   * Returns the confidence below which verdicts are to be looked at: the one that parts errors from
   * right verdicts best (the greatest difference between the share of errors caught and the share
   * of verdicts looked at), asking for no more looks than {@link #MOST_LOOKED_AT}.
   */
  private static double threshold(List<Judged> all, double[] held) {
    double best = 0;
    double gain = 0;
    for (int percent = 50; percent < 100; percent++) {
      double below = percent / 100.0;
      double looked = looked(held, below);
      double value = caught(all, held, below) - looked;
      if (looked <= MOST_LOOKED_AT && value > gain) {
        gain = value;
        best = below;
      }
    }
    return best;
  }

  private static double looked(double[] held, double below) {
    int looked = 0;
    for (double confidence : held) {
      looked += confidence < below ? 1 : 0;
    }
    return (double) looked / held.length;
  }

  private static double caught(List<Judged> all, double[] held, double below) {
    int caught = 0;
    int errors = 0;
    for (int i = 0; i < held.length; i++) {
      if (!all.get(i).right()) {
        errors++;
        caught += held[i] < below ? 1 : 0;
      }
    }
    return (double) caught / Math.max(1, errors);
  }

  private static String report(
      List<Judged> all, double[] held, double lookBelow, Map<String, Integer> sets) {
    ReliabilityCurve curve = new ReliabilityCurve();
    long errors = all.stream().filter(j -> !j.right()).count();
    for (int i = 0; i < held.length; i++) {
      curve.add(held[i], all.get(i).right());
    }
    double rate = (double) errors / all.size();
    StringBuilder text = new StringBuilder();
    text.append(HEADING).append('\n');
    add(
        text,
        "Fitted on %s on %d verdicts (%s), %d of them wrong.%n"
            + "Each figure below judges a prompt by weights fitted without it. The rules themselves"
            + " have seen these answers, so on%nnew questions expect confidence to be somewhat too"
            + " high.%n%n",
        LocalDate.now(ZoneOffset.UTC),
        all.size(),
        String.join(
            ", ", sets.entrySet().stream().map(e -> e.getKey() + " " + e.getValue()).toList()),
        errors);
    add(
        text,
        "Brier score %.4f (0 at best; %.4f for the same confidence in every verdict), calibration"
            + " error %.3f.%n%n",
        curve.brier().orElseThrow(),
        rate * (1 - rate),
        curve.calibrationError().orElseThrow());
    text.append("| confidence | verdicts | mean confidence | right |\n|---|---|---|---|\n");
    for (ReliabilityCurve.Bin bin : curve.bins()) {
      add(
          text,
          "| %.1f to %.1f | %d | %.3f | %.3f |%n",
          bin.low(),
          bin.high(),
          bin.right().total(),
          bin.meanConfidence(),
          bin.right().rate());
    }
    add(
        text,
        "%n`look` is set below a confidence of %.2f: %.1f %% of the verdicts are looked at, and"
            + " %.1f %% of the errors are%namong them. Other thresholds:%n%n",
        lookBelow,
        100 * looked(held, lookBelow),
        100 * caught(all, held, lookBelow));
    text.append("| looked at, least sure first | errors caught |\n|---|---|\n");
    List<Integer> order = new ArrayList<>();
    for (int i = 0; i < held.length; i++) {
      order.add(i);
    }
    order.sort(Comparator.comparingDouble(i -> held[i]));
    for (double share : SHARES) {
      long caught =
          order.stream()
              .limit(Math.round(share * held.length))
              .filter(i -> !all.get(i).right())
              .count();
      add(text, "| %.0f %% | %.0f %% |%n", 100 * share, 100.0 * caught / Math.max(1, errors));
    }
    text.append(
        """

        To fit it anew after `mvn -Dquick -DskipTests package`, with the folders of coded answers:

            java -cp analyzer/target/test-classes:cli/target/everypart.jar \\
              everypart.analyzer.coverage.CalibrationBench --write FOLDER...
        """);
    return text.toString();
  }

  private static void add(StringBuilder text, String format, Object... values) {
    text.append(String.format(Locale.ROOT, format, values));
  }

  private static String file(
      double[] found, double[] missing, double lookBelow, Map<String, Integer> sets) {
    StringBuilder text = new StringBuilder();
    add(
        text,
        """
        # How likely a verdict is right: 1 / (1 + exp(-s)), s being the sum of
        #   base + strength x log-odds of the signs for the verdict + length x log(1 + tokens of the part)
        #   + parts, where the prompt has several parts + open, where the kind is define, describe, explain, justify or compare.
        # Source: fitted by CalibrationBench on %s on coded answers, number of verdicts: %s.
        # Written by that program; docs/accuracy.md has the figures. Licence: as the project.
        """,
        LocalDate.now(ZoneOffset.UTC),
        String.join(
            ", ", sets.entrySet().stream().map(e -> e.getKey() + " " + e.getValue()).toList()));
    add(text, "look-below: %.2f%n", lookBelow);
    text.append(line("found", found)).append(line("missing", missing));
    return text.toString();
  }

  private static String line(String name, double[] weights) {
    List<String> pairs = new ArrayList<>();
    for (int i = 0; i < weights.length; i++) {
      pairs.add(String.format(Locale.ROOT, "%s: %.3f", Confidence.WEIGHTS.get(i), weights[i]));
    }
    return name + ": {" + String.join(", ", pairs) + "}\n";
  }

  /** Puts a text in the place of the section with its heading, at the end when there is none. */
  public static void replaceSection(Path page, String heading, String text) throws IOException {
    List<String> lines = new ArrayList<>();
    boolean inside = false;
    boolean done = false;
    for (String line : Files.readAllLines(page, StandardCharsets.UTF_8)) {
      if (line.startsWith("## ")) {
        inside = line.equals(heading);
        if (inside) {
          lines.addAll(text.lines().toList());
          lines.add("");
          done = true;
        }
      }
      if (!inside) {
        lines.add(line);
      }
    }
    if (!done) {
      lines.add("");
      lines.addAll(text.lines().toList());
    }
    Files.writeString(page, String.join("\n", lines).stripTrailing() + "\n");
  }
}
