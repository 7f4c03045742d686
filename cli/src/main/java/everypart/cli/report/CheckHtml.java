package everypart.cli.report;

import everypart.analyzer.coverage.Coverage;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** The result of one response as one self-contained HTML file for its writer. */
public final class CheckHtml {
  private CheckHtml() {}

  /** The page. */
  record Page(
      String title,
      String question,
      ResponseView response,
      List<Doubts.Section> doubtful,
      String caution,
      String judge) {}

  /** Returns the page. */
  public static String of(Coverage coverage, Optional<Revision> revision) {
    String title = coverage.prompt().title().orElse(coverage.prompt().id());
    return Templates.page(
        "check.html",
        title,
        List.of("style.css"),
        new Page(
            title,
            coverage.prompt().text().strip(),
            ResponseView.of(coverage, coverage, revision, "r"),
            Doubts.sections(List.of(coverage.prompt())),
            Cautions.WRITER,
            Cautions.judge(Set.of(coverage.judge()))));
  }
}
