package everypart.cli.report;

import everypart.analyzer.coverage.CoverageAnalyzer;
import everypart.analyzer.study.StudySummary;
import everypart.analyzer.study.statistics.Method;
import everypart.analyzer.study.statistics.SignificanceTest;
import java.util.ArrayList;
import java.util.Collection;
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
    return summary.levels().isEmpty()
        ? Wording.of("words.cluster")
        : summary.levels().get(0).column();
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
          Wording.of(
              "methods.judging",
              "responses",
              Wording.count("words.response", summary.responses()),
              "prompts",
              Wording.count("words.prompt", summary.prompts().size()),
              "program",
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
            Wording.of(
                "methods.meaning",
                "responses",
                Wording.count("words.response", summary.byMeaning())));
      }
    }

    private void rates() {
      sentences.add(Wording.of("methods.rates", "percent", percent(), "cluster", cluster(summary)));
      sources.add(Wording.of("methods.source.bell2002"));
      sources.add(Wording.of("methods.source.imbens2016"));
      sources.add(Wording.of("methods.source.korn1998"));
      sources.add(Wording.of("methods.source.wilson1927"));
      if (!summary.coOmissions().isEmpty()) {
        sentences.add(Wording.of("methods.together"));
        sources.add(Wording.of("methods.source.yule1912"));
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
      boolean clustered = methods.contains(Method.Name.CLUSTERED);
      boolean alone = methods.contains(Method.Name.ALONE);
      sentences.add(
          Wording.of(
              "methods.groups",
              "columns",
              String.join(", ", log.settings().by()),
              "clustered",
              clustered ? Wording.of("methods.groups.clustered", "cluster", cluster(summary)) : "",
              "or",
              clustered && alone ? Wording.of("methods.groups.or") : "",
              "alone",
              alone ? Wording.of("methods.groups.alone") : "",
              "tests",
              tests.isEmpty() ? "" : Wording.of("methods.groups.tests", "tests", either(tests))));
      sources.add(Wording.of("methods.source.holm1979"));
      if (alone) {
        sources.add(Wording.of("methods.source.newcombe1998"));
      }
    }

    private void trends() {
      Set<String> tests =
          summary.trends().stream()
              .flatMap(one -> one.test().stream())
              .map(test -> test.name().label())
              .collect(Collectors.toCollection(TreeSet::new));
      if (!tests.isEmpty()) {
        sentences.add(Wording.of("methods.trends", "tests", either(tests)));
        if (tests.contains(SignificanceTest.Name.TREND.label())) {
          sources.add(Wording.of("methods.source.armitage1955"));
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
      List<String> how = new ArrayList<>();
      if (clustered) {
        how.add(Wording.of("methods.drafts.clustered", "cluster", cluster(summary)));
      }
      if (alone) {
        how.add(Wording.of("methods.drafts.alone"));
      }
      sentences.add(
          Wording.of(
              "methods.drafts",
              "answers",
              Wording.count("words.answer", drafts.answers()),
              "order",
              String.join(", ", drafts.order()),
              "how",
              either(how)));
      if (alone) {
        sources.add(Wording.of("methods.source.bonett2012"));
        sources.add(Wording.of("methods.source.mcnemar1947"));
      }
    }

    private void corrections() {
      if (!summary.corrections().isEmpty()) {
        sentences.add(Wording.of("methods.corrected"));
        sources.add(Wording.of("methods.source.cochran1977"));
        sentences.add(
            Wording.of(
                "methods.agreement", "cluster", cluster(summary), "seed", log.settings().seed()));
        sources.add(Wording.of("methods.source.binder1983"));
        sources.add(Wording.of("methods.source.cohen1960"));
        sources.add(Wording.of("methods.source.fleiss1969"));
        sources.add(Wording.of("methods.source.gwet2008"));
        sources.add(Wording.of("methods.source.krippendorff2011"));
      }
    }

    private String files() {
      return Wording.of(
          "methods.files",
          "digits",
          SHOWN_OF_CHECKSUM,
          "lexicon",
          log.inputs().lexicon().stream()
              .map(file -> file.name() + " " + shortened(file))
              .collect(Collectors.joining(", ")),
          "responses",
          shortened(log.inputs().responses()));
    }

    /** Returns alternatives, with "or" between each two. */
    private static String either(Collection<String> all) {
      return all.stream()
          .reduce((one, next) -> Wording.of("methods.or", "first", one, "second", next))
          .orElse("");
    }

    private static String shortened(StudyLog.Checked file) {
      return Optional.ofNullable(file.sha256())
          .map(sum -> sum.substring(0, SHOWN_OF_CHECKSUM))
          .orElse(Wording.of("methods.noChecksum"));
    }
  }
}
