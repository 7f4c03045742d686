package everypart.cli.report;

import everypart.analyzer.coverage.CoverageAnalyzer;
import everypart.analyzer.study.StudySummary;
import everypart.analyzer.study.statistics.Method;
import everypart.analyzer.study.statistics.SignificanceTest;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * A methods section ready to paste: what was done, with which version, lexicon and settings, and
 * the sources of just those methods that were used.
 *
 * @param text what was done, a paragraph each
 * @param references the sources, sorted
 */
record MethodsText(List<String> text, List<String> references) {
  private static final int SHOWN_OF_CHECKSUM = 12;

  MethodsText {
    text = List.copyOf(text);
    references = List.copyOf(references);
  }

  /** Returns text and references, one entry a paragraph. */
  List<String> paragraphs() {
    return Stream.concat(text.stream(), references.stream()).toList();
  }

  /** Returns what clusters are, in a word. */
  static String cluster(StudySummary summary) {
    return summary.levels().isEmpty() ? "response" : summary.levels().get(0).column();
  }

  static MethodsText of(StudyLog log, StudySummary summary) {
    return new Draft(log, summary).text();
  }

  /** The text while it is being written. */
  private static final class Draft {
    private final StudyLog log;
    private final StudySummary summary;
    private final List<String> sentences = new ArrayList<>();
    private final Set<String> sources = new TreeSet<>();

    Draft(StudyLog log, StudySummary summary) {
      this.log = log;
      this.summary = summary;
    }

    MethodsText text() {
      judging();
      Planned.of(log, summary).ifPresent(planned -> sentences.addAll(planned.methods()));
      rates();
      groups();
      trends();
      drafts();
      corrections();
      return new MethodsText(List.of(String.join(" ", sentences), files()), List.copyOf(sources));
    }

    private void judging() {
      sentences.add(
          String.format(
              Locale.ROOT,
              "Whether %s to %s address each demand of the question was judged by %s, a program"
                  + " that reads the demands of a prompt and looks in each response for the words"
                  + " that answer them; it judges coverage, not correctness. A demand is called"
                  + " missing when the program found no such words.",
              Words.count(summary.responses(), "response"),
              Words.count(summary.prompts().size(), "prompt"),
              log.program()));
      sentences.add(Flow.of(log).sentences());
      sentences.add(
          Wording.of(
              log.settings().judge().equals(CoverageAnalyzer.WITHOUT_READER)
                  ? "methods.without"
                  : "methods.with"));
      int share = CoverageAnalyzer.readerShare(log.settings().judge());
      if (share > 0 && share < 100) {
        sentences.add(Wording.of("methods.share", "share", share));
      }
      if (summary.byMeaning() > 0) {
        sentences.add(
            "Where words left open which part a sentence answers, a general model of sentence"
                + " meaning decided (in "
                + Words.count(summary.byMeaning(), "response")
                + ").");
      }
    }

    private void rates() {
      String percent = String.format(Locale.ROOT, "%s %%", percent());
      sentences.add(
          "Omission rates (missing over missing, partly and addressed demands) are given with "
              + percent
              + " Wilson score intervals, with an effective sample size where demands of one "
              + cluster(summary)
              + " can resemble each other (variance and degrees of freedom after Bell and"
              + " McCaffrey, intracluster correlation estimated from the residuals).");
      sources.add(
          "Bell RM, McCaffrey DF (2002) Bias reduction in standard errors for linear regression"
              + " with multi-stage samples. Survey Methodology 28:169-181.");
      sources.add(
          "Imbens GW, Kolesar M (2016) Robust standard errors in small samples: some practical"
              + " advice. Review of Economics and Statistics 98:701-712.");
      sources.add(
          "Korn EL, Graubard BI (1998) Confidence intervals for proportions with small expected"
              + " number of positive counts estimated from survey data. Survey Methodology"
              + " 24:193-201.");
      sources.add(
          "Wilson EB (1927) Probable inference, the law of succession, and statistical inference."
              + " J American Statistical Association 22:209-212.");
      if (!summary.coOmissions().isEmpty()) {
        sentences.add(
            "How often two demands are left open together is given as the phi coefficient and as"
                + " lift.");
        sources.add(
            "Yule GU (1912) On the methods of measuring association between two attributes. J Royal"
                + " Statistical Society 75:579-652.");
      }
    }

    private String percent() {
      double percent = summary.level().value() * 100;
      return percent == Math.rint(percent)
          ? String.format(Locale.ROOT, "%.0f", percent)
          : String.format(Locale.ROOT, "%s", percent);
    }

