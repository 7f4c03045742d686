package everypart.cli.report;

import everypart.analyzer.coverage.CoverageAnalyzer;
import java.util.Set;

/** What every report for people says about itself. */
final class Cautions {
  /** For the writer of a response. */
  static final String WRITER = Wording.of("caution.writer");

  /** For the reader of a class set or a study. */
  static final String READER = Wording.of("caution.reader");

  /** For a student, on a slip. */
  static final String SLIP = Wording.of("caution.slip");

  private Cautions() {}

  /**
   * Returns the sentence that says whether the reader took part.
   *
   * @param judges what {@link everypart.analyzer.coverage.Coverage#judge} says of the results
   */
  static String judge(Set<String> judges) {
    if (judges.isEmpty()) {
      return "";
    }
    int least = judges.stream().mapToInt(CoverageAnalyzer::readerShare).min().orElseThrow();
    if (judges.size() == 1 && least > 0 && least < 100) {
      return Wording.of("judge.share", "share", least);
    }
    boolean without = judges.contains(CoverageAnalyzer.WITHOUT_READER);
    return Wording.of(
        !without ? "judge.with" : judges.size() == 1 ? "judge.without" : "judge.both");
  }
}