    private void groups() {
      if (summary.comparisons().isEmpty()) {
        return;
      }
      Set<String> tests =
          summary.comparisons().stream()
              .flatMap(one -> one.clusteredTest().stream())
              .map(test -> test.name().label())
              .collect(Collectors.toCollection(TreeSet::new));
      Set<Method.Name> methods =
          summary.comparisons().stream()
              .map(one -> one.method().name())
              .collect(Collectors.toCollection(TreeSet::new));
      sentences.add(
          "Groups (by "
              + String.join(", ", log.settings().by())
              + ") were compared by the difference of rates and by the odds ratio"
              + (methods.contains(Method.Name.CLUSTERED)
                  ? " with cluster-robust t intervals (clusters: " + cluster(summary) + ")"
                  : "")
              + (methods.contains(Method.Name.ALONE)
                  ? (methods.contains(Method.Name.CLUSTERED)
                          ? ", or where no cluster has more than one demand"
                          : "")
                      + " with Newcombe's hybrid score interval and Woolf's interval"
                  : "")
              + (tests.isEmpty() ? "" : ", tested by " + String.join(" or ", tests))
              + ", with Holm's correction over each family of tests.");
      sources.add(
          "Holm S (1979) A simple sequentially rejective multiple test procedure. Scandinavian J"
              + " Statistics 6:65-70.");
      if (methods.contains(Method.Name.ALONE)) {
        sources.add(
            "Newcombe RG (1998) Interval estimation for the difference between independent"
                + " proportions. Statistics in Medicine 17:873-890.");
      }
    }

    private void trends() {
      Set<String> tests =
          summary.trends().stream()
              .flatMap(one -> one.test().stream())
              .map(test -> test.name().label())
              .collect(Collectors.toCollection(TreeSet::new));
      if (!tests.isEmpty()) {
        sentences.add(
            "Trends over the position of a demand and over the length of the response were tested"
                + " by "
                + String.join(" or ", tests)
                + ".");
        if (tests.contains(SignificanceTest.Name.TREND.label())) {
          sources.add(
              "Armitage P (1955) Tests for linear trends in proportions and frequencies. Biometrics"
                  + " 11:375-386.");
        }
      }
    }

    private void drafts() {
      if (summary.drafts().isEmpty() || summary.drafts().get().answers() == 0) {
        return;
      }
      StudySummary.Drafts drafts = summary.drafts().get();
      boolean clustered =
          drafts.changes().stream().anyMatch(one -> one.method().name() == Method.Name.CLUSTERED);
      boolean alone =
          drafts.changes().stream().anyMatch(one -> one.method().name() == Method.Name.ALONE);
      sentences.add(
          "The first and the last draft of "
              + Words.count(drafts.answers(), "answer")
              + " (drafts in the order "
              + String.join(", ", drafts.order())
              + ") were compared by "
              + (clustered
                  ? "the mean change of demands with cluster-robust t intervals (clusters: "
                      + cluster(summary)
                      + ")"
                  : "")
              + (clustered && alone ? " or " : "")
              + (alone ? "McNemar's test and an adjusted Wald interval" : "")
              + ".");
      if (alone) {
        sources.add(
            "Bonett DG, Price RM (2012) Adjusted Wald confidence interval for a difference of"
                + " binomial proportions based on paired data. J Educational and Behavioral"
                + " Statistics 37:479-488.");
        sources.add(
            "McNemar Q (1947) Note on the sampling error of the difference between correlated"
                + " proportions or percentages. Psychometrika 12:153-157.");
      }
    }

    private void corrections() {
      if (!summary.corrections().isEmpty()) {
        sentences.add(
            "Rates were corrected for the program's errors from the coded demands in each stratum"
                + " of kind, verdict and doubt (double sampling for stratification), with intervals"
                + " that carry the uncertainty of the set and of the codes.");
        sources.add(
            "Cochran WG (1977) Sampling Techniques, 3rd ed. New York: Wiley, section 12.2.");
        sentences.add(
            "The program's codes and people's were compared by percent agreement, Cohen's kappa,"
                + " Krippendorff's nominal alpha and Gwet's AC1; where several coded demands come"
                + " from one "
                + cluster(summary)
                + ", or demands were drawn with unequal chances, with linearised variances over"
                + " clusters (otherwise alpha's interval is by 1,000 bootstrap resamples, seed "
                + log.settings().seed()
                + ").");
        sources.add(
            "Binder DA (1983) On the variances of asymptotically normal estimators from complex"
                + " surveys. International Statistical Review 51:279-292.");
        sources.add(
            "Cohen J (1960) A coefficient of agreement for nominal scales. Educational and"
                + " Psychological Measurement 20:37-46.");
        sources.add(
            "Fleiss JL, Cohen J, Everitt BS (1969) Large sample standard errors of kappa and"
                + " weighted kappa. Psychological Bulletin 72:323-327.");
        sources.add(
            "Gwet KL (2008) Computing inter-rater reliability and its variance in the presence of"
                + " high agreement. British J Mathematical and Statistical Psychology 61:29-48.");
        sources.add("Krippendorff K (2011) Computing Krippendorff's alpha-reliability.");
      }
    }

    private String files() {
      return "Lexicon files (SHA-256, first "
          + SHOWN_OF_CHECKSUM
          + " digits): "
          + log.inputs().lexicon().stream()
              .map(file -> file.name() + " " + shortened(file))
              .collect(Collectors.joining(", "))
          + ". Responses: "
          + shortened(log.inputs().responses())
          + ". All settings and whole checksums stand in study.log.json, from which the run can be"
          + " repeated.";
    }

    private static String shortened(StudyLog.Checked file) {
      return Optional.ofNullable(file.sha256())
          .map(sum -> sum.substring(0, SHOWN_OF_CHECKSUM))
          .orElse("(no checksum)");
    }
  }
}
